/**
 * A paper sheet typed in afterwards: line by line, by keyboard, as it was written. A line is a letter and at most four
 * values; what each is, the letter says. Nothing is guessed: a length without a unit takes the sheet's.
 */

import { parseLength, type TableName } from '@stillstand/campaign/tables';
import { t } from '../../../language/index.ts';

interface SheetColumn {
  column: string;
  label: string;
  kind: 'length' | 'number' | 'text';
}
interface SheetKind {
  letter: string;
  name: string;
  table: TableName;
  columns: readonly SheetColumn[];
  fixed: Readonly<Record<string, string>>;
}

const length = (column: string, label: string): SheetColumn => ({ column, label, kind: 'length' });
const number = (column: string, label: string): SheetColumn => ({ column, label, kind: 'number' });
const text = (column: string, label: string): SheetColumn => ({ column, label, kind: 'text' });

export const SHEET_KINDS: readonly SheetKind[] = [
  {
    letter: 'G',
    name: t`ground`,
    table: 'ground_levels',
    fixed: {},
    columns: [length('ground_below_reference', t`below reference`), text('cause', t`what moved it`)],
  },
  {
    letter: 'J',
    name: t`joint`,
    table: 'string_items',
    fixed: { item: 'joint', action: 'add' },
    columns: [
      text('joint', t`label`),
      length('length', t`length`),
      text('tight', t`tight?`),
      text('action', t`pull, left, lost`),
    ],
  },
  {
    letter: 'H',
    name: t`shoe`,
    table: 'string_items',
    fixed: { item: 'shoe', action: 'add' },
    columns: [
      text('joint', t`label`),
      length('length', t`length`),
      text('tight', t`tight?`),
      text('action', t`pull, left, lost`),
    ],
  },
  {
    letter: 'D',
    name: t`drive`,
    table: 'drives',
    fixed: {},
    columns: [
      length('stick_up_start', t`stick-up before`),
      length('stick_up_end', t`stick-up after`),
      number('duration_s', t`time, s`),
      text('ended_by', t`ended by`),
    ],
  },
  {
    letter: 'W',
    name: t`water`,
    table: 'water_added',
    fixed: {},
    columns: [
      length('to_water_before', t`before`),
      length('to_water_after', t`after`),
      number('volume_l', t`litres`),
      text('kind', t`fresh, sea`),
    ],
  },
  {
    letter: 'S',
    name: t`sounding`,
    table: 'soundings',
    fixed: {},
    columns: [
      length('to_sediment', t`to sediment`),
      length('to_water_inside', t`to water inside`),
      length('water_outside', t`water outside`),
      length('stick_up', t`stick-up`),
    ],
  },
  {
    letter: 'P',
    name: t`push`,
    table: 'pushes',
    fixed: {},
    columns: [length('from', t`from`), length('to', t`to`), length('recovered', t`came up`)],
  },
  {
    letter: 'R',
    name: t`run`,
    table: 'runs',
    fixed: {},
    columns: [
      length('start_mark', t`cable, touched`),
      length('end_mark', t`cable, lowest`),
      number('strokes', t`strokes`),
      length('recovered', t`came up`),
    ],
  },
];

export const kindOf = (letter: string): SheetKind | undefined =>
  SHEET_KINDS.find((k) => k.letter === letter.trim().toUpperCase());

const CLOCK = /^(\d{1,2})[:.]?(\d{2})$/;

export interface SheetLine {
  clock: string;
  letter: string;
  values: readonly string[];
  note: string;
}

export const EMPTY_LINE: SheetLine = { clock: '', letter: '', values: ['', '', '', ''], note: '' };

export const isEmpty = (line: SheetLine): boolean =>
  line.letter === '' && line.clock === '' && line.note === '' && line.values.every((v) => v === '');

