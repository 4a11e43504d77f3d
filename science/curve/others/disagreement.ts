/**
 * Which points disagree with the others, and which ends of a curve depend on one point, so that nothing else could
 * disagree with it: two rules, stated wherever their outcome is.
 *
 * A point disagrees where its height, given all other points and its own date, is so improbable that among all points of
 * the curve one such would come up in 20 sound curves (0.05 over the number of points: Bonferroni's bound), or where the
 * curve moved its age by more than 2 sd of its date.
 *
 * An end depends on one point where the others alone know the level there, at the mean of its date, less than half as
 * well: with sd σ₀ of theirs and own error σ, ± would be √(1 + σ₀²/σ²) times as wide, more than twice beyond σ₀ = 2σ.
 */
import type { CurveResult } from '../result/result.ts';

/** Chance that a sound curve of sound points names any. */
export const NAMED_BY_CHANCE = 0.05;
const MOVED_SD = 2;
/** Of what others know to what the point knows. */
const ALONE = 2;

type PointInCurve = CurveResult['points'][number];

export interface Disagreement {
  id: string;
  /** Probability of a height as improbable as that found, both sides counted; of a limit, that the sea keeps to its side. */
  p: number;
  age_shift_sd: number;
}

/** Below this probability a point disagrees. */
export const disagreementBelow = ({ points }: Pick<CurveResult, 'points'>): number =>
  NAMED_BY_CHANCE / Math.max(1, points.length);

/** Probability of a height as improbable as that found; null where the others were not asked. */
export const probabilityAmongOthers = ({
  kind,
  predictive_p: p,
}: Pick<PointInCurve, 'kind' | 'predictive_p'>): number | null =>
  p === null || kind !== 'index' ? p : 2 * Math.min(p, 1 - p);

/** The worst first: by probability, then by how far the age was moved. Empty in a preview, where nobody was asked. */
export function disagreeing(curve: Pick<CurveResult, 'points'>): Disagreement[] {
  const below = disagreementBelow(curve);
  return curve.points
    .flatMap((point): Disagreement[] => {
      const p = probabilityAmongOthers(point);
      const { id, age_shift_sd } = point;
      return p !== null && (p < below || Math.abs(age_shift_sd) > MOVED_SD) ? [{ id, p, age_shift_sd }] : [];
    })
    .sort((a, b) => a.p - b.p || Math.abs(b.age_shift_sd) - Math.abs(a.age_shift_sd));
}

export interface LoneEnd {
  end: 'older' | 'younger';
  /** The one index point. */
  id: string;
  /** Age of the next one, from which on the level depends on it; null where there is no other index point. */
  from_cal_bp: number | null;
}

/** Ends of the reported curve that depend on one index point. A level held at the present leaves the younger end to it. */
export function loneEnds(
  curve: Pick<CurveResult, 'points' | 'ages_cal_bp'> & { settings: Pick<CurveResult['settings'], 'tie'> },
): LoneEnd[] {
  const index = curve.points
    .filter(({ kind }) => kind === 'index')
    .sort((a, b) => b.age_cal_bp.median - a.age_cal_bp.median);
  const ends: LoneEnd[] = [];
  const isAlone = (point: PointInCurve | undefined): point is PointInCurve =>
    point !== undefined &&
    point.others_level_m !== null &&
    point.others_level_m.sd > ALONE * point.own_sigma_m;
  const oldest = index[0];
  if (isAlone(oldest)) {
    const from = index[1]?.age_cal_bp.median ?? null;
    if (from === null || curve.ages_cal_bp.some((age) => age > from))
      ends.push({ end: 'older', id: oldest.id, from_cal_bp: from });
  }
  const youngest = index.at(-1);
  if (index.length > 1 && curve.settings.tie === null && isAlone(youngest)) {
    const from = index.at(-2)!.age_cal_bp.median;
    if (curve.ages_cal_bp.some((age) => age < from))
      ends.push({ end: 'younger', id: youngest.id, from_cal_bp: from });
  }
  return ends;
}
