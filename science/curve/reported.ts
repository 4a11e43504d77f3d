/** Every number a curve reports, with its draws, and whether the chains agree on it. */

import type { Summary } from '@stillstand/science/base';
import { summarize } from '@stillstand/science/base';
import type { Draws } from './draws.ts';
import type { Problem } from './problem.ts';

/** Asked of every reported number (Vehtari et al. 2021, Bayesian Anal. 16:667–718). */
const RHAT = 1.01;
const ESS = 400;

export const hasConverged = (s: Summary): boolean => s.rhat < RHAT && s.ess_bulk >= ESS && s.ess_tail >= ESS;

type WholeSummary = ReturnType<typeof summarize>;

export interface Quantity {
  name: string;
  chains: Float64Array[];
  /** Made when first asked for. */
  summary: WholeSummary | null;
}

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
  const { settings, points, groups, offsets } = problem;
  const quantity = (name: string, pick: (d: Draws) => Float64Array): Quantity => ({
    name,
    chains: draws.map((d) => pick(d).subarray(0, kept)),
    summary: null,
  });
  const at = settings.ages_cal_bp;
  return {
    level: at.map((age, k) => quantity(`level at ${age} cal BP`, (d) => d.level_m[k]!)),
    rate: at.map((age, k) => quantity(`rate at ${age} cal BP`, (d) => d.rate_mm_yr[k]!)),
    interval: settings.intervals.map((i, k) =>
      quantity(`rate from ${i.older_cal_bp} to ${i.younger_cal_bp} cal BP`, (d) => d.interval_mm_yr[k]!),
    ),
    age: points.map((point, i) => quantity(`age of ${point.id}`, (d) => d.age_cal_bp[i]!)),
    shift: groups.map((group, g) => quantity(`shared error ${group}`, (d) => d.shift_m[g]!)),
    offset: offsets.map((offset, g) => quantity(`reservoir error ${offset}`, (d) => d.offset_yr[g]!)),
    rate_sd: [quantity('sd of the rate', (d) => d.rate_sd_mm_yr)],
    length: [quantity('length of the rate', (d) => d.length_ka)],
  };
}

export const quantitiesOf = (all: Reported): Quantity[] => Object.values(all).flat() as Quantity[];

export function wholeSummary(quantity: Quantity): WholeSummary {
  quantity.summary ??= summarize(quantity.chains);
  return quantity.summary;
}

/** The number that has not settled, by name; null where all have. The last one to fail is asked first. */
export function unsettled(all: Reported, lastToFail: string | null): string | null {
  const quantities = quantitiesOf(all);
  const last = quantities.filter((q) => q.name === lastToFail);
  return [...last, ...quantities].find((q) => !hasConverged(wholeSummary(q)))?.name ?? null;
}

export function whyUnsettled({ name }: Quantity, s: Summary): string {
  return (
    `${name} did not converge: R-hat ${s.rhat.toFixed(3)} (below ${RHAT} wanted), ${Math.round(s.ess_bulk)} effective ` +
    `draws, ${Math.round(s.ess_tail)} of them for its bounds (${ESS} wanted).`
  );
}
