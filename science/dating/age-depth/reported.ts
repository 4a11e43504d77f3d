/** Every number reported, with its draws, and whether the chains agree on it. */
import { type Summary, summarize } from '@stillstand/science/base';
import type { Draws } from './draws.ts';
import type { Hole } from './hole.ts';

/** Asked of every reported number (Vehtari et al. 2021, Bayesian Anal. 16:667–718). */
const RHAT = 1.01;
const ESS = 400;

export interface Quantity {
  name: string;
  chains: Float64Array[];
  /** Made when first asked for. */
  summary: Summary | null;
}

export interface Reported {
  age: Quantity[];
  accumulation: Quantity[];
  horizon: Quantity[];
  gap: Quantity[];
  hole: { accumulation: Quantity; variation: Quantity; persistence: Quantity };
  all: Quantity[];
}

/** Of the first `kept` draws of each chain. */
export function reported(hole: Hole, draws: readonly Draws[], kept: number): Reported {
  const quantity = (name: string, pick: (d: Draws) => Float64Array): Quantity => ({
    name,
    chains: draws.map((d) => pick(d).subarray(0, kept)),
    summary: null,
  });
  const grid = Array.from({ length: hole.sections + 1 }, (_, j) => `${(j * hole.section_m).toFixed(2)} m`);
  const age = grid.map((at, j) => quantity(`age at ${at}`, (d) => d.age_cal_bp[j]!));
  const accumulation = grid.map((at, j) =>
    quantity(`accumulation at ${at}`, (d) => d.accumulation_mm_yr[j]!),
  );
  const horizon = hole.horizons.map(({ id }, i) => quantity(`age of ${id}`, (d) => d.horizon_cal_bp[i]!));
  const gap = hole.breaks.map(({ id }, b) => quantity(`gap at ${id}`, (d) => d.gap_yr[b]!));
  const law = {
    accumulation: quantity('accumulation of the hole', (d) => d.hole_accumulation_mm_yr),
    variation: quantity('variation of accumulation', (d) => d.variation),
    persistence: quantity('persistence of accumulation', (d) => d.persistence_m),
  };
  // Those that settle last are asked first.
  return {
    age,
    accumulation,
    horizon,
    gap,
    hole: law,
    all: [...Object.values(law), ...gap, ...horizon, ...age, ...accumulation],
  };
}

export function summaryOf(quantity: Quantity): Summary {
  quantity.summary ??= summarize(quantity.chains);
  return quantity.summary;
}

const hasSettled = (s: Summary): boolean => s.rhat < RHAT && s.ess_bulk >= ESS && s.ess_tail >= ESS;

/** The number that has not settled, by name; null where all have. The last one to fail is asked first. */
export function unsettled({ all }: Reported, lastToFail: string | null): string | null {
  const last = all.filter((q) => q.name === lastToFail);
  return [...last, ...all].find((q) => !hasSettled(summaryOf(q)))?.name ?? null;
}

/** In words, of each that has not. */
export function remarksOn({ all }: Reported): string[] {
  return all
    .filter((q) => !hasSettled(summaryOf(q)))
    .map((q) => {
      const { rhat, ess_bulk, ess_tail } = summaryOf(q);
      return (
        `${q.name} did not converge: R-hat ${rhat.toFixed(3)} (below ${RHAT} wanted), ${Math.round(ess_bulk)} effective ` +
        `draws, ${Math.round(ess_tail)} of them for its bounds (${ESS} wanted).`
      );
    });
}
