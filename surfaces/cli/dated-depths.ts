/** Dated depths of one hole from a plain table, ready to be modelled together. */
import { problem } from '@stillstand/campaign/problems';
import { printed } from '@stillstand/output/words';
import { randomStream } from '@stillstand/science/base';
import type { AgeConstraint } from '@stillstand/science/clocks';
import type { AgeDepthInput, Calibration } from '@stillstand/science/dating';
import { calendarAge, plainAge } from './plain-age.ts';
import type { PlainRow, PlainTable } from './plain-table.ts';

/** Joint draws of the depths, where any of them is uncertain (common practice, no source). */
const STATES = 400;
/** Depths below the ground that a hole may have, m. */
const DEPTHS = { min: 0, max: 200 };

export interface DatedDepth {
  id: string;
  line: number;
  depth_m: number;
  sigma_m: number;
  age: Calibration;
  /** As the row states it. */
  stated: AgeConstraint;
}

/** Rows that can be used, in their order; what cannot is named in the table's problems. */
export async function datedDepths(table: PlainTable): Promise<DatedDepth[]> {
  const dated: DatedDepth[] = [];
  const ids = new Set<string>();
  for (const row of table.rows) {
    const id = row.text('id');
    const status = row.text('status').toLowerCase();
    if (status === 'rejected') {
      table.problems.push(rejected(table, row));
      continue;
    }
    const before = table.problems.length;
    if (id === '' || ids.has(id))
      row.problem('lab_code', id, 'a code of its own', 'Give each date its own code; the row is left out.');
    ids.add(id);
    if (status !== '' && status !== 'accepted')
      row.problem('status', row.text('status'), 'accepted or rejected', 'Correct it; the row is left out.');
    const depth_m = row.needed('depth_m', DEPTHS);
    const sigma_m = row.number('depth_sigma_m', { min: 0, max: 20 }) ?? 0;
    const stated = await plainAge(row);
    if (stated === null || depth_m === null || table.problems.length > before) continue;
    const age = calendarAge(stated);
    if (age.kind === 'calibrated') dated.push({ id, line: row.line, depth_m, sigma_m, age, stated });
    else
      row.problem(
        stated.kind === 'normal' ? 'age_cal_bp' : 'c14_age',
        row.text(stated.kind === 'normal' ? 'age_cal_bp' : 'c14_age'),
        'an age that can be dated',
        `Check age, error, curve and offset: ${age.reason}. The row is left out.`,
      );
  }
  if (dated.length > 0 && !table.columns.includes('depth_sigma_m'))
    table.problems.push(
      problem({
        severity: 'note',
        code: 'depths-exact',
        table: table.name,
        found: 'no column depth_sigma_m',
        expected: 'the error of each depth, 1 sigma, m',
        fix: 'Add the column if depths are uncertain. They are taken as exact until then.',
      }),
    );
  return dated;
}

const rejected = (table: PlainTable, row: PlainRow) =>
  problem({
    severity: 'note',
    code: 'date-rejected',
    table: table.name,
    line: row.line,
    label: row.text('id'),
    column: 'status',
    found: 'rejected',
    expected: '',
    fix: 'The date is not used.',
  });

/**
 * Dates, erosional contacts and beds laid down at once in as many states of the hole as the depths need: errors of depths are taken as independent
 * and normal, contacts and beds as exact.
 */
export function inStates(
  dated: readonly DatedDepth[],
  hiatuses: readonly number[],
  beds: readonly { top_m: number; base_m: number }[],
  seed: number,
): Pick<AgeDepthInput, 'horizons' | 'breaks' | 'beds'> {
  const states = dated.some(({ sigma_m }) => sigma_m > 0) ? STATES : 1;
  const stream = randomStream(seed).split('depths');
  const exact = (depth_m: number): Float64Array => new Float64Array(states).fill(depth_m);
  return {
    horizons: dated.map(({ id, depth_m, sigma_m, age: { from_cal_bp, density } }) => {
      const own = stream.split(id);
      const drawn = (): number => depth_m + (sigma_m === 0 ? 0 : sigma_m * own.normal());
      return { id, depth_m: Float64Array.from({ length: states }, drawn), age: { from_cal_bp, density } };
    }),
    breaks: hiatuses.map((depth_m) => ({
      id: `${printed(depth_m, 2)} m`,
      depth_m: exact(depth_m),
    })),
    beds: beds.map(({ top_m, base_m }) => ({
      id: `${printed(top_m, 2)} to ${printed(base_m, 2)} m`,
      top_m: exact(top_m),
      bottom_m: exact(base_m),
    })),
  };
}
