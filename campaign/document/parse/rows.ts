/** The rows of one table, cell by cell. */
import { isNeeded, type LengthOptions, readCell } from '@stillstand/campaign/tables';
import { rowDoubt } from '../cells.ts';
import type { DocumentTable } from '../document.ts';
import { type Draft, headedCells, refuse, type TableFrame } from './draft.ts';
import type { Heading } from './heading.ts';
import { mayLack, standingOf, withoutLimit } from './limits.ts';

/** Reads every row; a row that cannot be used says why in its faults. */
export function readRows(
  table: DocumentTable,
  frame: TableFrame,
  heading: Heading,
  options: LengthOptions,
): Draft[] {
  const order = headedCells(frame.name, table.columns);
  return table.rows.map(({ cells, line, ...rest }) => {
    const draft: Draft = {
      table: frame.name,
      line,
      row_id: '',
      values: { ...frame.blank },
      cells,
      order,
      faults: [],
      usable: heading.isUsable,
    };
    const doubt = rowDoubt(table.columns, { cells, line, ...rest });
    if (doubt !== null) {
      draft.faults.push({ ...doubt.fault, severity: doubt.severity, column: null });
      if (doubt.severity === 'error') draft.usable = false;
    }
    readValues(draft, frame, heading, cells, options);
    return draft;
  });
}

function readValues(
  draft: Draft,
  frame: TableFrame,
  { positions }: Heading,
  cells: readonly string[],
  options: LengthOptions,
): void {
  const { columns } = frame;
  const { values } = draft;
  const textOf = (name: string): string => {
    const at = columns.findIndex((column) => column.name === name);
    return at === -1 ? '' : (cells[positions[at]!] ?? '').trim();
  };
  const standing = standingOf(frame, textOf);
  for (let i = 0; i < columns.length; i++) {
    const position = positions[i]!;
    const { name, field, column } = columns[i]!;
    // A column that is missing altogether has been named once, where every row needs it.
    if (position === -1 && column.unless === undefined) continue;
    const text = withoutLimit(name, (cells[position] ?? '').trim(), standing);
    if (text === '') {
      const needed = isNeeded(column, textOf);
      // A limit has no error of its own; a row without a value, or rejected and not whole, is kept and not used.
      if (name === 'error' && column.unless !== undefined && standing.qualifier !== null) values[field] = 0;
      else if (needed && mayLack(name, standing)) draft.usable = false;
      else if (needed && name !== 'row_id') {
        refuse(draft, name, {
          code: 'missing-cell',
          found: '',
          expected: column.about,
          fix: 'Fill it in. The row is set aside.',
        });
      }
      continue;
    }
    const read = readCell(name, column, text, options);
    if (read.value !== undefined) values[field] = read.value;
    if (read.fault === undefined) continue;
    if (read.value !== undefined) {
      draft.faults.push({ ...read.fault, severity: 'warning', column: name });
    } else if (column.detail) draft.faults.push({ ...read.fault, severity: 'error', column: name });
    else refuse(draft, name, read.fault);
  }
  if (standing.qualifier !== null) values['qualifier'] ??= standing.qualifier;
  const { amend_kind: kind } = values;
  if (frame.isReadings && (kind === 'withdraw' || kind === 'move') && values.amends !== null) forgive(draft);
  if (frame.ends !== null) checkEnds(draft, frame.ends);
}

/** A row that withdraws or moves another needs to say no more; of a move its place is looked at with the reading. */
function forgive(draft: Draft): void {
  draft.faults = draft.faults.filter(
    ({ column }) => column === null || column === 'amends' || column === 'amend_kind',
  );
  draft.usable = draft.faults.every(({ severity }) => severity !== 'error');
}

/** Everything of the kind "from … to" runs downwards. */
function checkEnds(draft: Draft, [upper, lower]: readonly [string, string]): void {
  const from = draft.values[`${upper}_m`];
  const to = draft.values[`${lower}_m`];
  if (typeof from !== 'number' || typeof to !== 'number' || from <= to) return;
  refuse(draft, lower, {
    code: 'top-below-bottom',
    found: `${upper} ${from} m, ${lower} ${to} m`,
    expected: `${lower} at or below ${upper}`,
    fix: `Correct ${upper} or ${lower}. The row is set aside.`,
  });
}
