/** Amending a line of the book: its fields with their present values, and the later row that says what was changed. */

import type { HoleState, RowSource } from '@stillstand/campaign/holes';
import { clockOf } from '@stillstand/campaign/tables';
import { t } from '../../../language/index.ts';
import type { EntryForm, Field, FormName } from '../forms/field.ts';
import { formFor } from '../forms/forms.ts';
import { conditionField } from '../forms/string-forms.ts';
import { type BookLine, type BookTable, CORRECTED } from './book.ts';

/** The form whose fields a line of a table has. */
const FORM_OF: Readonly<Record<BookTable, FormName>> = {
  ground_levels: 'ground',
  string_items: 'add',
  drives: 'drive',
  soundings: 'sound',
  water_added: 'fill',
  runs: 'lay_out',
  checks: 'answer',
  pieces: 'pieces',
  pushes: 'push',
  cable_marks: 'marks',
  events: 'note',
};

const formOf = ({ table }: BookLine, cells: Readonly<Record<string, string>>): FormName =>
  table === 'soundings' && cells['purpose'] === 'zero_check'
    ? 'zero'
    : table === 'events' && cells['kind'] === 'hand_over'
      ? 'hand_over'
      : FORM_OF[table];

/** What stands in a field: a zero check of version 1 has its reading in the column of the sediment. */
const standsIn = (cells: Readonly<Record<string, string>>, column: string): string =>
  cells[column] || (column === 'cable_at_collar' ? (cells['to_sediment'] ?? '') : '');

const last = (line: BookLine) => line.versions.at(-1)!.cells;

export function amendForm(line: BookLine, now: HoleState, source: RowSource): EntryForm {
  const cells = last(line);
  const base = formFor(formOf(line, cells), now, source);
  const marks: Field[] =
    line.table === 'runs'
      ? [
          {
            kind: 'length',
            column: 'start_mark',
            label: t`Cable when it touched`,
            help: t`Tip below the collar when it first touched.`,
          },
          {
            kind: 'length',
            column: 'end_mark',
            label: t`Cable at its lowest`,
            help: t`Tip below the collar at its lowest.`,
          },
        ]
      : [];
  const ofItem: Field[] =
    line.table === 'string_items' && (cells['action'] ?? 'add') === 'add'
      ? [
          {
            kind: 'choice',
            column: 'tight',
            label: t`Thread`,
            help: t`Its lower thread: confirmed tight before it goes below ground, or not.`,
            options: [
              { value: 'true', word: 'tight' },
              { value: 'false', word: t`not tight` },
            ],
          },
        ]
      : line.table === 'string_items'
        ? [conditionField]
        : [];
  const fields: Field[] = [
    ...marks,
    ...base.fields.filter((f) => f.column !== 'laid_out' && f.column !== 'note'),
    ...ofItem,
    {
      kind: 'text',
      column: 'time',
      label: t`Time`,
      help: t`The clock when it was read. It sets no order: readings follow the order of the field log.`,
    },
    { kind: 'text', column: 'note', label: t`Note`, help: t`Anything worth saying.` },
  ];
  return {
    ...base,
    title: t`Amend: ${line.name}`,
    verb: t`Save amendment`,
    caution: null,
    fixed: {},
    table: line.table,
    fields: fields.map((f): Field => {
      const { assumed: _, needed: __, ...plain } = f;
      const value =
        f.column === 'time'
          ? clockOf(cells['time'] ?? '')
          : f.column === 'note'
            ? (cells['note'] ?? '')
            : standsIn(cells, f.column);
      return { ...plain, initial: value } as Field;
    }),
  };
}

/**
 * The cells of the amending row: only what changed, and a note that says what stood there. Null where nothing did.
 * A cell emptied is written empty: what was misread and is not known stays blank.
 */
export function amendment(
  line: BookLine,
  values: Readonly<Record<string, string>>,
): Record<string, string> | null {
  const cells = last(line);
  const changed: Record<string, string> = {};
  const was: string[] = [];
  for (const [column, value] of Object.entries(values)) {
    if (column === 'note') continue;
    const before = standsIn(cells, column);
    if (column === 'time') {
      const time = withClock(before, value);
      if (time !== null && time !== before) {
        changed['time'] = time;
        was.push(clockOf(before));
      }
    } else if (value.trim() !== before) {
      changed[column] = value.trim();
      if (before !== '') was.push(before);
    }
  }
  const before = (cells['note'] ?? '').trim();
  const note = (values['note'] ?? before).trim();
  if (Object.keys(changed).length === 0 && note === before) return null;
  const reason = was.length === 0 ? {} : { amend_reason: `${CORRECTED}: ${was.join(', ')}` };
  return { ...changed, ...(note === before ? {} : { note }), ...reason };
}

/** The same moment with another clock, its day and offset kept; null where what was typed is no clock. */
function withClock(time: string, clock: string): string | null {
  const typed = /^(\d{1,2})[:.](\d{2})$/.exec(clock.trim());
  if (typed === null || Number(typed[1]) > 23 || Number(typed[2]) > 59) return null;
  if (clockOf(time) === `${typed[1]!.padStart(2, '0')}:${typed[2]}`) return time;
  return time.replace(/T\d{2}:\d{2}(:\d{2})?/, `T${typed[1]!.padStart(2, '0')}:${typed[2]}:00`);
}
