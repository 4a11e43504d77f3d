/** A lead-210 profile as it is written in the results. */
import type { LeadProfileResult } from '@stillstand/campaign/results';
import type { Row } from '@stillstand/campaign/tables';
import {
  type CaesiumHorizon,
  calBp,
  type Estimate,
  LEAD_MODELS,
  type LeadAges,
  type LeadCell,
  leadDefaults,
} from '@stillstand/science/lead';
import type { MeasuredSlice } from './lead-slices.ts';

type ProfileRow = Row<'lead_profiles'>;
export type Ages = Omit<LeadAges, 'peak' | 'onset'> & { peak: Horizon | null; onset: Horizon | null };
export type Horizon = Omit<CaesiumHorizon, 'depth_draws'>;

export function resultOf(
  { row_id, profile, hole }: ProfileRow,
  collected_ce: number | null,
  slices: readonly MeasuredSlice[],
  ages: Ages,
): LeadProfileResult {
  const { cells, supported, supply, flux, peak, onset, peak_in } = ages;
  const calendar = (age: Estimate | null): number | null =>
    age === null || collected_ce === null ? null : calBp(age.value, collected_ce);
  const agesOf = (cell: LeadCell) =>
    LEAD_MODELS.flatMap((model) => {
      const { middle, base } = cell[model];
      if (middle === null && base === null) return [];
      const ofModel = { model, middle_yr: middle, base_yr: base };
      return [{ ...ofModel, middle_cal_bp: calendar(middle), base_cal_bp: calendar(base) }];
    });
  const known = new Map(slices.map((slice) => [slice.slice.id, slice]));
  const measured = (name: string | null) => measuredOf(name === null ? undefined : known.get(name));
  const dated = new Set(cells.map(({ slice }) => slice));
  const undated = slices
    .filter(({ slice }) => !dated.has(slice.id) && slice.bottom_m > slice.top_m)
    .sort((a, b) => a.slice.top_m - b.slice.top_m);
  return {
    row_id,
    profile,
    hole,
    collected_ce,
    supported,
    half_life_yr: leadDefaults.half_life_yr.value,
    inventory_bq_m2: supply?.inventory_bq_m2 ?? null,
    below_bq_m2: supply?.below_bq_m2 ?? null,
    supply_bq_m2_yr: supply?.supply_bq_m2_yr ?? null,
    surface_excess_bq_kg: flux?.surface_bq_kg ?? null,
    mean_rate_mm_yr: flux?.rate_mm_yr ?? null,
    mean_rate_g_cm2_yr: flux?.rate_g_cm2_yr ?? null,
    slices: [
      ...cells.map((cell) => ({
        slice: cell.slice,
        top_m: cell.top_m,
        bottom_m: cell.bottom_m,
        ...measured(cell.slice),
        excess_bq_kg: cell.excess_bq_kg,
        rate_mm_yr: cell.rate_mm_yr,
        rate_g_cm2_yr: cell.rate_g_cm2_yr,
        ages: agesOf(cell),
      })),
      ...undated.map(({ slice }) => ({
        slice: slice.id,
        top_m: slice.top_m,
        bottom_m: slice.bottom_m,
        ...measured(slice.id),
        excess_bq_kg: null,
        rate_mm_yr: null,
        rate_g_cm2_yr: null,
        ages: [],
      })),
    ],
    horizons: [...horizonOf('peak', peak, peak_in), ...horizonOf('onset', onset, null)],
  };
}

const measuredOf = (slice: MeasuredSlice | undefined) => {
  const { total, caesium } = slice?.slice ?? { total: null, caesium: null };
  const sigma = (of: typeof total): number | null => (of === null || of.is_limit ? null : of.sigma_bq_kg);
  return {
    entered_m: slice?.entered_m ?? null,
    total_bq_kg: total?.bq_kg ?? null,
    total_sigma_bq_kg: sigma(total),
    caesium_bq_kg: caesium?.bq_kg ?? null,
    caesium_sigma_bq_kg: sigma(caesium),
    density_g_cm3: slice?.density_g_cm3 ?? null,
  };
};

function horizonOf(
  kind: 'peak' | 'onset',
  horizon: Horizon | null,
  models: Ages['peak_in'] | null,
): LeadProfileResult['horizons'] {
  if (horizon === null) return [];
  const fallsIn = LEAD_MODELS.flatMap((model) => {
    const at = models?.[model] ?? null;
    return at === null ? [] : [{ model, year_ce: at.year_ce, difference_in_sd: at.difference_sigmas }];
  });
  return [{ kind, ...horizon, models: fallsIn }];
}
