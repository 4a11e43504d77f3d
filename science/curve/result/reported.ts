/** Every number a curve reports, with its draws. */
import { type Quantity, quantity } from '@stillstand/science/base';
import { groupOfDoses } from '@stillstand/science/dating';
import { type Draws, stepsOf } from '../chain/draws.ts';
import type { Problem } from '../problem/problem.ts';

export interface Reported {
  level: Quantity[];
  rate: Quantity[];
  interval: Quantity[];
  age: Quantity[];
  shift: Quantity[];
  offset: Quantity[];
  rate_sd: Quantity[];
  /** None where the model has none. */
  length: Quantity[];
  slowing: Quantity[];
  scatter: Quantity[];
  change: Quantity[];
  older: Quantity[];
  younger: Quantity[];
  jump: Quantity[];
}

/** Of the first `kept` draws of each chain. */
export function reported(problem: Problem, draws: readonly Draws[], kept: number): Reported {
  const { settings, points, groups, burials, offsets } = problem;
  const of = (name: string, pick: (d: Draws) => Float64Array): Quantity => quantity(name, draws, kept, pick);
  const at = settings.ages_cal_bp;
  const { rate_model } = settings;
  // The oldest first.
  const steps = stepsOf(problem);
  const changes = Array.from({ length: steps }, (_, k) => steps - 1 - k);
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
    offset: offsets.map((offset, g) => {
      const doses = groupOfDoses(offset);
      const name = doses === null ? `reservoir error ${offset}` : `systematic error of dates ${doses}`;
      return of(name, (d) => d.offset_yr[g]!);
    }),
    rate_sd: [of('sd of the rate', (d) => d.rate_sd_mm_yr)],
    length: rate_model.kind === 'smooth' ? [of('length of the rate', (d) => d.length_ka)] : [],
    slowing: rate_model.slowing_mm_yr_ka > 0 ? [of('slowing of the rate', (d) => d.slowing_mm_yr_ka)] : [],
    scatter: settings.extra_scatter_m > 0 ? [of('extra scatter of the heights', (d) => d.scatter_m)] : [],
    change: changes.map((k) => of(`age of change ${steps - k}`, (d) => d.change_cal_bp[k]!)),
    older: changes.map((k) => of(`rate before change ${steps - k}`, (d) => d.older_mm_yr[k]!)),
    younger: changes.map((k) => of(`rate after change ${steps - k}`, (d) => d.younger_mm_yr[k]!)),
    jump:
      rate_model.jump_sd_m > 0
        ? changes.map((k) => of(`jump at change ${steps - k}`, (d) => d.jump_m[k]!))
        : [],
  };
}

export const quantitiesOf = (all: Reported): Quantity[] => Object.values(all).flat() as Quantity[];
