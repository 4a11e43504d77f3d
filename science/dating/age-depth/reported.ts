/** Every number reported of a hole, with its draws. */
import { type Quantity, quantity } from '@stillstand/science/base';
import type { Draws } from './draws.ts';
import type { Hole } from './hole.ts';

export interface Reported {
  age: Quantity[];
  accumulation: Quantity[];
  horizon: Quantity[];
  gap: Quantity[];
  bed: Quantity[];
  hole: { accumulation: Quantity; variation: Quantity; persistence: Quantity };
  all: Quantity[];
}

/** Of the first `kept` draws of each chain. */
export function reported(hole: Hole, draws: readonly Draws[], kept: number): Reported {
  const of = (name: string, pick: (d: Draws) => Float64Array): Quantity => quantity(name, draws, kept, pick);
  const grid = Array.from(hole.grid.depth_m, (depth) => `${depth.toFixed(2)} m`);
  const age = grid.map((at, j) => of(`age at ${at}`, (d) => d.age_cal_bp[j]!));
  const accumulation = grid.map((at, j) => of(`accumulation at ${at}`, (d) => d.accumulation_mm_yr[j]!));
  const horizon = hole.horizons.map(({ id }, i) => of(`age of ${id}`, (d) => d.horizon_cal_bp[i]!));
  const gap = hole.breaks.map(({ id }, b) => of(`gap at ${id}`, (d) => d.gap_yr[b]!));
  const bed = hole.beds.map(({ id }, b) => of(`age of bed ${id}`, (d) => d.bed_cal_bp[b]!));
  const law = {
    accumulation: of('accumulation of the hole', (d) => d.hole_accumulation_mm_yr),
    variation: of('variation of accumulation', (d) => d.variation),
    persistence: of('persistence of accumulation', (d) => d.persistence_m),
  };
  // Those that settle last are asked first.
  return {
    age,
    accumulation,
    horizon,
    gap,
    bed,
    hole: law,
    all: [...Object.values(law), ...gap, ...bed, ...horizon, ...age, ...accumulation],
  };
}
