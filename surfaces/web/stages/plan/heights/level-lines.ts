/** The lines of a level book as they are typed: what is recorded, with what was changed and added since. */
import {
  compareReadings,
  type InOrder,
  type Reading,
  type TypedRow,
  typedReadings,
  typedSeq,
  wordings,
} from '@stillstand/campaign/document';

/** The columns that are typed, in the order of the paper book. */
export const ENTRIES = [
  'point',
  'backsight_m',
  'intermediate_m',
  'foresight_m',
  'distance_m',
  'note',
] as const;
export type Entry = (typeof ENTRIES)[number];
export type LineCells = Readonly<Record<Entry, string>>;

export const BLANK: LineCells = {
  point: '',
  backsight_m: '',
  intermediate_m: '',
  foresight_m: '',
  distance_m: '',
  note: '',
};

/**
 * A line that is not recorded yet. It has the identity it will be recorded under, so that it is never recorded twice;
 * `before` is the recorded line it is in front of, empty for the end.
 */
export interface AddedLine {
  row_id: string;
  before: string;
  cells: LineCells;
}

/** What is typed and not recorded. `edits`: changed cells of recorded lines, by the row first written. */
export interface BookDraft {
  edits: Readonly<Record<string, Partial<LineCells>>>;
  added: readonly AddedLine[];
}

export const NO_DRAFT: BookDraft = { edits: {}, added: [] };

export interface BookLine {
  /** Identity of the reading, recorded or to be. */
  key: string;
  /** The row first written; null for a line that is not recorded. */
  row_id: string | null;
  /** Its place among the added lines; null for a recorded one. */
  at: number | null;
  cells: LineCells;
  state: 'new' | 'written' | 'replaced' | 'withdrawn' | 'conflict';
  /** Its cells differ from what is recorded. */
  isChanged: boolean;
  /** What cells said before, the latest last: amended, or recorded and changed since. */
  was: readonly { entry: Entry; text: string }[];
  seq: number | null;
}

export const isBlank = (cells: LineCells): boolean => ENTRIES.every((entry) => cells[entry].trim() === '');

/** Used in the reduction: neither blank, nor withdrawn, nor in dispute. */
export const counts = ({ cells, state }: BookLine): boolean =>
  !isBlank(cells) && state !== 'withdrawn' && state !== 'conflict';

const cellsOf = (row: TypedRow): LineCells =>
  Object.fromEntries(ENTRIES.map((entry) => [entry, row.cells[entry] ?? ''])) as Record<Entry, string>;

/** Labels of the loops that have a reading, in the order in which they begin. */
export function loopsIn(rows: readonly TypedRow[]): string[] {
  const labels = typedReadings('levelling', rows).all.flatMap(({ now, first, state }) =>
    state === 'astray' ? [] : [(now ?? first).cells['loop']?.trim() ?? ''],
  );
  return [...new Set(labels)].filter((label) => label !== '');
}

/** The readings of one loop, in order. */
export function readingsOfLoop(rows: readonly TypedRow[], loop: string): Reading<TypedRow>[] {
  return typedReadings('levelling', rows)
    .all.filter(
      ({ now, first, state }) => state !== 'astray' && (now ?? first).cells['loop']?.trim() === loop,
    )
    .sort((a, b) => compareReadings(placeOf(a), placeOf(b)));
}

const placeOf = (reading: Reading<TypedRow>): InOrder => {
  const { row_id, cells } = reading.now ?? reading.first;
  return { table: 'levelling', seq: seqOf(reading), time: cells['time'] ?? null, row_id };
};

const seqOf = ({ place }: Reading<TypedRow>): number => typedSeq(place.by) ?? 0;

/** All lines, and after them a blank one to go on with; `blank` is the identity it is to have. */
export function linesOf(readings: readonly Reading<TypedRow>[], draft: BookDraft, blank: string): BookLine[] {
  const known = new Set(readings.map(({ first }) => first.row_id));
  const lines: BookLine[] = [];
  const add = (isHere: (before: string) => boolean): void => {
    for (const [at, { row_id, before, cells }] of draft.added.entries()) {
      // What was recorded just before the page was lost is kept in both places.
      if (isHere(before) && !known.has(row_id)) lines.push(newLine(row_id, at, cells));
    }
  };
  for (const reading of readings) {
    const { row_id } = reading.first;
    add((before) => before === row_id);
    const written = cellsOf(reading.now ?? reading.first);
    const edits = draft.edits[row_id] ?? {};
    lines.push({
      key: row_id,
      row_id,
      at: null,
      cells: { ...written, ...edits },
      state: reading.state as BookLine['state'],
      isChanged: Object.keys(edits).length > 0,
      was: formerly(reading, { ...written, ...edits }),
      seq: seqOf(reading),
    });
  }
  add((before) => !known.has(before));
  const last = lines.at(-1);
  if (last === undefined || last.at === null || !isBlank(last.cells))
    lines.push(newLine(blank, draft.added.length, BLANK));
  return lines;
}

