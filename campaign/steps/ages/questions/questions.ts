/** Radiocarbon dates that look odd are asked about: one by one, and against each other. Nothing is left out for a question. */
import type { Campaign } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import type { Row } from '@stillstand/campaign/tables';
import { type Complain, complaints } from '../../complaint.ts';
import { conventionalAge } from '../conventional-age.ts';
import { type Dates, hasMarineShare, isOfSea } from '../dates.ts';
import { isForOffset, offeredOffset } from '../reservoirs.ts';
import { carbonOf } from './carbon-of.ts';
import { after1950, RULES } from './rules.ts';

type Determination = Row<'determinations'>;

export function questions(campaign: Campaign, dates: Dates): Problem[] {
  const { problems, complain } = complaints<Determination>(campaign, 'determinations', (r) => r.lab_code);
  const asked = campaign.rows.determinations.filter(
    (row) => row.method === 'radiocarbon' && row.status !== 'rejected',
  );
  const own = dates.ownCurves;
  const samples = new Map(campaign.rows.samples.map((row) => [row.sample, row]));
  const latitudes = new Map(campaign.rows.holes.map((row) => [row.hole, row.latitude_deg]));
  for (const row of asked) {
    const age = conventionalAge(row);
    if (row.calibration_curve === null || isForOffset(row) || 'reason' in age) continue;
    const sample = samples.get(row.sample);
    const date = {
      row,
      // "Acid–base–acid residue" says nothing of where its carbon is from; the sample does.
      material: carbonOf(row.fraction_dated) === null ? (sample?.material ?? null) : row.fraction_dated,
      c14_age: age.c14_age,
      error_yr: row.qualifier === null ? age.error_yr : Infinity,
      latitude_deg: latitudes.get(sample?.hole ?? '') ?? null,
      isOfAir: row.calibration_curve !== 'marine20' && !own.has(row.calibration_curve),
      isOfSea: isOfSea(row.calibration_curve, own),
      isBombCurve: row.calibration_curve.startsWith('bomb'),
      hasMarineShare: hasMarineShare(row),
    };
    for (const rule of dates.of.has(row.lab_code) ? RULES : [after1950]) {
      const question = rule(date);
      if (question === null) continue;
      const { code, column, found, expected, fix, severity } = question;
      complain(row, code, column, found, expected, fix, severity);
    }
  }
  waters(asked, dates, complain);
  twice(campaign.rows.determinations, complain);
  return problems;
}

/** Dates of one water: one curve, one ΔR, and that of the campaign's own shells where it has them. */
function waters(asked: readonly Determination[], dates: Dates, complain: Complain<Determination>): void {
  const dated = asked.filter((row) => row.delta_r_group !== null && !isForOffset(row));
  for (const [group, rows] of Map.groupBy(dated, (row) => row.delta_r_group!)) {
    const curves = new Set(rows.map((row) => row.calibration_curve).filter((name) => name !== null));
    if (curves.size > 1)
      complain(
        rows[0]!,
        'delta-r-on-two-curves',
        'delta_r_group',
        `${group} on ${[...curves].join(', ')}`,
        'one curve for one ΔR: it belongs to the curve it was computed with',
        'Give each curve a ΔR and a group of its own.',
        'warning',
      );
    const values = new Set(rows.map((row) => `${row.delta_r ?? 0} ± ${row.delta_r_error ?? 0}`));
    if (values.size > 1)
      complain(
        rows[0]!,
        'delta-r-group-differs',
        'delta_r',
        `${group}: ${[...values].join(', ')}`,
        'one ΔR and one error for the dates that share it',
        'Write the same in all of them, or divide the group.',
        'warning',
      );
    const water = dates.reservoirs.get(group);
    if (water === undefined) continue;
    const { delta_r, delta_r_error } = offeredOffset(water);
    for (const row of rows) {
      const says = `${delta_r} ± ${delta_r_error}, by the ${water.n} shells of ${group} on ${water.curve}`;
      if (row.calibration_curve !== water.curve)
        complain(
          row,
          'delta-r-of-another-curve',
          'calibration_curve',
          row.calibration_curve ?? '',
          says,
          'A ΔR belongs to its curve: name that curve, or another water.',
          'warning',
        );
      else if (row.delta_r !== delta_r || row.delta_r_error !== delta_r_error)
        complain(
          row,
          'delta-r-not-of-own-shells',
          'delta_r',
          row.delta_r === null ? '' : `${row.delta_r} ± ${row.delta_r_error ?? 0}`,
          says,
          'Take it over in the form of the date, or keep yours knowingly under another group.',
          'note',
        );
    }
  }
}

/** One result in two rows: its code otherwise written, or all of it under two codes. */
function twice(rows: readonly Determination[], complain: Complain<Determination>): void {
  const spelling = (code: string): string => code.toLowerCase().replace(/[^\p{L}\p{N}]/gu, '');
  for (const same of Map.groupBy(rows, (row) => spelling(row.lab_code)).values()) {
    const codes = [...new Set(same.map(({ lab_code }) => lab_code))];
    if (codes.length > 1)
      complain(
        same.at(-1)!,
        'laboratory-code-twice',
        'lab_code',
        codes.join(', '),
        'one row for each laboratory code',
        'If it is one result, delete one of the rows: it counts twice.',
        'warning',
      );
  }
  const result = ({ lab_code: _, row_id: __, note: ___, ...said }: Determination): string =>
    JSON.stringify(said);
  for (const same of Map.groupBy(rows, result).values()) {
    const codes = [...new Set(same.map(({ lab_code }) => spelling(lab_code)))];
    if (codes.length > 1)
      complain(
        same.at(-1)!,
        'result-twice',
        'value',
        same.map(({ lab_code }) => lab_code).join(', '),
        'results of one sample that differ',
        'Two results that say the same in everything but the code may be one result with two codes: it would count twice.',
        'note',
      );
  }
}
