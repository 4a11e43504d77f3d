/** Other curves and predictions beside the curve of the campaign: their rows, what is wrong with them, what lies between. */
import type { Campaign } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import { type OtherCurveResult, traceId } from '@stillstand/campaign/results';
import { columnName, type Row } from '@stillstand/campaign/tables';
import { lookLikeKa, square } from '@stillstand/science/base';
import {
  type Beside,
  besideCurve,
  besidePrediction,
  type CurveResult,
  isAnswer,
  type NoAnswer,
  type PublishedCurve,
} from '@stillstand/science/curve';
import { complaints } from '../complaint.ts';
import type { Heights } from '../heights/heights.ts';
import type { Runner } from '../runner/runner.ts';
import { type Known, step, type Traced } from '../runner/step.ts';
import { tellBesideLevel, tellBesideRate, unlessConverged } from '../words/curve.ts';

type OtherRow = Row<'other_curves'>;
type Level = OtherCurveResult['levels'][number];

const useOf = ({ use }: OtherRow): OtherCurveResult['use'] => use ?? 'compare';

/** As its rows have it, on the datum of the campaign where they can be brought there. */
interface Other {
  name: string;
  use: OtherCurveResult['use'];
  source: string | null;
  datum: string | null;
  shift_sigma_m: number | null;
  levels: readonly Level[];
}

const beside = step(
  'less another curve',
  ({ curve, other }: { curve: CurveResult; other: Other }): Beside | NoAnswer =>
    other.use === 'subtract'
      ? besidePrediction(curve, publishedOf(other))
      : besideCurve(curve, publishedOf(other), other.shift_sigma_m !== null),
);

/** Each of the table, in the order of its first row; one that cannot be used is left out, and named. */
export function curvesBeside(
  run: Runner,
  campaign: Campaign,
  heights: Heights,
  curve: Known<CurveResult> | null,
): { others: OtherCurveResult[]; problems: Problem[] } {
  const { problems, complain } = complaints<OtherRow>(campaign, 'other_curves', ({ curve }) => curve);
  const others: OtherCurveResult[] = [];
  for (const rows of Map.groupBy(campaign.rows.other_curves, ({ curve }) => curve).values()) {
    const first = rows[0]!;
    const about = `${first.curve}: `;
    const use = useOf(first);
    const stray = rows.find((row) => useOf(row) !== useOf(first) || row.datum !== first.datum);
    if (stray !== undefined) {
      const column = useOf(stray) === useOf(first) ? 'datum' : 'use';
      complain(
        stray,
        'two-of-one-curve',
        column,
        `${about}${stray[column] ?? 'none'} and ${first[column] ?? 'none'}`,
        `one ${columnName('other_curves', column)} for all its rows`,
        'Correct it, or give the rows another name. The curve is not used until then.',
      );
      continue;
    }
    const used = usable(rows, complain);
    const ages = used.map((row) => row.age_cal_bp);
    const reported = Math.max(...(curve?.value.ages_cal_bp ?? []));
    if (lookLikeKa(ages, reported)) {
      const reach = Math.max(...ages);
      complain(
        first,
        'ages-in-ka',
        'age_cal_bp',
        `${first.curve}: ages up to ${reach}, and a curve as old as ${reported} cal BP`,
        'ages in years before 1950 CE',
        `Write years: ${reach} ka is ${Math.round(1000 * reach)}. It is not used until then.`,
      );
      continue;
    }
    if (use === 'subtract' && first.datum !== null)
      complain(
        first,
        'datum-of-prediction',
        'datum',
        first.datum,
        'none: a part of the level has no zero of its own',
        'Delete it. It is not used.',
        'note',
      );
    const to = use === 'subtract' || first.datum === null ? null : heights.shift(first.datum);
    if (use === 'compare' && first.datum === null)
      complain(
        first,
        'datum-not-known',
        'datum',
        '',
        `the datum of ${first.curve}`,
        'It is taken to be on the datum of the campaign. If it is not, the differences of level mean nothing; those of the rates hold.',
        'warning',
      );
    if (first.datum !== null && to === null && use === 'compare')
      complain(
        first,
        'other-datum',
        'datum',
        first.datum,
        `a datum shift from ${first.datum} to ${heights.datum.label}`,
        'Add the shift. Until then the levels are not compared; the rates are, since a constant shift does not change them.',
      );
    if (curve === null || used.length === 0) continue;
    const other: Other = {
      name: first.curve,
      use,
      source: first.source,
      datum: use === 'subtract' ? null : first.datum,
      shift_sigma_m:
        use === 'subtract' || first.datum === null
          ? 0
          : to === null
            ? null
            : Math.sqrt(to.value.shifts.reduce((sum, { sigma_m }) => sum + square(sigma_m), 0)),
      levels: used
        .map((row) => ({
          row_id: row.row_id,
          age_cal_bp: row.age_cal_bp,
          level_m: row.level_m + (to?.value.shift_m ?? 0),
          level_sigma_m: row.level_sigma_m,
        }))
        .sort((a, b) => b.age_cal_bp - a.age_cal_bp),
    };
    const found = run.untold(beside, { curve, other: run.plain(other) });
    if (!isAnswer(found.value)) {
      complain(
        first,
        'nothing-beside',
        'age_cal_bp',
        `${about}${found.value.found}`,
        found.value.expected,
        use === 'subtract'
          ? 'Enter the prediction for the time of the curve. Nothing is subtracted.'
          : 'Enter levels of the time of the curve. Nothing is compared.',
      );
      continue;
    }
    const result = { ...other, ...found.value };
    others.push(result);
    const told = used.map((row) =>
      run.row('other_curves', row, `${first.curve} at ${row.age_cal_bp} cal BP`),
    );
    tellBeside(run, result, curve, [...told, ...(to === null ? [] : [to])]);
  }
  return { others, problems };
}