/** What cannot be recorded of a line, in words; null where all of it can. */
export function faultOf(line: SheetLine, unit: string): string | null {
  if (isEmpty(line)) return null;
  const kind = kindOf(line.letter);
  if (kind === undefined) return t`kind: one of ${SHEET_KINDS.map((k) => k.letter).join(', ')}`;
  if (line.clock !== '' && !/^([01]?\d|2[0-3])[:.]?[0-5]\d$/.test(line.clock)) return t`time: as 14:05`;
  for (const [i, c] of kind.columns.entries()) {
    const value = writtenOf(line, i, c);
    if (value === '') continue;
    if (c.kind === 'length') {
      const read = parseLength(withUnit(value, unit));
      if (!read.ok) return `${c.label}: ${read.fix}`;
    }
    if (c.kind === 'number' && !Number.isFinite(Number(value))) return t`${c.label}: a number`;
    if (c.column === 'action' && !['', 'add', 'remove', 'pull', 'cut', 'left', 'lost'].includes(value))
      return t`${c.label}: pull, cut, left or lost`;
    if (c.column === 'kind' && !['fresh', 'sea'].includes(value)) return t`${c.label}: fresh or sea`;
    if (
      c.column === 'ended_by' &&
      !['length', 'slowing', 'refusal', 'obstruction', 'tide', 'fault'].includes(value)
    )
      return t`${c.label}: length, slowing, refusal, obstruction, tide or fault`;
    if (c.column === 'tight' && !/^(y|yes|true|n|no|false)$/i.test(value)) return t`${c.label}: yes or no`;
  }
  const first = kind.columns[0]!;
  if (
    first.kind === 'length' &&
    kind.letter !== 'W' &&
    kind.letter !== 'S' &&
    (line.values[0] ?? '').trim() === ''
  )
    return t`${first.label} is missing`;
  if ((kind.letter === 'D' || kind.letter === 'P') && (line.values[1] ?? '').trim() === '')
    return t`${kind.columns[1]!.label} is missing`;
  return null;
}

/** A cell as it was written; 2,40 for 2.40 where a number stands, as many people write it. */
function writtenOf(line: SheetLine, at: number, column: SheetColumn): string {
  const value = (line.values[at] ?? '').trim();
  return column.kind === 'text' ? value : value.replace(',', '.');
}

const withUnit = (value: string, unit: string): string =>
  /[a-z'"′″]\s*$/i.test(value) ? value : `${value} ${unit}`;

/** A length with the unit it is read in; empty where none is written. */
export function lengthAsWritten(line: SheetLine, at: number, unit: string): string {
  const value = (line.values[at] ?? '').trim().replace(',', '.');
  return value === '' ? '' : withUnit(value, unit);
}

/** The readings of a sheet in its order; a run of its own label is numbered on. `day` and `offset` make its times whole. */
export function readingsOf(
  lines: readonly SheetLine[],
  sheet: { hole: string; unit: string; day: string; offset: string; nextRun: number; nextPush?: number },
): { table: TableName; cells: Record<string, string> }[] {
  let run = sheet.nextRun;
  let push = sheet.nextPush ?? 1;
  const written = lines.find((l) => CLOCK.test(l.clock))?.clock ?? '12:00';
  let clockBefore = written;
  return lines.flatMap((line) => {
    const kind = kindOf(line.letter);
    if (kind === undefined || faultOf(line, sheet.unit) !== null) return [];
    const cells: Record<string, string> = { hole: sheet.hole, ...kind.fixed, device: 'paper sheet' };
    for (const [i, c] of kind.columns.entries()) {
      const value = writtenOf(line, i, c);
      if (value === '') continue;
      if (c.kind === 'length') cells[c.column] = withUnit(value, sheet.unit);
      else if (c.column === 'tight') cells['tight'] = /^(y|t)/i.test(value) ? 'true' : 'false';
      else cells[c.column] = value;
    }
    if (kind.letter === 'P') cells['push'] = `P${push++}`;
    if (kind.letter === 'R') {
      cells['run'] = `R${run++}`;
      cells['outcome'] = cells['recovered'] === undefined ? 'part' : 'full';
    }
    const isWritten = CLOCK.test(line.clock);
    if (isWritten) clockBefore = line.clock;
    const [, hours, minutes] = CLOCK.exec(clockBefore)!;
    // never the time of typing: the clock of the line before, and it says so
    cells['time'] = `${sheet.day}T${hours!.padStart(2, '0')}:${minutes}:00${sheet.offset}`;
    const note = [isWritten ? '' : t`time not written`, line.note.trim()].filter((n) => n !== '').join('; ');
    if (note !== '') cells['note'] = note;
    return [{ table: kind.table, cells }];
  });
}
