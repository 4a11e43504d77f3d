/** What is typed of a day’s tide table and not recorded: kept on the device with every key, recorded with one press. */
import { useMemo, useState } from 'react';
import type { TableCells } from '../../../../days/index.ts';
import { useUnsaved } from '../../../../parts/index.ts';
import {
  type DraftPlace,
  draftsOf,
  forgetWhenSaved,
  type KeptDraft,
  newRowId,
  type Store,
  timeWithOffset,
} from '../../../../store/index.ts';
import {
  BLANK,
  isBlank,
  linesOf,
  NO_DRAFT,
  type Recorded,
  recordedWaters,
  type TableDraft,
  type TableFacts,
  type ToWrite,
  typedIn,
  type WaterLine,
} from './table-lines.ts';

export interface TableBook {
  recorded: readonly Recorded[];
  draft: TableDraft;
  lines: readonly WaterLine[];
  hasTyped: boolean;
  type(line: WaterLine, cells: Partial<TableCells>): void;
  paste(from: WaterLine, block: readonly TableCells[]): void;
  typeFact(facts: Partial<TableFacts>): void;
  discard(): void;
  /** Writes it; what could not be read stays. False where an amendment was refused, which the store has said. */
  record(write: ToWrite, makeGauge: () => void): boolean;
}

export function useTableDraft(store: Store, date: string, offset_min: number): TableBook {
  const rows = store.rows('gauge_readings');
  const drafts = useMemo(() => draftsOf(store.id), [store.id]);
  const place: DraftPlace = { form: 'tide-table', hole: date, amends: '' };
  const [draft, setDraft] = useState(() => kept(drafts.read(place)));
  const recorded = useMemo(() => recordedWaters(rows, date, offset_min), [rows, date, offset_min]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: each new line has an identity of its own
  const blank = useMemo(newRowId, [draft.added.length, recorded.length]);
  const lines = useMemo(() => linesOf(recorded, draft, blank), [recorded, draft, blank]);
  const hasTyped = draft.added.some(({ cells }) => !isBlank(cells)) || Object.keys(draft.edits).length > 0;
  useUnsaved(hasTyped && !drafts.onDevice);

  const change = (next: TableDraft): void => {
    setDraft(next);
    const isEmpty =
      Object.keys(next.facts).length === 0 &&
      Object.keys(next.edits).length === 0 &&
      next.added.every(({ cells }) => isBlank(cells));
    if (isEmpty) drafts.forget(place);
    else
      drafts.keep(place, {
        values: {
          facts: JSON.stringify(next.facts),
          edits: JSON.stringify(next.edits),
          added: JSON.stringify(next.added),
        },
        units: {},
        at: null,
        time: timeWithOffset(new Date()),
        seen: recorded.length,
      });
  };
  return {
    recorded,
    draft,
    lines,
    hasTyped,
    type: (line, cells) => change(typedIn(draft, line, cells)),
    paste: (from, block) => {
      let next = draft;
      const start = lines.findIndex(({ key }) => key === from.key);
      block.forEach((cells, i) => {
        const line = lines[start + i];
        const isOwn = line !== undefined && line.key !== blank;
        next = typedIn(next, isOwn ? line : { key: newRowId(), recorded: null, cells: BLANK }, cells);
      });
      change(next);
    },
    typeFact: (facts) => change({ ...draft, facts: { ...draft.facts, ...facts } }),
    discard: () => change(NO_DRAFT),
    record: ({ added, amended, withdrawn }, makeGauge) => {
      store.together(() => {
        makeGauge();
        for (const { key, cells } of added)
          store.addReading('gauge_readings', { ...cells, row_id: key, device: 'official table' });
      });
      const refused = new Set(
        [
          ...amended.filter(({ row_id, cells }) => store.amend('gauge_readings', row_id, cells) === null),
          ...withdrawn
            .filter((row_id) => store.withdraw('gauge_readings', row_id) === null)
            .map((row_id) => ({ row_id })),
        ].map(({ row_id }) => row_id),
      );
      const written = new Set([
        ...added.map(({ key }) => key),
        ...[...amended.map(({ row_id }) => row_id), ...withdrawn].filter((row_id) => !refused.has(row_id)),
      ]);
      const left: TableDraft = {
        facts: draft.facts,
        edits: Object.fromEntries(Object.entries(draft.edits).filter(([row_id]) => !written.has(row_id))),
        added: draft.added.filter(({ row_id, cells }) => !written.has(row_id) && !isBlank(cells)),
      };
      const isDone = left.added.length === 0 && Object.keys(left.edits).length === 0;
      if (!isDone) change(left);
      else {
        setDraft(NO_DRAFT);
        forgetWhenSaved(store, drafts, place);
      }
      return refused.size === 0;
    },
  };
}

/** As it was kept; what cannot be read of it is as if it had not been typed. */
function kept(of: KeptDraft | null): TableDraft {
  try {
    const { facts = '{}', edits = '{}', added = '[]' } = of?.values ?? {};
    return {
      facts: JSON.parse(facts) as TableDraft['facts'],
      edits: JSON.parse(edits) as TableDraft['edits'],
      added: JSON.parse(added) as TableDraft['added'],
    };
  } catch {
    return NO_DRAFT;
  }
}
