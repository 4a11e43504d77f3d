/** Calibration curves of the campaign's own, from the rows of its table: by name, with what is wrong with them. */
import type { Campaign } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import { PUBLISHED_CURVES, plainWord, type Row } from '@stillstand/campaign/tables';
import { onWholeYears, type YearlyCurve } from '@stillstand/science/dating';
import { type Complain, complaints } from '../complaint.ts';
import { type ByName, byName } from './by-name.ts';

type CurveRow = Row<'calibration_curves'>;

export interface OwnCurve {
  curve: YearlyCurve;
  /** Of marine carbon, as marine20 is: a marine share mixes nothing into it. */
  isMarine: boolean;
  /** Ages ascending. */
  rows: readonly CurveRow[];
}

export interface OwnCurves extends ByName<OwnCurve> {
  problems: readonly Problem[];
}

export function ownCurves(campaign: Campaign): OwnCurves {
  const { problems, complain } = complaints<CurveRow>(campaign, 'calibration_curves', ({ curve }) => curve);
  const made = byName(campaign, 'calibration_curves', 'curve', (name, rows) =>
    isNameFree(name, rows, complain) ? ownCurve(name, rows, complain) : null,
  );
  return { ...made, problems };
}

const UNTIL_THEN = 'The curve is not used until then.';

function isNameFree(name: string, [first]: readonly CurveRow[], complain: Complain<CurveRow>): boolean {
  const published = PUBLISHED_CURVES.find((known) => plainWord(known) === plainWord(name));
  if (published === undefined) return true;
  complain(
    first!,
    'own-curve-named-as-published',
    'curve',
    name,
    `a name other than that of the published curve ${published}`,
    `Give it another name: dates that say ${published} are calibrated on the published curve.`,
  );
  return false;
}

function ownCurve(name: string, rows: readonly CurveRow[], complain: Complain<CurveRow>): OwnCurve | null {
  const sorted = rows.toSorted((a, b) => a.age_cal_bp - b.age_cal_bp);
  const [youngest, oldest] = [sorted[0]!, sorted.at(-1)!];
  let isUsable = true;
  for (const row of sorted) {
    if (row.c14_error > 0) continue;
    isUsable = false;
    complain(
      row,
      'own-curve-without-error',
      'c14_error',
      String(row.c14_error),
      '1 sigma above 0, 14C yr',
      `Write the error of the curve. ${UNTIL_THEN}`,
    );
  }
  for (const [i, row] of sorted.entries()) {
    if (i === 0 || row.age_cal_bp !== sorted[i - 1]!.age_cal_bp) continue;
    isUsable = false;
    complain(
      row,
      'own-curve-age-twice',
      'age_cal_bp',
      `${row.age_cal_bp} cal BP in two rows`,
      'one row for each calendar age',
      `Delete one of them. ${UNTIL_THEN}`,
    );
  }
  if (Math.floor(oldest.age_cal_bp) - Math.ceil(youngest.age_cal_bp) < 1) {
    isUsable = false;
    complain(
      youngest,
      'own-curve-too-short',
      'age_cal_bp',
      sorted.length === 1 ? 'one row' : `ages from ${youngest.age_cal_bp} to ${oldest.age_cal_bp} cal BP`,
      'at least two rows, and two whole years between the first and the last',
      `Import the whole curve. ${UNTIL_THEN}`,
    );
  }
  const reservoirs = new Set(sorted.flatMap(({ reservoir }) => reservoir ?? []));
  if (reservoirs.size > 1) {
    isUsable = false;
    complain(
      youngest,
      'own-curve-two-reservoirs',
      'reservoir',
      [...reservoirs].join(', '),
      'one reservoir for all rows of a curve',
      `Say atmosphere or marine, the same in each row. ${UNTIL_THEN}`,
    );
  }
  if (!isUsable) return null;
  const curve = onWholeYears(name, {
    cal_bp: sorted.map((row) => row.age_cal_bp),
    c14_age: sorted.map((row) => row.c14_age),
    sigma_yr: sorted.map((row) => row.c14_error),
  });
  return { curve, isMarine: reservoirs.has('marine'), rows: sorted };
}

/** The rows that a stretch of years lies on: those between its ends, and the next at either side. */
export function rowsBetween({ rows }: OwnCurve, younger_cal_bp: number, older_cal_bp: number): CurveRow[] {
  const first = rows.findLastIndex(({ age_cal_bp }) => age_cal_bp <= younger_cal_bp);
  const last = rows.findIndex(({ age_cal_bp }) => age_cal_bp >= older_cal_bp);
  return rows.slice(Math.max(0, first), last === -1 ? undefined : last + 1);
}
