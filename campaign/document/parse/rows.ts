/** The rows of one table, cell by cell. */
import { type LengthOptions, plainWord, readCell } from '@stillstand/campaign/tables';
import { rowDoubt } from '../cells.ts';
import type { DocumentTable } from '../document.ts';
import { type Draft, refuse, type TableFrame } from './draft.ts';
import type { Heading } from './heading.ts';

/** Reads every row; a row that cannot be used says why in its faults. */
export function readRows(
  table: DocumentTable,
  frame: TableFrame,
  heading: Heading,
  options: LengthOptions,
): Draft[] {
  const order = sayingOrder(table.columns);
  return table.rows.map(({ cells, line, ...rest }) => {
    const draft: Draft = {
      table: frame.name,
      line,
      row_id: '',
      values: {},
      typed: typedCells(order, cells),
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
  for (let i = 0; i < columns.length; i++) {
    const [name, column] = columns[i]!;
    const field = column.kind === 'length' ? `${name}_m` : name;
    const text = (positions[i] === -1 ? '' : (cells[positions[i]!] ?? '')).trim();
    if (text === '') {
      values[field] = null;
      // A column that is missing altogether has been named once.
      if (column.required && name !== 'row_id' && positions[i] !== -1) {
        refuse(draft, name, {
          code: 'missing-cell',
          found: '',
          expected: column.about,
          mend: 'Fill the cell in. The row is set aside.',
        });
      }
      continue;
    }
    const read = readCell(name, column, text, options);
    values[field] = read.value ?? null;
    if (read.fault === undefined) continue;
    if (read.value !== undefined) {
      draft.faults.push({ ...read.fault, severity: 'warning', column: name });
    } else if (column.detail) draft.faults.push({ ...read.fault, severity: 'error', column: name });
    else refuse(draft, name, read.fault);
  }
  if (frame.isReadings && values.amend_kind === 'withdraw' && values.amends !== null) {
    forgive(draft);
  }
  checkEnds(draft);
}

/** A row that withdraws another needs to say no more. */
function forgive(draft: Draft): void {
  draft.faults = draft.faults.filter(
    ({ column }) => column === null || column === 'amends' || column === 'amend_kind',
  );
  draft.usable = draft.faults.every(({ severity }) => severity !== 'error');
}

/** Everything of the kind "from … to" runs downwards. */
function checkEnds(draft: Draft): void {
  for (const [upper, lower] of [
    ['top', 'bottom'],
    ['from', 'to'],
  ] as const) {
    const from = draft.values[`${upper}_m`];
    const to = draft.values[`${lower}_m`];
    if (typeof from !== 'number' || typeof to !== 'number' || from <= to) continue;
    refuse(draft, lower, {
      code: 'upside-down',
      found: `${upper} ${from} m, ${lower} ${to} m`,
      expected: `${lower} at or below ${upper}`,
      mend: `Correct ${upper} or ${lower}. The row is set aside.`,
    });
  }
}

/** Headings in alphabetical order with the position of their cells; row_id left out. */
function sayingOrder(columns: readonly string[]): { heading: string; position: number }[] {
  return columns
    .map((column, position) => ({ heading: plainWord(column), position }))
    .filter(({ heading }) => heading !== 'row_id')
    .sort((a, b) => (a.heading < b.heading ? -1 : a.heading > b.heading ? 1 : a.position - b.position));
}

/** What the row says, whatever the order of its columns. */
function typedCells(
  order: readonly { heading: string; position: number }[],
  cells: readonly string[],
): string {
  let typed = '';
  for (const { heading, position } of order) {
    const cell = cells[position]?.trim() ?? '';
    if (cell !== '') typed += `${heading}\u0000${cell}\u0001`;
  }
  return typed;
}
