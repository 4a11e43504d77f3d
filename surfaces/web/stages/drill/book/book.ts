/**
 * The book: what was written for one hole, line by line in the order of seq, with every earlier wording of a line. A
 * line is one reading; its later rows either complete it (a run goes on, a joint is confirmed tight) or correct it, and
 * a correction shows what stood there, struck, before what stands now. Past 250 lines for the words of nine tables.
 */

import {
  type Choice,
  choicesOf,
  compareReadings,
  type Reading,
  type TypedRow,
  typedReadings,
  typedSeq,
  wordings,
} from '@stillstand/campaign/document';
import {
  findingsAsRead,
  type HoleState,
  pushFinding,
  type ReadingFinding,
  RIG_TABLES,
  type RowSource,
} from '@stillstand/campaign/holes';
import { capital, clockOf, schemas } from '@stillstand/campaign/tables';
import { midSentence, t, translated } from '../../../language/index.ts';
import { plainWord } from '../forms/field.ts';
import { pushesOf } from '../numbers/push-hole.ts';

/** What the book shows: the readings of the rig, and what is read beside them and moves no depth of the string. */
export const BOOK_TABLES = [...RIG_TABLES, 'checks', 'pieces', 'pushes', 'cable_marks', 'events'] as const;
export type BookTable = (typeof BOOK_TABLES)[number];

export interface BookCell {
  column: string;
  label: string;
  /** What stood here before, the oldest first. */
  was: readonly string[];
  now: string;
}

export interface BookLine {
  table: BookTable;
  /** The first row of the reading. */
  root_id: string;
  /** The row that counts; the last one where the reading is withdrawn. */
  row_id: string;
  seq: number;
  /** "14:32", the clock of the place as written; empty where no time was. */
  clock: string;
  time: string;
  by: string;
  name: string;
  cells: readonly BookCell[];
  note: string;
  /** `conflict`: its amendments differ. `moved`: it is of another hole now. `astray`: it amends no reading there is. */
  state: 'standing' | 'amended' | 'withdrawn' | 'conflict' | 'moved' | 'astray';
  /** In a conflict, what may be chosen. */
  choices: readonly Choice[];
  findings: readonly ReadingFinding[];
  /** Every row of the reading. */
  row_ids: readonly string[];
  /** States the row went through, the oldest first: the cable readings of a run. */
  versions: readonly TypedRow[];
}

/** Marks an amendment as the correction of a slip, not as the reading going on. */
export const CORRECTED = 'corrected';

const LABELS: Readonly<Record<string, string>> = {
  ground_below_reference: t`below reference`,
  stick_up_start: t`from`,
  stick_up_end: t`to`,
  duration_s: t`time, s`,
  frequency_hz: t`speed, Hz`,
  ended_by: t`ended by`,
  to_sediment: t`sediment`,
  cable_at_collar: t`at the collar`,
  to_water_inside: t`water inside`,
  water_outside: t`water outside`,
  collar_to_shoe: t`shoe believed`,
  stick_up: t`stick-up`,
  to_water_before: t`before`,
  to_water_after: t`after`,
  volume_l: t`volume, L`,
  start_mark: t`from`,
  end_mark: t`to`,
  fall_in: t`fall-in`,
  loss_position: t`core lost at`,
  line_load_kn: t`load, kN`,
  answer: '',
  text: '',
  with_whom: t`with`,
  due: t`next`,
  interval: t`every`,
  top: t`from`,
  bottom: t`to`,
  inside_top: t`sediment inside`,
  outside_top: t`ground outside`,
};
/** Columns every reading has, or that the name of the line already says. */
const UNSAID = new Set([
  'row_id',
  'seq',
  'time',
  'by',
  'device',
  'note',
  'amends',
  'amend_kind',
  'hole',
  'action',
  'item',
  'question',
  'check',
  'joint',
  'run',
  'purpose',
  'push',
  'date',
]);
const PROGRESS = new Set(['end_mark', 'strokes']);

export function bookOf(source: RowSource, now: HoleState): BookLine[] {
  const lines: BookLine[] = [];
  const pushes = now.row.method === 'string' ? [] : pushesOf(source, now);
  const overfull = pushes.flatMap((push) => pushFinding(push, now.units.core) ?? []);
  const findings = Map.groupBy([...findingsAsRead(now), ...overfull], (f) => f.row_id);
  const standing = new Set([...now.readings, ...pushes].map((r) => r.row_id));
  const { hole } = now.row;
  for (const table of BOOK_TABLES) {
    const isHere = (row: TypedRow): boolean => row.cells['hole']?.trim() === hole;
    for (const reading of typedReadings(table, source.rows(table)).all) {
      if (reading.rows.some(isHere)) lines.push(lineOf(table, reading, hole, standing, findings));
    }
  }
  return lines.sort(compareReadings);
}

