/**
 * Ages of a lead-210 profile by three models, each with its errors by drawing everything that was measured again and
 * again; and where the caesium-137 of the same slices falls in them. Formulae and limits: docs/methods/lead.md.
 */
import { exp, type RandomStream } from '@stillstand/science/base';
import type { Estimate } from './age-estimate.ts';
import { ageInColumn, agesInColumn, agesOfCell, mapModels, ratesOfCell } from './ages-in-column.ts';
import { type CaesiumHorizon, caesiumHorizons, type HorizonInModel, horizonIn } from './caesium.ts';
import { type Cell, columnOf } from './column.ts';
import { doubtsOf } from './doubts.ts';
import { type Models, modelsOf } from './models.ts';
import type { LeadFault, LeadModel, LeadProfile, LeadSettings } from './profile.ts';
import { drawn } from './reading.ts';
import { usableSlices } from './slices.ts';
import { type Supported, supportedOf } from './supported.ts';

/** Years before collection; null where the model gives none or the age is not bounded. */
export interface ModelAges {
  middle: Estimate | null;
  base: Estimate | null;
}

export interface LeadCell extends Record<LeadModel, ModelAges> {
  /** Null between slices. */
  slice: string | null;
  top_m: number;
  bottom_m: number;
  /** Unsupported lead-210, Bq/kg. */
  excess_bq_kg: Estimate;
  /** True where its lead-210 was not measured but taken from its neighbours. */
  is_estimated: boolean;
  /** Accumulation by constant supply. */
  rate_g_cm2_yr: Estimate | null;
  rate_mm_yr: Estimate | null;
}

export interface LeadAges {
  /** From the surface to the last with lead-210 above the tail; empty where none can be dated. */
  cells: LeadCell[];
  supported: (Omit<Supported, 'tail'> & { slices: string[] }) | null;
  supply: {
    inventory_bq_m2: Estimate;
    /** Of it, estimated below the last slice; null where that is none. */
    below_bq_m2: Estimate | null;
    supply_bq_m2_yr: Estimate;
  } | null;
  flux: {
    against: 'mass' | 'depth';
    /** Activity at the surface, Bq/kg. */
    surface_bq_kg: Estimate;
    rate_g_cm2_yr: Estimate | null;
    rate_mm_yr: Estimate;
    chi_square: number;
    degrees: number;
  } | null;
  peak: CaesiumHorizon | null;
  onset: CaesiumHorizon | null;
  /** Where the caesium peak falls in each model; null too where there is no peak or no date of collection. */
  peak_in: Record<LeadModel, HorizonInModel | null>;
  faults: LeadFault[];
}

/** Never throws for bad input: what cannot be used is named in `faults`, the rest is computed. */
export function leadAges(profile: LeadProfile, settings: LeadSettings, stream: RandomStream): LeadAges {
  const { used, faults } = usableSlices(profile);
  const { peak, onset, why } = caesiumHorizons(used, settings.draws, stream.split('caesium'));
  const caesium: LeadFault[] = why.map((found) => ({
    code: 'caesium',
    severity: 'note',
    slice: null,
    found,
    expected: 'a peak inside the profile, and slices without caesium-137 below the last with some',
    fix: 'No action needed: no horizon is taken from it.',
  }));
  const { supported, faults: aboutSupported } = supportedOf(used, profile.supported);
  const { column, faults: aboutColumn } =
    supported === null ? { column: null, faults: [] } : columnOf(used, supported);
  const all = [...faults, ...caesium, ...aboutSupported, ...aboutColumn];
  const none: LeadAges = {
    cells: [],
    supported:
      supported === null
        ? null
        : { ...withoutTail(supported), slices: supported.tail.map((i) => used[i]!.id) },
    supply: null,
    flux: null,
    peak,
    onset,
    peak_in: { constant_supply: null, constant_concentration: null, constant_flux: null },
    faults: all,
  };
  if (supported === null || column === null) return none;
  const models = modelsOf(used, column, supported, settings, stream.split('lead'));
  const ages = agesInColumn(column, models);
  return {
    ...none,
    cells: column.cells.map((cell, i) => ({
      slice: cell.slice === null ? null : used[cell.slice]!.id,
      top_m: cell.top_m,
      bottom_m: cell.bottom_m,
      excess_bq_kg: drawn(models.readings, ({ excess }) => excess[i]!)!,
      is_estimated: cell.slice !== cell.lead[0],
      ...agesOfCell(ages, i),
      ...ratesOfCell(cell, models, i),
    })),
    supply: supplyOf(models),
    flux: fluxOf(models, column.cells),
    peak_in: mapModels((model) => {
      const of = ages[model];
      if (of === null || peak === null || profile.collected_ce === null) return null;
      return horizonIn(peak, profile.collected_ce, ageInColumn(column.cells, of));
    }),
    faults: [...all, ...doubtsOf(used, column, models)],
  };
}

const withoutTail = ({ from, bq_kg, sigma_bq_kg }: Supported): Omit<Supported, 'tail'> => ({
  from,
  bq_kg,
  sigma_bq_kg,
});

function supplyOf({ supply, below }: Models): LeadAges['supply'] {
  if (supply === null) return null;
  const inventory_bq_m2 = drawn(supply, (of) => of.inventory_bq_m2);
  const supply_bq_m2_yr = drawn(supply, (of) => of.supply_bq_m2_yr);
  if (inventory_bq_m2 === null || supply_bq_m2_yr === null) return null;
  return {
    inventory_bq_m2,
    below_bq_m2: below === null ? null : drawn(below, (of) => of),
    supply_bq_m2_yr,
  };
}

function fluxOf({ flux, readings, mass_kg_m2 }: Models, cells: readonly Cell[]): LeadAges['flux'] {
  if (flux === null) return null;
  const { against, fit, last, chi_square, degrees } = flux;
  // Decay over the fall of ln C per kg/m² or m.
  const lambdas = readings.draws.map(({ lambda }) => lambda);
  const over = {
    best: readings.best.lambda / fit.best.slope,
    draws: fit.draws.map(({ slope }, k) => lambdas[k]! / slope),
  };
  const mean_kg_m3 =
    mass_kg_m2.subarray(0, last + 1).reduce((sum, mass) => sum + mass, 0) / cells[last]!.bottom_m;
  const rate_mm_yr = drawn(over, (rate) => (against === 'mass' ? rate / mean_kg_m3 : rate) * 1000);
  const surface_bq_kg = drawn(fit, ({ intercept }) => exp(intercept));
  if (rate_mm_yr === null || surface_bq_kg === null) return null;
  return {
    against,
    surface_bq_kg,
    // 1 kg/m² is 0.1 g/cm².
    rate_g_cm2_yr: against === 'mass' ? drawn(over, (rate) => rate * 0.1) : null,
    rate_mm_yr,
    chi_square,
    degrees,
  };
}