type Complain = ReturnType<typeof complaints<OtherRow>>['complain'];

/** One row for each age; with errors, those that have one. */
function usable(rows: readonly OtherRow[], complain: Complain): OtherRow[] {
  const isStated = rows.some((row) => row.level_sigma_m !== null);
  if (!isStated)
    complain(
      rows[0]!,
      'no-error-stated',
      'level_sigma_m',
      `${rows[0]!.curve}: none`,
      '1 sigma of each level',
      'Its levels are taken as exact: what follows from them is given too narrow.',
      'warning',
    );
  const ages = new Set<number>();
  return rows.filter((row) => {
    const { curve, age_cal_bp, level_sigma_m } = row;
    if (isStated && level_sigma_m === null) {
      const left = 'Enter it. The row is left out until then.';
      complain(row, 'no-error-stated', 'level_sigma_m', `${curve}: none`, 'as in its other rows', left);
      return false;
    }
    if (ages.has(age_cal_bp)) {
      const left = 'Delete one of the two. The later one is left out.';
      complain(row, 'two-of-one-age', 'age_cal_bp', `${curve}: ${age_cal_bp}`, 'one row for each age', left);
      return false;
    }
    ages.add(age_cal_bp);
    return true;
  });
}

const publishedOf = ({ levels, shift_sigma_m }: Other): PublishedCurve => ({
  ages_cal_bp: levels.map((each) => each.age_cal_bp),
  level_m: levels.map((each) => each.level_m),
  sd_m: levels.some((each) => each.level_sigma_m === null) ? null : levels.map((each) => each.level_sigma_m!),
  zero_sd_m: shift_sigma_m ?? 0,
});

/** Every difference in the trace: of the curve, and the rows of the other. */
function tellBeside(
  run: Runner,
  { name, use, at, intervals, mean_rate_mm_yr }: OtherCurveResult,
  curve: Known<CurveResult>,
  rows: readonly Traced[],
): void {
  const id = traceId.beside(name);
  const parts = [curve, run.set(id.levels, name, rows)];
  const settled = (told: ReturnType<typeof tellBesideRate>) => unlessConverged(told, curve.value);
  for (const { age_cal_bp, level_m } of at)
    if (level_m !== null)
      run.part(
        id.level(age_cal_bp),
        level_m,
        settled(tellBesideLevel(name, use, age_cal_bp, level_m)),
        parts,
      );
  for (const { rate_mm_yr, ...interval } of intervals)
    run.part(
      id.interval(interval),
      rate_mm_yr,
      settled(tellBesideRate(name, use, interval, rate_mm_yr)),
      parts,
    );
  const [oldest, youngest] = [at[0], at.at(-1)];
  if (mean_rate_mm_yr === null || oldest === undefined || youngest === undefined) return;
  const all = { older_cal_bp: oldest.age_cal_bp, younger_cal_bp: youngest.age_cal_bp };
  run.part(id.meanRate, mean_rate_mm_yr, settled(tellBesideRate(name, use, all, mean_rate_mm_yr)), parts);
}