function lineOf(
  table: BookTable,
  reading: Reading<TypedRow>,
  hole: string,
  standing: ReadonlySet<string>,
  findings: Map<string, ReadingFinding[]>,
): BookLine {
  const root = reading.first;
  const versions = wordings(table, reading);
  const last = versions.at(-1)!;
  const columns = Object.keys(schemas[table].columns).filter(
    (c) => !UNSAID.has(c) && !(table === 'events' && c === 'kind'),
  );
  const cells = columns.flatMap((column): BookCell[] => {
    const was: string[] = [];
    let value = versions[0]!.cells[column]?.trim() ?? '';
    for (const [i, v] of versions.entries()) {
      const next = v.cells[column]?.trim() ?? '';
      if (i === 0 || next === value) continue;
      const goesOn = table === 'runs' && PROGRESS.has(column) && !isCorrection(v, versions[i - 1]!);
      const completes =
        value === '' ||
        (column === 'tight' && next === 'true') ||
        (column === 'loss_position' && value === 'unknown');
      if (!goesOn && !completes) was.push(value);
      value = next;
    }
    return value === '' && was.length === 0
      ? []
      : [{ column, label: LABELS[column] ?? plainWord(column), was, now: value }];
  });
  const time = last.cells['time']?.trim() ?? '';
  return {
    table,
    root_id: root.row_id,
    row_id: last.row_id,
    seq: seqOf(reading, hole, last),
    clock: clockOf(versions[0]!.cells['time'] ?? time),
    time,
    by: last.cells['by'] ?? '',
    name: nameOf(table, last),
    cells,
    note: last.cells['note'] ?? '',
    state: stateOf(reading, hole, cells),
    choices: reading.state === 'conflict' ? choicesOf(table, reading) : [],
    findings: standing.has(last.row_id) ? (findings.get(last.row_id) ?? []) : [],
    versions,
    row_ids: reading.rows.map((row) => row.row_id),
  };
}

/** Its number in this hole: where it is of another hole now, that which it had here. */
function seqOf({ first, now, place }: Reading<TypedRow>, hole: string, last: TypedRow): number {
  const isHere = (row: TypedRow): boolean => row.cells['hole']?.trim() === hole;
  const isOfHole = isHere(now ?? first);
  return typedSeq(isOfHole ? place.by : isHere(first) ? first : last) ?? 0;
}

/** A reason that says so, and was not there before: later rows carry it along. */
function isCorrection(v: TypedRow, before: TypedRow): boolean {
  const reason = v.cells['amend_reason'] ?? '';
  return reason.startsWith(CORRECTED) && reason !== (before.cells['amend_reason'] ?? '');
}

function stateOf(
  { state, now }: Reading<TypedRow>,
  hole: string,
  cells: readonly BookCell[],
): BookLine['state'] {
  if (state === 'withdrawn' || state === 'conflict' || state === 'astray') return state;
  if (now?.cells['hole']?.trim() !== hole) return 'moved';
  return cells.some((c) => c.was.length > 0) ? 'amended' : 'standing';
}

function nameOf(table: BookTable, { cells }: TypedRow): string {
  switch (table) {
    case 'ground_levels':
      return t`Ground`;
    case 'string_items': {
      const item = `${plainWord(cells['item'] ?? 'joint')} ${cells['joint'] ?? ''}`.trim();
      const action = cells['action'] ?? 'add';
      return action === 'add' ? t`Added ${item}` : `${capital(PAST[action] ?? plainWord(action))} ${item}`;
    }
    case 'drives':
      return t`Drive`;
    case 'soundings': {
      const purpose = cells['purpose'] ?? '';
      if (purpose === 'zero_check') return t`Zero check`;
      if (purpose === 'other' || purpose === '')
        return (cells['to_sediment'] ?? '') === '' && (cells['to_water_inside'] ?? '') === ''
          ? t`Note`
          : (cells['to_sediment'] ?? '') === ''
            ? t`Water`
            : t`Sounding`;
      return t`Sounding, ${plainWord(purpose)}`;
    }
    case 'water_added':
      return t`Filled`;
    case 'runs':
      return t`Run ${cells['run'] ?? ''}`.trim();
    case 'checks':
      return t`Check: ${midSentence(translated(cells['question'] ?? ''))}`;
    case 'pieces':
      return t`Piece of ${cells['run'] ?? t`a run`}`;
    case 'cable_marks':
      return t`Cable marks`;
    case 'events':
      return capital(plainWord(cells['kind'] || 'note'));
    case 'pushes':
      return t`Push ${cells['push'] ?? ''}`.trim();
  }
}

const PAST: Readonly<Record<string, string>> = {
  remove: t`taken off`,
  pull: t`pulled`,
  cut: t`cut`,
  left: t`left`,
  lost: t`lost`,
};

/** The cable readings of a run in hand, for its own table: each state it passed through. */
export interface CableReading {
  row_id: string;
  clock: string;
  /** As typed. */
  mark: string;
  column: 'start_mark' | 'end_mark';
  /** A slip corrected here: what it replaces. */
  instead_of: string | null;
  strokes: string;
}

export function cableReadings(line: BookLine): CableReading[] {
  const readings: CableReading[] = [];
  for (const [i, v] of line.versions.entries()) {
    const mark = (v.cells['end_mark'] ?? '') || (v.cells['start_mark'] ?? '');
    const strokes = v.cells['strokes'] ?? '';
    const before = readings.at(-1);
    const corrected = i > 0 && isCorrection(v, line.versions[i - 1]!);
    if (before !== undefined && before.mark === mark) {
      // only the strokes went on
      before.strokes = strokes;
      before.row_id = v.row_id;
      continue;
    }
    const reading: CableReading = {
      row_id: v.row_id,
      clock: clockOf(v.cells['time'] ?? ''),
      mark,
      column: (v.cells['end_mark'] ?? '') === '' ? 'start_mark' : 'end_mark',
      instead_of: corrected && before !== undefined ? before.mark : null,
      strokes,
    };
    if (corrected && before !== undefined)
      readings[readings.length - 1] = { ...reading, clock: before.clock };
    else readings.push(reading);
  }
  return readings;
}
