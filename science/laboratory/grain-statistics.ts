/**
 * What one grain-size analysis gives: the cumulative curve, percentiles, the graphic statistics of Folk & Ward 1957 (the
 * 95 − 5 range divided by 6.6), moments, and the parts of gravel, sand, silt and clay. What lies in a class that is open
 * at one end is said and never made up.
 */
import { inQuadrature, mean } from '@stillstand/science/base';
import type { CountedClass, GrainClasses } from './grain-classes.ts';
import { SAME_PHI } from './grain-classes.ts';
import {
  type FolkWard,
  type FolkWardPercentiles,
  folkWard,
  type GrainSizeCurve,
  phiAt,
  phiFromMillimetres,
} from './grain-size.ts';
import { type Moments, moments } from './moments.ts';
import type { SizeScale } from './size-range.ts';

/** Per cent of the mass; null where the classes do not say. */
export interface Parts {
  gravel: number | null;
  sand: number | null;
  silt: number | null;
  clay: number | null;
  /** Silt and clay together. */
  mud: number | null;
}

export interface GrainStatistics {
  curve: GrainSizeCurve;
  /** φ at 5, 16, 25, 50, 75, 84 and 95 % coarser; null where it lies in a class without an end. */
  percentiles_phi: readonly (number | null)[];
  parts: Parts;
  /** Limits of the parts that lie inside a class, and are read off the curve between its ends, mm. */
  interpolated_mm: readonly number[];
  /** Of all classes; null where a percentile is not reached. */
  folk_ward: FolkWard | null;
  moments: Moments | null;
  /** Per cent in the open class at either end. */
  open_coarse_percent: number;
  open_fine_percent: number;
  /** 1 sigma of the numbers, from those of the classes; null where these state none or the number is not known. */
  sigma: { median_phi: number | null; mean_phi: number | null; sorting_phi: number | null };
}

const PERCENTS = [5, 16, 25, 50, 75, 84, 95] as const;

/** Null where the classes are no whole analysis. */
export function grainStatistics(
  { classes, is_whole }: GrainClasses,
  scale: SizeScale,
): GrainStatistics | null {
  if (!is_whole || classes.length === 0) return null;
  const whole = shares(classes);
  const curve = cumulative(whole);
  const { percentiles_phi, folk_ward } = graphic(curve);
  const [first, last] = [whole[0]!, whole.at(-1)!];
  const { parts, interpolated_mm } = partsOf(curve, whole, scale);
  return {
    curve,
    percentiles_phi,
    parts,
    interpolated_mm,
    folk_ward,
    moments: moments(whole),
    open_coarse_percent: first.coarser_phi === null ? first.percent : 0,
    open_fine_percent: last.finer_phi === null ? last.percent : 0,
    sigma: spread(classes),
  };
}

/** As parts of their own sum. */
function shares(classes: readonly CountedClass[]): CountedClass[] {
  const sum = classes.reduce((total, { percent }) => total + percent, 0);
  return classes.map((each) => ({ ...each, percent: (100 * each.percent) / sum }));
}

/** Per cent coarser than each limit there is; of a class that is open only the end it has. */
function cumulative(whole: readonly CountedClass[]): GrainSizeCurve {
  const phi: number[] = [];
  const percent_coarser: number[] = [];
  let passed = 0;
  const put = (at: number): void => {
    const last = phi.at(-1);
    // A limit that is the one before, within the rounding of sieves.
    if (last !== undefined && at - last <= SAME_PHI) percent_coarser[phi.length - 1] = passed;
    else {
      phi.push(at);
      percent_coarser.push(passed);
    }
  };
  for (const { coarser_phi, finer_phi, percent } of whole) {
    if (coarser_phi !== null) put(coarser_phi);
    passed = Math.min(100, passed + percent);
    if (finer_phi !== null) put(finer_phi);
  }
  // The sum of parts of 100 is not 100 to the last digit.
  if (whole.at(-1)!.finer_phi !== null) percent_coarser[percent_coarser.length - 1] = 100;
  return { phi, percent_coarser };
}

