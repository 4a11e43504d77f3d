/** Points whose date or height is more probably wrong by more than its error says than not. */
import type { CurveResult } from '../result/result.ts';

const PROBABLE = 0.5;

export interface ProbableOutlier {
  id: string;
  of: 'date' | 'height';
  p: number;
}

/** The surest first; a point may be named for both. Empty where outliers are not in the model. */
export const probableOutliers = ({ points }: Pick<CurveResult, 'points'>): ProbableOutlier[] =>
  points
    .flatMap(({ id, age_outlier_p, height_outlier_p }): ProbableOutlier[] => [
      { id, of: 'date', p: age_outlier_p },
      { id, of: 'height', p: height_outlier_p },
    ])
    .filter(({ p }) => p > PROBABLE)
    .sort((a, b) => b.p - a.p);
