/** Constant flux and sedimentation fitted to a column: which cells, how well, and how surely. */
import { square } from '@stillstand/science/base';
import type { Column } from './column.ts';
import { type Decline, decline, exponential, misfit } from './constant-flux.ts';
import type { Drawn, Reading } from './reading.ts';

export interface FluxFit {
  against: 'mass' | 'depth';
  /** Of each cell: kg/m² or m. */
  middle_x: Float64Array;
  base_x: Float64Array;
  /** Last cell that it gives an age: below it the activity is none that can be found. */
  last: number;
  fit: Drawn<Decline>;
  chi_square: number;
  degrees: number;
}

/** What counts as found, sigma. */
const FOUND = 2;

/** Null for fewer than three measured cells, above the first two in a row with none above 2 sigma, or where it does not fall. */
export function fluxFit(
  { cells }: Column,
  { best, draws }: Drawn<Reading>,
  sd: readonly number[],
  mass_kg_m2: Float64Array | null,
): FluxFit | null {
  const thickness = cells.map(({ top_m, bottom_m }, i) => mass_kg_m2?.[i] ?? bottom_m - top_m);
  const base_x = new Float64Array(cells.length);
  const middle_x = new Float64Array(cells.length);
  for (const [i, t] of thickness.entries()) {
    base_x[i] = (base_x[i - 1] ?? 0) + t;
    middle_x[i] = base_x[i]! - t / 2;
  }
  const isMeasured = (i: number): boolean => cells[i]!.slice === cells[i]!.lead[0];
  const measured = [...cells.keys()].filter(isMeasured);
  // One barren slice among others is chance or an event; two are the end.
  const isBarren = (i: number | undefined): boolean => i === undefined || !(best.excess[i]! > FOUND * sd[i]!);
  const barren = measured.findIndex((i, k) => isBarren(i) && isBarren(measured[k + 1]));
  const found = barren === -1 ? measured : measured.slice(0, barren);
  if (found.length < 3) return null;
  // Exact activities have no weights: a straight line through their logarithms.
  const isExact = measured.some((i) => !(sd[i]! > 0));
  const used = isExact ? found : measured;
  const x = used.map((i) => middle_x[i]!);
  const spread = used.map((i) => sd[i]!);
  const c = ({ excess }: Reading): number[] => used.map((i) => excess[i]!);
  const line = decline(
    found.map((i) => middle_x[i]!),
    found.map((i) => best.excess[i]!),
    found.map((i) => (isExact ? 1 : square(Math.max(0, best.excess[i]!) / sd[i]!))),
  );
  const fitted = isExact || line === null ? line : exponential(x, c(best), spread, line);
  if (fitted === null || !(fitted.slope > 0)) return null;
  const chi_square = isExact ? 0 : misfit(fitted, x, c(best), spread);
  const degrees = used.length - 2;
  // Activities scatter about a curve by more than their counting errors: it is as uncertain as they do.
  const wider = Math.sqrt(Math.max(1, chi_square / degrees));
  const from_best = (of: number, value: number): number => value + wider * (of - value);
  const drawnFit = (draw: Reading): Decline => {
    const of = isExact ? fitted : exponential(x, c(draw), spread, fitted);
    if (of === null) return { slope: NaN, intercept: NaN };
    return {
      slope: from_best(of.slope, fitted.slope),
      intercept: from_best(of.intercept, fitted.intercept),
    };
  };
  return {
    against: mass_kg_m2 === null ? 'depth' : 'mass',
    middle_x,
    base_x,
    last: found.at(-1)!,
    chi_square,
    degrees,
    fit: { best: fitted, draws: draws.map(drawnFit) },
  };
}
