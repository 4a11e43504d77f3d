/** Ages of the cells of a column by each model, and of any depth in it. */
import type { Estimate } from './age-estimate.ts';
import type { Cell, Column } from './column.ts';
import type { Models } from './models.ts';
import { LEAD_MODELS, type LeadModel } from './profile.ts';
import { type Drawn, drawn, mapDrawn } from './reading.ts';

type ByModel<T> = Record<LeadModel, T>;

export const mapModels = <T>(of: (model: LeadModel) => T): ByModel<T> =>
  Object.fromEntries(LEAD_MODELS.map((model) => [model, of(model)])) as ByModel<T>;

/** Ages before collection of each cell; NaN where the model gives none. */
export interface AgesOfCells {
  middle: Float64Array;
  base: Float64Array;
}

export function agesInColumn(
  { cells }: Column,
  { supply, flux, concentration, readings }: Models,
): Record<LeadModel, Drawn<AgesOfCells> | null> {
  const bounded = (at: number): boolean => at < cells.length - 1;
  return {
    constant_supply:
      supply === null
        ? null
        : mapDrawn(supply, ({ middle, base }) => ({
            middle,
            // All that is left below the last base is what was estimated: no age.
            base: base.map((age, i) => (bounded(i) ? age : NaN)),
          })),
    constant_concentration:
      concentration === null
        ? null
        : mapDrawn(concentration, (middle) => ({ middle, base: middle.map(() => NaN) })),
    constant_flux:
      flux === null
        ? null
        : {
            best: straight(flux, flux.fit.best.slope, readings.best.lambda),
            draws: flux.fit.draws.map(({ slope }, k) => straight(flux, slope, readings.draws[k]!.lambda)),
          },
  };
}

function straight(
  { middle_x, base_x, last }: NonNullable<Models['flux']>,
  slope: number,
  lambda: number,
): AgesOfCells {
  const age = (x: number, i: number): number => (i <= last ? (slope * x) / lambda : NaN);
  return { middle: middle_x.map(age), base: base_x.map(age) };
}

export const agesOfCell = (
  ages: ByModel<Drawn<AgesOfCells> | null>,
  i: number,
): ByModel<{ middle: Estimate | null; base: Estimate | null }> =>
  mapModels((model) => {
    const of = ages[model];
    const at = (where: keyof AgesOfCells): Estimate | null =>
      of === null ? null : drawn(of, (cells) => cells[where][i]!);
    return { middle: at('middle'), base: at('base') };
  });

/** Accumulation in a cell by constant supply. */
export function ratesOfCell(
  { density_g_cm3 }: Cell,
  { supply }: Models,
  i: number,
): { rate_g_cm2_yr: Estimate | null; rate_mm_yr: Estimate | null } {
  if (supply === null || density_g_cm3 === null) return { rate_g_cm2_yr: null, rate_mm_yr: null };
  return {
    rate_g_cm2_yr: drawn(supply, (of) => of.rate_g_cm2_yr[i]!),
    // 1 cm is 10 mm.
    rate_mm_yr: drawn(supply, (of) => (10 * of.rate_g_cm2_yr[i]!) / density_g_cm3),
  };
}

/** Age of any depth, straight between the surface, middles and bases that have one; NaN beyond them. */
export function ageInColumn(
  cells: readonly Cell[],
  { best, draws }: Drawn<AgesOfCells>,
): (depth_m: number, draw: number | null) => number {
  return (depth_m, draw) => {
    const { middle, base } = draw === null ? best : draws[draw]!;
    let [before_m, before_yr] = [0, 0];
    for (const [i, { top_m, bottom_m }] of cells.entries()) {
      for (const [at_m, age] of [
        [(top_m + bottom_m) / 2, middle[i]!],
        [bottom_m, base[i]!],
      ] as const) {
        if (Number.isNaN(age)) continue;
        if (at_m >= depth_m)
          return before_yr + ((age - before_yr) * (depth_m - before_m)) / (at_m - before_m);
        [before_m, before_yr] = [at_m, age];
      }
    }
    return NaN;
  };
}
