/** What is typed in one loop and not recorded: kept on the device with every key, changed, undone, recorded. */
import { useMemo, useState } from 'react';
import { useUnsaved } from '../../../parts/index.ts';
import { draftsOf, forgetWhenSaved, newRowId, type Store, timeWithOffset } from '../../../store/index.ts';
import { keptBook, type LoopFacts, placeOfLoop, valuesOf } from './level-kept.ts';
import {
  type BookDraft,
  type BookLine,
  isBlank,
  type LineCells,
  linesOf,
  loopsIn,
  NO_DRAFT,
  readingsOfLoop,
  toWrite,
  typed,
} from './level-lines.ts';
import { factsOf, newFacts, sameFacts, writtenFacts } from './loop-facts.ts';

export interface LoopDraft {
  draft: BookDraft;
  facts: LoopFacts;
  lines: readonly BookLine[];
  /** What one press changed at once, until the next key: it can be undone. */
  undoes: string | null;
  undo(): void;
  /** `what`: a name for what undo takes back; none for a key. */
  change(next: BookDraft, what?: string): void;
  type(line: BookLine, cells: Partial<LineCells>): void;
  paste(from: BookLine, block: readonly Partial<LineCells>[]): void;
  typeFact(column: keyof LoopFacts, text: string): void;
  /** Writes all of it under the label; false where an amendment was refused, which the store has said. */
  record(label: string): boolean;
}

/** `loop`: its label, empty for a new one. */
export function useLoopDraft(store: Store, loop: string): LoopDraft {
  const rows = store.rows('levelling');
  const drafts = useMemo(() => draftsOf(store.id), [store.id]);
  const place = placeOfLoop(loop);
  const begun = (): LoopFacts => newFacts(loopsIn(rows), rows.at(-1)?.cells);
  const [book, setBook] = useState(() => {
    const { draft, facts } = keptBook(drafts.read(place));
    return { draft, facts: { ...begun(), ...facts } };
  });
  const [before, setBefore] = useState<{ draft: BookDraft; what: string } | null>(null);
  const { draft } = book;
  const readings = useMemo(() => readingsOfLoop(rows, loop), [rows, loop]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: each new line has an identity of its own
  const blank = useMemo(newRowId, [draft.added.length]);
  const lines = useMemo(() => linesOf(readings, draft, blank), [readings, draft, blank]);
  const written = useMemo(
    () => new Map(linesOf(readings, NO_DRAFT, '').map(({ key, cells }) => [key, cells])),
    [readings],
  );
  const about = store.rows('level_loops').find(({ cells }) => cells['loop']?.trim() === loop);
  const facts = loop === '' ? book.facts : factsOf(loop, about?.cells, readings[0]?.now?.cells);
  useUnsaved((draft.added.length > 0 || Object.keys(draft.edits).length > 0) && !drafts.onDevice);

  const keep = (next: typeof book): void => {
    setBook(next);
    const { edits, added } = next.draft;
    const isEmpty = Object.keys(edits).length === 0 && added.every(({ cells }) => isBlank(cells));
    if (isEmpty && (loop !== '' || sameFacts(next.facts, begun()))) {
      drafts.forget(place);
      return;
    }
    drafts.keep(place, {
      values: valuesOf(next.draft, loop === '' ? next.facts : {}),
      units: {},
      at: null,
      time: timeWithOffset(new Date()),
      seen: readings.length,
    });
  };
  const change: LoopDraft['change'] = (next, what) => {
    setBefore(what === undefined ? null : { draft, what });
    keep({ ...book, draft: next });
  };
  const typedIn = (of: BookDraft, line: BookLine, cells: Partial<LineCells>): BookDraft =>
    typed(of, line, written.get(line.key) ?? null, cells);

  return {
    draft,
    facts,
    lines,
    undoes: before?.what ?? null,
    undo: () => {
      if (before !== null) change(before.draft);
    },
    change,
    type: (line, cells) => change(typedIn(draft, line, cells)),
    paste: (from, block) => {
      let next = draft;
      // Every line that is pasted over or made is found again in the draft as it then is.
      for (const [i, cells] of block.entries()) {
        const all = linesOf(readings, next, i === 0 ? blank : newRowId());
        const open = all.filter(({ state }) => state !== 'withdrawn' && state !== 'conflict');
        const line = open[open.findIndex(({ key }) => key === from.key) + i] ?? open.at(-1)!;
        next = typedIn(next, line, cells);
      }
      change(next, 'paste');
    },
    typeFact: (column, text) => {
      if (loop === '') keep({ ...book, facts: { ...book.facts, [column]: text } });
      else writeFacts(store, loop, { [column]: text });
    },
    record: (label) => {
      const { added, amended } = toWrite(lines, draft);
      // A blank cell is filled in by the store: who writes, with what. What is added to a recorded loop may be another's.
      const who = loop === '' ? { by: facts.by.trim(), device: facts.device.trim() } : {};
      store.together(() => {
        for (const cells of added) store.addReading('levelling', { ...cells, ...who, loop: label });
        if (loop === '') writeFacts(store, label, writtenFacts(facts));
      });
      const refused = amended.filter(({ row_id, cells }) => store.amend('levelling', row_id, cells) === null);
      if (refused.length > 0) {
        const edits = Object.fromEntries(refused.map(({ row_id, cells }) => [row_id, cells]));
        keep({ ...book, draft: { added: [], edits } });
        setBefore(null);
        return false;
      }
      forgetWhenSaved(store, drafts, place);
      setBook({ draft: NO_DRAFT, facts: begun() });
      setBefore(null);
      return true;
    },
  };
}

/** Into the loop's row of `level_loops`, which may not be there yet. */
function writeFacts(store: Store, loop: string, facts: Readonly<Record<string, string>>): void {
  const row = store.rows('level_loops').find(({ cells }) => cells['loop']?.trim() === loop);
  if (row === undefined) store.addRow('level_loops', { ...facts, loop });
  else store.editRow('level_loops', row.row_id, facts);
}
