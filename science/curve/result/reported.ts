/** Every number a curve reports, with its draws. */
import { type Quantity, quantity } from '@stillstand/science/base';
import type { Draws } from '../chain/draws.ts';
import type { Problem } from '../problem/problem.ts';

export interface Reported {
  level: Quantity[];
  rate: Quantity[];
  interval: Quantity[];
  age: Quantity[];
  shift: Quantity[];
  offset: Quantity[];
  rate_sd: Quantity[];
  length: Quantity[];
}

/** Of the first `kept` draws of each chain. */
export function reported(problem: Problem, draws: readonly Draws[], kept: number): Reported {
  const { settings, points, groups, burials, offsets } = problem;
  const of = (name: string, pick: (d: Draws) => Float64Array): Quantity => quantity(name, draws, kept, pick);
  const at = settings.ages_cal_bp;
  return {
    level: at.map((age, k) => of(`level at ${age} cal BP`, (d) => d.level_m[k]!)),
    rate: at.map((age, k) => of(`rate at ${age} cal BP`, (d) => d.rate_mm_yr[k]!)),
    interval: settings.intervals.map((i, k) =>
      of(`rate from ${i.older_cal_bp} to ${i.younger_cal_bp} cal BP`, (d) => d.interval_mm_yr[k]!),
    ),
    age: points.map((point, i) => of(`age of ${point.id}`, (d) => d.age_cal_bp[i]!)),
    shift: groups.map((group, g) =>
      of(
        `${g < groups.length - burials ? 'shared error' : 'lowering in hole'} ${group}`,
        (d) => d.shift_m[g]!,
      ),
    ),
    offset: offsets.map((offset, g) => of(`reservoir error ${offset}`, (d) => d.offset_yr[g]!)),
    rate_sd: [of('sd of the rate', (d) => d.rate_sd_mm_yr)],
    length: [of('length of the rate', (d) => d.length_ka)],
  };
}

export const quantitiesOf = (all: Reported): Quantity[] => Object.values(all).flat() as Quantity[];
