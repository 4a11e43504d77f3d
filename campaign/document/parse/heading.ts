/** Which column of the file is which column of the table. */
import {
  columnName,
  isColumnForLater,
  isTableForLater,
  nearest,
  plainHeading,
  plainWord,
} from '@stillstand/campaign/tables';
import type { DocumentTable } from '../document.ts';
import type { TableFrame } from './draft.ts';
import type { ProblemList } from './problem-list.ts';

export interface Heading {
  /** Position in the file of each column of the frame, −1 where it is not there. */
  readonly positions: Int32Array;
  /** False where the rows cannot be read: a needed column is missing or a column stands twice. */
  readonly isUsable: boolean;
  /** True where not even the labels can be read. */
  readonly isStrange: boolean;
}

/** Matches headings to columns; capitals, spaces and hyphens do not matter. Unknown columns are noted and kept. */
export function readHeading(table: DocumentTable, frame: TableFrame, problems: ProblemList): Heading {
  const names = new Map(frame.columns.map(({ name }, i) => [name, i]));
  const positions = new Int32Array(names.size).fill(-1);
  const unknown: string[] = [];
  let isUsable = true;
  table.columns.forEach((heading, position) => {
    const column = names.get(heading) ?? names.get(plainHeading(heading));
    if (column === undefined) {
      if (heading.trim() !== '') unknown.push(heading);
      else if (table.rows.some((row) => (row.cells[position] ?? '').trim() !== '')) unknown.push('');
    } else if (positions[column] !== -1) {
      isUsable = false;
      problems.table(
        'error',
        frame.name,
        {
          code: 'column-twice',
          found: 'two such headings',
          expected: 'each heading once',
          fix: 'Delete or rename one of them. Until then the table is not read.',
        },
        frame.columns[column]!.name,
      );
    } else positions[column] = position;
  });

  const absent = frame.columns.filter((_, i) => positions[i] === -1).map(({ name }) => name);
  for (const heading of unknown) {
    const near = heading === '' ? null : nearest(plainWord(heading), absent);
    problems.table(
      near === null ? 'note' : 'warning',
      frame.name,
      {
        code: 'unknown-column',
        found: heading === '' ? 'values under no heading' : heading,
        expected:
          near === null
            ? 'a heading of this table'
            : `perhaps the heading of the ${columnName(frame.name, near)}, spelt as in a new campaign`,
        fix:
          near === null
            ? 'No action needed: it is kept and not used.'
            : 'Correct the heading if that is meant: the tables of a new campaign have it. Until then it is kept and not used.',
      },
      near ?? (heading === '' ? null : heading),
    );
  }
  if (table.rows.length === 0) return { positions, isUsable, isStrange: false };
  noteUnused(table, frame, positions, problems);
  if (positions.every((position) => position === -1)) {
    problems.table('error', frame.name, {
      code: 'no-known-column',
      found: table.columns.join(', '),
      expected: `headings such as ${absent
        .slice(0, 4)
        .map((name) => columnName(frame.name, name))
        .join(', ')}`,
      fix: 'Write the headings into the first line. Until then no row of the table is read.',
    });
    return { positions, isUsable: false, isStrange: true };
  }

  for (const [i, { name, column }] of frame.columns.entries()) {
    if (!column.required || name === 'row_id' || positions[i] !== -1) continue;
    isUsable = false;
    problems.table(
      'error',
      frame.name,
      {
        code: 'missing-column',
        found: 'no such heading',
        expected: `a heading for the ${columnName(frame.name, name)}: ${column.about}`,
        fix: 'Add the heading, and what belongs below it. Until then the rows of the table are set aside.',
      },
      name,
    );
  }
  return { positions, isUsable, isStrange: false };
}

/** What has its place in the document but is not used by anything yet is said, so that nobody waits for it. */
function noteUnused(
  table: DocumentTable,
  frame: TableFrame,
  positions: Int32Array,
  problems: ProblemList,
): void {
  const say = (found: string, column: string | null): void =>
    problems.table(
      'note',
      frame.name,
      {
        code: 'not-used-yet',
        found,
        expected: 'what a computation uses',
        fix: 'No action needed: it is kept with the campaign and not used yet.',
      },
      column,
    );
  if (isTableForLater(frame.name)) {
    if (table.rows.length > 0) say(`${table.rows.length} rows`, null);
    return;
  }
  for (const [i, { name }] of frame.columns.entries()) {
    const at = positions[i]!;
    if (at === -1 || !isColumnForLater(frame.name, name)) continue;
    const filled = table.rows.filter(({ cells }) => (cells[at] ?? '').trim() !== '').length;
    if (filled > 0) say(`${filled} filled in`, name);
  }
}