function graphic(curve: GrainSizeCurve): Pick<GrainStatistics, 'percentiles_phi' | 'folk_ward'> {
  const percentiles_phi = PERCENTS.map((percent) => phiAt(curve, percent));
  const all = percentiles_phi.filter((phi) => phi !== null);
  return {
    percentiles_phi,
    folk_ward: all.length === PERCENTS.length ? folkWard(all as unknown as FolkWardPercentiles) : null,
  };
}

/** Of what is coarser than a size: at a limit, or read off the curve between two; null in a class without an end. */
function coarserThan(
  { phi, percent_coarser: share }: GrainSizeCurve,
  whole: readonly CountedClass[],
  at: number,
): { percent: number; isInside: boolean } | null {
  for (const [i, limit] of phi.entries())
    if (Math.abs(limit - at) <= SAME_PHI) return { percent: share[i]!, isInside: false };
  if (at < phi[0]!) return whole[0]!.coarser_phi === null && share[0]! > 0 ? null : zero;
  if (at > phi.at(-1)!) return whole.at(-1)!.finer_phi === null && share.at(-1)! < 100 ? null : all;
  const i = phi.findIndex((limit) => limit > at);
  const part = (at - phi[i - 1]!) / (phi[i]! - phi[i - 1]!);
  const percent = share[i - 1]! + part * (share[i]! - share[i - 1]!);
  return { percent, isInside: share[i]! > share[i - 1]! };
}

const zero = { percent: 0, isInside: false };
const all = { percent: 100, isInside: false };

function partsOf(
  curve: GrainSizeCurve,
  whole: readonly CountedClass[],
  scale: SizeScale,
): Pick<GrainStatistics, 'parts' | 'interpolated_mm'> {
  const limits = [scale.gravel_mm, scale.sand_mm, scale.silt_mm];
  const [gravel, sand, silt] = limits.map((mm) => coarserThan(curve, whole, phiFromMillimetres(mm)));
  const less = (a: { percent: number } | null | undefined, b: { percent: number } | null | undefined) =>
    a && b ? Math.max(0, a.percent - b.percent) : null;
  return {
    parts: {
      gravel: gravel?.percent ?? null,
      sand: less(sand, gravel),
      silt: less(silt, sand),
      clay: less(all, silt),
      mud: less(all, sand),
    },
    interpolated_mm: limits.filter((_, i) => [gravel, sand, silt][i]?.isInside),
  };
}

/**
 * The classes' errors taken as apart from each other. Each of n is moved up and down by √n sigma, and the spread of the
 * 2n results is theirs (Arasaratnam & Haykin 2009, IEEE Trans. Autom. Control 54:1254–1269, from memory): it sees the
 * kinks of the curve, which a slope does not. A class is never moved below 0.
 */
function spread(classes: readonly CountedClass[]): GrainStatistics['sigma'] {
  const uncertain = classes.flatMap(({ sigma }, k) => (sigma === null || sigma === 0 ? [] : [k]));
  if (uncertain.length === 0) return { median_phi: null, mean_phi: null, sorting_phi: null };
  const far = Math.sqrt(uncertain.length);
  const moved = uncertain.flatMap((k) =>
    ([far, -far] as const).map((by) => {
      const changed = classes.map((each, i) =>
        i === k ? { ...each, percent: Math.max(0, each.percent + by * each.sigma!) } : each,
      );
      const { percentiles_phi, folk_ward } = graphic(cumulative(shares(changed)));
      return { median: percentiles_phi[3]!, mean: folk_ward?.mean_phi, sorting: folk_ward?.sorting_phi };
    }),
  );
  const of = (name: 'median' | 'mean' | 'sorting'): number | null => {
    const values = moved.flatMap((numbers) => numbers[name] ?? []);
    if (values.length < moved.length) return null;
    const about = mean(values);
    return inQuadrature(...values.map((value) => value - about)) / Math.sqrt(values.length);
  };
  return { median_phi: of('median'), mean_phi: of('mean'), sorting_phi: of('sorting') };
}