/** Each text that a cell had and has no more. */
function formerly(reading: Reading<TypedRow>, now: LineCells): BookLine['was'] {
  const before = wordings('levelling', reading).map(cellsOf);
  return ENTRIES.flatMap((entry) =>
    [...new Set(before.map((cells) => cells[entry].trim()))]
      .filter((text) => text !== '' && text !== now[entry].trim())
      .map((text) => ({ entry, text })),
  );
}

const newLine = (key: string, at: number, cells: LineCells): BookLine => ({
  key,
  row_id: null,
  at,
  cells,
  state: 'new',
  isChanged: !isBlank(cells),
  was: [],
  seq: null,
});

/** The draft with a cell typed; `written` is what is recorded of that line. */
export function typed(
  draft: BookDraft,
  { key, row_id, at }: Pick<BookLine, 'key' | 'row_id' | 'at'>,
  written: LineCells | null,
  cells: Partial<LineCells>,
): BookDraft {
  if (row_id === null) {
    const added = [...draft.added];
    const line = added[at!] ?? { row_id: key, before: '', cells: BLANK };
    added[at!] = { ...line, cells: { ...line.cells, ...cells } };
    return { ...draft, added };
  }
  const all = Object.entries({ ...draft.edits[row_id], ...cells }) as [Entry, string][];
  const changed = all.filter(([entry, text]) => text.trim() !== (written?.[entry] ?? '').trim());
  const { [row_id]: _, ...others } = draft.edits;
  return {
    ...draft,
    edits: changed.length === 0 ? others : { ...others, [row_id]: Object.fromEntries(changed) },
  };
}

/** A blank line in front of another. */
export function inserted(draft: BookDraft, line: Pick<BookLine, 'row_id' | 'at'>, row_id: string): BookDraft {
  const blank = (before: string): AddedLine => ({ row_id, before, cells: BLANK });
  if (line.row_id !== null) return { ...draft, added: [...draft.added, blank(line.row_id)] };
  const before = draft.added[line.at!]?.before ?? '';
  return { ...draft, added: draft.added.toSpliced(line.at!, 0, blank(before)) };
}

/** Without a line that was never recorded. */
export const deleted = (draft: BookDraft, at: number): BookDraft => ({
  ...draft,
  added: draft.added.toSpliced(at, 1),
});

/** What a press of the main button writes. */
export interface ToWrite {
  amended: { row_id: string; cells: Partial<LineCells> }[];
  /** With their place in the order, between the lines they are between. */
  added: (LineCells & { row_id: string; seq: string })[];
}

export function toWrite(lines: readonly BookLine[], draft: BookDraft): ToWrite {
  const kept = lines.filter(({ row_id, cells }) => row_id !== null || !isBlank(cells));
  const added = kept.flatMap((line, i): ToWrite['added'] => {
    if (line.row_id !== null) return [];
    const start = kept.findLastIndex((other, j) => j < i && other.seq !== null);
    const end = kept.findIndex((other, j) => j > i && other.seq !== null);
    const from = start === -1 ? 0 : kept[start]!.seq!;
    const step = end === -1 ? 1 : (kept[end]!.seq! - from) / (end - start);
    const first = end === -1 ? Math.floor(from) : from;
    return [
      {
        ...trimmed(line.cells),
        row_id: line.key,
        seq: String(Number((first + (i - start) * step).toFixed(6))),
      },
    ];
  });
  return {
    amended: Object.entries(draft.edits).map(([row_id, cells]) => ({ row_id, cells: trimmed(cells) })),
    added,
  };
}

const trimmed = <C extends Partial<LineCells>>(cells: C): C =>
  Object.fromEntries(Object.entries(cells).map(([entry, text]) => [entry, text.trim()])) as C;
