/** What must be said with a curve, wherever it is shown: points that disagree, and ends that depend on one point. */
import {
  type CurveResult,
  disagreeing,
  disagreementBelow,
  type LoneEnd,
  loneEnds,
  type MovedError,
  movedErrors,
  probableOutliers,
} from '@stillstand/science/curve';
import { sharedThrough } from './error-parts.ts';
import { printed, signed, years } from './number.ts';
import { abruptChange } from './rate-model.ts';

type Shown = Pick<
  CurveResult,
  'points' | 'ages_cal_bp' | 'depth_order' | 'one_break' | 'groups' | 'offsets' | 'level_m' | 'rate_mm_yr'
> & {
  settings: Pick<CurveResult['settings'], 'tie'>;
};

/** So many points are named in one sentence; a table has them all. */
const NAMED = 6;

/** A probability to three decimals, never as a certainty: "<0.001", "0.024". */
export function probability(p: number | null): string {
  if (p === null) return printed(null);
  if (p < 0.001) return '<0.001';
  return p > 0.999 ? '>0.999' : printed(p, 3);
}

/** The rule by which points are named, as a fragment: "p below 0.0015 (0.05 over 34 points) or an age moved …". */
export const disagreementRule = (curve: Shown): string =>
  `p below ${disagreementBelow(curve).toPrecision(2)} (0.05 over ${printed(curve.points.length)} points) or an age moved by more than 2 sd`;

/** "P7 (p <0.001, age moved −3.6 sd) and P9 (…)": the worst first; null where no point disagrees. */
export function pointsThatDisagree(curve: Shown): string | null {
  const found = disagreeing(curve);
  if (found.length === 0) return null;
  return inOneSentence(
    found.map(
      ({ id, p, age_shift_sd }) => `${id} (p ${probability(p)}, age moved ${signed(age_shift_sd, 1)} sd)`,
    ),
  );
}

/** Where no point is an index point; null where one is. */
export const nothingFixes = ({ points }: Pick<CurveResult, 'points'>): string | null =>
  points.length === 0 || points.some(({ kind }) => kind === 'index')
    ? null
    : 'No index point: limits only keep the level to one side, and nothing fixes it. What is shown is mostly the prior.';

/** Before what is named by `outliersInWords`. */
export const PROBABLY_WRONG = 'Probably wrong by more than the error says, and weighed so';

/** "the date of P4 (0.97) and the height of P9 (0.62)"; null where there is none. */
export function outliersInWords(curve: Pick<CurveResult, 'points'>): string | null {
  const found = probableOutliers(curve).map(({ id, of, p }) => `the ${of} of ${id} (${probability(p)})`);
  return found.length === 0 ? null : inOneSentence(found);
}

/** Before what is named by `errorsThatMoved`. */
export const SHARED_MOVED = 'Shared errors larger than stated';

/** "the datum shift CD-MSL (−0.24 m, 4.9 times its sigma)": the largest first; null where there is none. */
export function errorsThatMoved(curve: Parameters<typeof movedErrors>[0]): string | null {
  const found = movedErrors(curve).map(
    (error) =>
      `${whatMoved(error)} (${movedBy(error)}, ${printed(Math.abs(error.moved) / error.sigma, 1)} times its sigma)`,
  );
  return found.length === 0 ? null : inOneSentence(found);
}

function whatMoved({ of, id }: MovedError): string {
  switch (of) {
    case 'present':
      return 'the level held at 0 at present';
    case 'reservoir offset':
      return `the reservoir offset of ${id}`;
    case 'dating error':
      return `the systematic error of the dates ${id}`;
    case 'height':
      return sharedThrough({ component: '', shared_group: id });
  }
}

function movedBy({ of, moved }: MovedError): string {
  if (of === 'reservoir offset') return `${signed(moved, 0)} 14C yr`;
  return of === 'dating error' ? `${signed(moved, 0)} yr` : `${signed(moved, 2)} m`;
}

/**
 * "P4 above P7 and P8 (p at most 0.003)": points of a hole whose dates contradict their depths, each pair once, under the
 * point that contradicts most; null where none do.
 */
export function datesAgainstDepths({ depth_order }: Pick<CurveResult, 'depth_order'>): string | null {
  let pairs = [...(depth_order?.contradicting ?? [])];
  const found: string[] = [];
  while (pairs.length > 0) {
    const ids = pairs.flatMap(({ upper, lower }) => [upper, lower]);
    const counts = ids.map((id) => ids.filter((other) => other === id).length);
    const odd = ids[counts.indexOf(Math.max(...counts))]!;
    const own = pairs.filter(({ upper, lower }) => upper === odd || lower === odd);
    for (const side of ['above', 'below'] as const) {
      const of = own.filter(({ upper }) => (upper === odd) === (side === 'above'));
      if (of.length === 0) continue;
      const others = inOneSentence(of.map(({ upper, lower }) => (upper === odd ? lower : upper)));
      const p = probability(Math.max(...of.map(({ p_lower_older }) => p_lower_older)));
      const left = of.every(({ imposed }) => imposed) ? '' : ', left as they are';
      found.push(`${odd} ${side} ${others} (p ${of.length === 1 ? '' : 'at most '}${p}${left})`);
    }
    pairs = pairs.filter((pair) => !own.includes(pair));
  }
  return found.length === 0 ? null : inOneSentence(found);
}

/** Before what is named by `datesAgainstDepths`: p is that of the lower being the older. */
export const AGAINST_DEPTHS = 'Dates contradict the order of their depths';

function inOneSentence(found: readonly string[]): string {
  const named = found.slice(0, NAMED);
  const more = found.length - named.length;
  if (more > 0) named.push(`${printed(more)} more`);
  return named.length === 1 ? named[0]! : `${named.slice(0, -1).join(', ')} and ${named.at(-1)!}`;
}

/** "The level before 8,170 cal BP depends on one point, P9." */
export const levelOnOnePoint = ({ end, id, from_cal_bp }: LoneEnd): string =>
  from_cal_bp === null
    ? `The level depends on one index point, ${id}.`
    : `The level ${end === 'older' ? 'before' : 'after'} ${years(from_cal_bp)} cal BP depends on one point, ${id}.`;

/** Sentences, the gravest first; none where there is nothing to say, or in a preview. */
export function curveDoubts(curve: Shown): string[] {
  const disagree = pointsThatDisagree(curve);
  const outliers = outliersInWords(curve);
  const against = datesAgainstDepths(curve);
  const free = nothingFixes(curve);
  const moved = errorsThatMoved(curve);
  const abrupt = abruptChange(curve);
  return [
    ...(free === null ? [] : [free]),
    ...(abrupt === null ? [] : [`${abrupt}.`]),
    ...(moved === null
      ? []
      : [`${SHARED_MOVED}: ${moved}. All points that share one are off together: check what they share.`]),
    ...(outliers === null ? [] : [`${PROBABLY_WRONG}: ${outliers}. Check the samples.`]),
    ...(against === null ? [] : [`${AGAINST_DEPTHS}: ${against}.`]),
    ...(disagree === null
      ? []
      : [`Points disagree with the others: ${disagree}. Check their dates, samples and meanings.`]),
    ...loneEnds(curve).map(levelOnOnePoint),
  ];
}
