/**
 * Supported lead-210: what radium in the sediment goes on making, to be taken off the total. One stated value, or that
 * measured in each slice, or the total of the deepest slices, where it no longer falls.
 */
import { chiSquareUpperTail, square } from '@stillstand/science/base';
import type { LeadFault, LeadProfile, LeadSlice } from './profile.ts';
import { span } from './slices.ts';

export interface Supported {
  from: 'stated' | 'each_slice' | 'tail';
  /** Mean over the slices, Bq/kg. */
  bq_kg: number;
  sigma_bq_kg: number;
  /** Slices of the tail: numbers in the list of used slices; they have no excess. */
  tail: readonly number[];
}

/** Fewer slices do not show that the total no longer falls. */
const LEAST_TAIL = 3;
/** Slices that differ by more than their errors, at this probability, are no tail. */
const ALIKE = 0.05;

/** `slices` from the top down. Null where none is known; the faults then say so. */
export function supportedOf(
  slices: readonly LeadSlice[],
  stated: LeadProfile['supported'],
): { supported: Supported | null; faults: LeadFault[] } {
  if (stated !== null && stated.bq_kg >= 0 && stated.sigma_bq_kg >= 0 && Number.isFinite(stated.bq_kg))
    return { supported: { from: 'stated', ...stated, tail: [] }, faults: [] };
  if (slices.some(({ supported }) => supported !== null)) return ofEachSlice(slices);
  const tail = tailOf(slices);
  if (tail === null)
    return {
      supported: null,
      faults: [
        {
          code: 'supported',
          severity: 'error',
          slice: null,
          found:
            'no supported lead-210, and a total that still falls in the deepest slices, or fewer than three of them',
          expected: `radium-226 of the slices, one supported activity, or ${LEAST_TAIL} or more slices at the bottom that agree`,
          fix: 'Measure radium-226, enter a supported activity, or measure deeper slices. No lead-210 age is given until then.',
        },
      ],
    };
  const [first, last] = [slices[tail.tail[0]!]!, slices[tail.tail.at(-1)!]!];
  return {
    supported: tail,
    faults: [
      {
        code: 'supported',
        severity: 'note',
        slice: null,
        found: `supported lead-210 from the ${tail.tail.length} deepest slices, ${span({ top_m: first.top_m, bottom_m: last.bottom_m })}: ${tail.bq_kg.toPrecision(4)} ± ${tail.sigma_bq_kg.toPrecision(2)} Bq/kg`,
        expected: 'a total that no longer falls there',
        fix: 'No action needed where the core reaches below all unsupported lead-210; measured radium-226 takes precedence.',
      },
    ],
  };
}

/** Where a slice was left out, the mean of the others. */
function ofEachSlice(slices: readonly LeadSlice[]): { supported: Supported; faults: LeadFault[] } {
  const known = slices.flatMap(({ supported }) => (supported === null ? [] : [supported]));
  const n = known.length;
  const bq_kg = known.reduce((sum, s) => sum + middle(s), 0) / n;
  const sigma_bq_kg = Math.sqrt(known.reduce((sum, s) => sum + square(spread(s)), 0)) / n;
  const without = slices.filter(({ total, supported }) => total !== null && supported === null);
  return {
    supported: { from: 'each_slice', bq_kg, sigma_bq_kg, tail: [] },
    faults: without.map(({ id, ...where }) => ({
      code: 'supported',
      severity: 'note',
      slice: id,
      found: `no supported lead-210 at ${span(where)}`,
      expected: 'that of each slice',
      fix: 'No action needed: the mean of the other slices is used.',
    })),
  };
}

/** Value and 1 sigma of an activity; a limit L is even from 0 to L: L/2 ± L/√12. */
export const middle = ({ bq_kg, is_limit }: { bq_kg: number; is_limit?: boolean }): number =>
  is_limit ? bq_kg / 2 : bq_kg;
export const spread = ({
  bq_kg,
  sigma_bq_kg,
  is_limit,
}: {
  bq_kg: number;
  sigma_bq_kg: number;
  is_limit?: boolean;
}): number => (is_limit ? bq_kg / Math.sqrt(12) : sigma_bq_kg);

/**
 * The most slices at the bottom whose totals agree (chi-square) and do not fall downwards by more than 1 sigma of a
 * straight line through them; of these the deeper half, since the upper ones may hold the last of the excess. The
 * rule is ours.
 */
function tailOf(slices: readonly LeadSlice[]): Supported | null {
  const measured = [...slices.keys()].filter((i) => {
    const total = slices[i]!.total;
    return total !== null && spread(total) > 0;
  });
  const deepest = (n: number): ReturnType<typeof meanAndSlope> =>
    meanAndSlope(measured.slice(-n).map((i) => slices[i]!));
  let most = 0;
  for (let n = LEAST_TAIL; n < measured.length; n++) {
    const { chi_square, slope_sigmas } = deepest(n);
    if (chiSquareUpperTail(chi_square, n - 1) >= ALIKE && slope_sigmas >= -1) most = n;
  }
  if (most === 0) return null;
  const n = Math.max(LEAST_TAIL, Math.ceil(most / 2));
  const { mean, sigma, chi_square } = deepest(n);
  // Never surer than the slices agree.
  const scale = Math.sqrt(Math.max(1, chi_square / (n - 1)));
  return { from: 'tail', bq_kg: mean, sigma_bq_kg: sigma * scale, tail: measured.slice(-n) };
}

function meanAndSlope(slices: readonly LeadSlice[]): {
  mean: number;
  sigma: number;
  chi_square: number;
  slope_sigmas: number;
} {
  const weights = slices.map(({ total }) => 1 / square(spread(total!)));
  const sum = weights.reduce((a, b) => a + b, 0);
  const weighted = (of: (slice: LeadSlice, i: number) => number): number =>
    slices.reduce((total, slice, i) => total + weights[i]! * of(slice, i), 0) / sum;
  const depth = ({ top_m, bottom_m }: LeadSlice): number => (top_m + bottom_m) / 2;
  const mean = weighted(({ total }) => middle(total!));
  const at = weighted(depth);
  const width = weighted((slice) => square(depth(slice) - at));
  const slope = weighted((slice) => (depth(slice) - at) * middle(slice.total!)) / width;
  return {
    mean,
    sigma: 1 / Math.sqrt(sum),
    chi_square: sum * weighted(({ total }) => square(middle(total!) - mean)),
    slope_sigmas: slope * Math.sqrt(sum * width),
  };
}
