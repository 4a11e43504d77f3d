/** The three models over one column: at best value, and in every draw. */
import { type RandomStream, standardDeviation } from '@stillstand/science/base';
import { belowOf, reachesBase } from './below.ts';
import { type Column, massOf } from './column.ts';
import { constantConcentration } from './constant-concentration.ts';
import { constantSupply, type SupplyAges } from './constant-supply.ts';
import { type FluxFit, fluxFit } from './flux-fit.ts';
import type { LeadSettings, LeadSlice } from './profile.ts';
import { type Drawn, errorsOf, NO_ERRORS, type Reading, reading } from './reading.ts';
import type { Supported } from './supported.ts';

export interface Models {
  readings: Drawn<Reading>;
  /** Dry mass of each cell, kg/m². */
  mass_kg_m2: Float64Array;
  /** Null without a surface or a density, or where too much lies below. */
  supply: Drawn<SupplyAges> | null;
  /** Inventory below the last cell, Bq/m²; null where none is needed. */
  below: Drawn<number> | null;
  /** Its share of the whole inventory, 0–1; NaN where it cannot be estimated. */
  below_share: number;
  flux: FluxFit | null;
  /** Ages at the middle of each cell, yr before collection. */
  concentration: Drawn<Float64Array> | null;
}

/** Beyond this share of the whole inventory, what lies below the last slice is no estimate any more (our choice). */
export const MOST_BELOW = 0.3;

export function modelsOf(
  slices: readonly LeadSlice[],
  column: Column,
  supported: Supported,
  settings: LeadSettings,
  stream: RandomStream,
): Models {
  const { cells, has_surface } = column;
  const errors = errorsOf(stream.split('activities'));
  const best = reading(slices, column, supported, settings, NO_ERRORS);
  const draws = Array.from({ length: settings.draws }, () =>
    reading(slices, column, supported, settings, errors),
  );
  const readings = { best, draws };
  const sd = cells.map((_, i) => standardDeviation(draws.map(({ excess }) => excess[i]!)));
  const mass_kg_m2 = Float64Array.from(cells, massOf);
  const hasMass = !mass_kg_m2.some(Number.isNaN);

  const flux = fluxFit(column, readings, sd, hasMass ? mass_kg_m2 : null);
  const below =
    hasMass && settings.below === 'estimated' && supported.from !== 'tail' && reachesBase(readings)
      ? belowOf(readings, flux, stream.split('below'))
      : null;
  const all = hasMass ? constantSupply(best, mass_kg_m2, below?.best ?? 0) : null;
  const below_share = all === null || below === null ? 0 : below.best / all.inventory_bq_m2;
  return {
    readings,
    mass_kg_m2,
    below,
    below_share,
    flux,
    supply:
      all === null || !has_surface || !(all.inventory_bq_m2 > 0) || !(below_share <= MOST_BELOW)
        ? null
        : {
            best: all,
            draws: draws.map((draw, k) => constantSupply(draw, mass_kg_m2, below?.draws[k] ?? 0)),
          },
    concentration: has_surface ? concentrationOf(readings, flux) : null,
  };
}

function concentrationOf({ best, draws }: Drawn<Reading>, flux: FluxFit | null): Drawn<Float64Array> {
  const top = flux?.middle_x[0] ?? 0;
  return {
    best: constantConcentration(best, (flux?.fit.best.slope ?? 0) * top),
    draws: draws.map((draw, k) => constantConcentration(draw, (flux?.fit.draws[k]?.slope ?? 0) * top)),
  };
}
