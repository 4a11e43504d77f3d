/**
 * Two or more curves of the same points, compared by the sum of their leave-one-out scores: which model better foretells
 * the height of each point from its own date and all other points. Nothing is chosen here.
 *
 * The standard error of a difference is √(n·variance) of the differences point by point (Vehtari, Gelman & Gabry 2017,
 * Stat. Comput. 27:1413–1432, eq. 24). Monte-Carlo errors of the scores are part of what differs from point to point, so
 * they are in it. It takes points as exchangeable; errors that points share, and fewer than some hundred points, make it
 * too small, which is why a difference below 4 decides nothing whatever its error (Sivula, Magnusson, Matamoros & Vehtari
 * 2020, arXiv:2008.10296; from memory).
 */
import { mean, square } from '@stillstand/science/base';
import type { UNDECIDED } from '../result/rates-compared.ts';
import type { CurveResult } from '../result/result.ts';

/** Below this difference of summed scores, and below so many standard errors of it, the data do not decide. */
const LEAST = 4;
const ERRORS = 2;

/** What is compared of a curve. */
export type ScoredCurve = Pick<CurveResult, 'points' | 'groups' | 'offsets'> & {
  diagnostics: Pick<CurveResult['diagnostics'], 'converged'>;
};

/** Why the data do not decide: the first of these that holds. */
type Undecided = (typeof UNDECIDED)[number];

export interface CurveComparison {
  /** Summed score of the first less that of the second; natural logarithm. */
  difference: number;
  /** Standard error of the difference; null for fewer than two points. */
  difference_se: number | null;
  /** Which foretells better. */
  verdict: 'first' | 'second' | 'undecided';
  /** Null where one foretells better. */
  because: Undecided | null;
}

/**
 * The first curve against the second. Both must be of the same points with the same data: labels, kinds, heights and their
 * errors, dates, shared errors.
 * @throws RangeError where they are not, or where one has no scores, as a preview.
 */
export function compareCurves(first: ScoredCurve, second: ScoredCurve): CurveComparison {
  const scores = scoresOf(first);
  const others = scoresOf(second);
  demandSameData(first, second);
  const pointwise = Float64Array.from(first.points, ({ id }) => scores.get(id)! - others.get(id)!);
  const n = pointwise.length;
  const difference = pointwise.reduce((sum, d) => sum + d, 0);
  const average = mean(pointwise);
  const difference_se =
    n < 2 ? null : Math.sqrt((n * pointwise.reduce((sum, d) => sum + square(d - average), 0)) / (n - 1));
  const converged = first.diagnostics.converged && second.diagnostics.converged;
  const because = undecided(difference, difference_se, converged);
  const verdict = because !== null ? 'undecided' : difference > 0 ? 'first' : 'second';
  return { difference, difference_se, verdict, because };
}

function undecided(difference: number, se: number | null, converged: boolean): Undecided | null {
  if (!converged) return 'not converged';
  if (se === null) return 'fewer than two points';
  if (Math.abs(difference) < LEAST) return 'below 4 units';
  return Math.abs(difference) < ERRORS * se ? 'below 2 standard errors' : null;
}

/** A curve's place among others. */
export interface CurveRank {
  name: string;
  /** Summed over the points; natural logarithm, index points per metre. */
  score: number;
  /** Monte-Carlo standard error of the sum. */
  score_mcse: number;
  /** The best's score less its own, 0 or more, and how that compares; null for the best itself. */
  behind: Omit<CurveComparison, 'verdict'> | null;
}

/**
 * Several curves of the same points, the best score first.
 * @throws RangeError as `compareCurves`.
 */
export function rankCurves(curves: readonly { name: string; curve: ScoredCurve }[]): CurveRank[] {
  const total = (curve: ScoredCurve): number =>
    [...scoresOf(curve).values()].reduce((sum, score) => sum + score, 0);
  const ranked = curves
    .map(({ name, curve }) => ({ name, curve, score: total(curve) }))
    .sort((a, b) => b.score - a.score);
  return ranked.map(({ name, curve, score }, rank) => {
    const { difference, difference_se, because } = compareCurves(ranked[0]!.curve, curve);
    return {
      name,
      score,
      score_mcse: Math.sqrt(curve.points.reduce((sum, p) => sum + square(p.score_mcse ?? 0), 0)),
      behind: rank === 0 ? null : { difference, difference_se, because },
    };
  });
}

function scoresOf({ points }: ScoredCurve): Map<string, number> {
  const scores = new Map<string, number>();
  for (const { id, score } of points) {
    if (score === null)
      throw refusal(`point ${id} has no score`, 'a whole curve: a preview asks no point of the others');
    if (scores.has(id)) throw refusal(`two points ${id}`, 'one of each label');
    scores.set(id, score);
  }
  return scores;
}

/** What must be the same of a point, and of errors that points share. */
const OF_POINT = ['kind', 'height_m', 'own_sigma_m'] as const;
const OF_DATE = ['mean', 'sd'] as const;

function demandSameData(first: ScoredCurve, second: ScoredCurve): void {
  const same = (what: string, one: unknown, other: unknown): void => {
    if (one !== other) throw refusal(`${what}: ${one} in one curve, ${other} in the other`, 'the same data');
  };
  const others = new Map(second.points.map((p) => [p.id, p]));
  for (const point of first.points) {
    const other = others.get(point.id);
    if (other === undefined)
      throw refusal(`point ${point.id} is in the first curve alone`, 'the same points');
    for (const name of OF_POINT) same(`${name} of ${point.id}`, point[name], other[name]);
    for (const name of OF_DATE)
      same(`${name} of the date of ${point.id}`, point.prior_age_cal_bp[name], other.prior_age_cal_bp[name]);
    others.delete(point.id);
  }
  for (const id of others.keys())
    throw refusal(`point ${id} is in the second curve alone`, 'the same points');
  const sharedBy = ({ groups, offsets }: ScoredCurve): string =>
    [
      ...groups.map((g) => `${g.group} ± ${g.sigma_m} m`),
      ...offsets.map((o) => `${o.group} ± ${o.sigma_yr} yr`),
    ]
      .sort()
      .join(', ') || 'none';
  same('shared errors', sharedBy(first), sharedBy(second));
}

const refusal = (came: string, expected: string): RangeError =>
  new RangeError(`compareCurves: ${came}; expected ${expected}`);
