/** What the points of a curve have of one another, one line a point: for the commands that compute one. */
import { disagreementRule, printed, probability, signed, years } from '@stillstand/output/words';
import { type CurveResult, disagreeing, probabilityAmongOthers } from '@stillstand/science/curve';
import { print, sayTable } from './say.ts';

const BOUND = { index: '', terrestrial: 'below ', marine: 'above ' } as const;

/** Every point with its predictive p and the shift of its age, the most improbable first. `rsl_m` by label. */
export function sayPointsAmongOthers(curve: CurveResult, rsl_m: ReadonlyMap<string, number>): void {
  const odd = new Set(disagreeing(curve).map(({ id }) => id));
  const { converged } = curve.diagnostics;
  const p = (point: CurveResult['points'][number]): number => probabilityAmongOthers(point) ?? 1;
  const rows = curve.points
    .toSorted((a, b) => p(a) - p(b))
    .map((point) => [
      point.id,
      point.kind,
      `${BOUND[point.kind]}${signed(rsl_m.get(point.id) ?? null, 2)}`,
      point.others_level_m === null
        ? ''
        : `${signed(point.others_level_m.mean, 2)} ±${printed(2 * point.others_level_m.sd, 2)}`,
      probability(probabilityAmongOthers(point)),
      years(point.age_cal_bp.median),
      signed(point.age_shift_sd, 1),
      printed(point.age_outlier_p, 2),
      printed(point.height_outlier_p, 2),
      odd.has(point.id) ? 'yes' : '',
      ...(converged ? [] : ['NOT CONVERGED']),
    ]);
  print('Points among the others:');
  sayTable([
    [
      'point',
      'kind',
      'RSL, m',
      'level by the others, m (2σ)',
      'p',
      'age in the curve, cal BP',
      'age moved, sd',
      'date an outlier, p',
      'height an outlier, p',
      'disagrees',
      ...(converged ? [] : ['']),
    ],
    ...rows,
  ]);
  print('p: probability of a height as improbable as the one found, from all other points and its own date;');
  print(`of a limit, that the sea keeps to its side. Named is ${disagreementRule(curve)}.`);
}
