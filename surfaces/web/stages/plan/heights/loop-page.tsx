/** One loop of the level book: its facts, its grid, what its misclosure says, and the button that records it. */
import { columnName } from '@stillstand/campaign/tables';
import { useMemo, useState } from 'react';
import { useComputation } from '../../../compute/index.ts';
import { Button, counted, useUnsaved } from '../../../parts/index.ts';
import { useOpenRow } from '../../../shell/index.ts';
import { draftsOf, newRowId, type Store, timeWithOffset, useStore } from '../../../store/index.ts';
import { AddRow } from '../rows-table.tsx';
import { LevelFacts } from './level-facts.tsx';
import { LevelGrid } from './level-grid.tsx';
import { keptBook, type LoopFacts, placeOfLoop, valuesOf } from './level-kept.ts';
import {
  type BookDraft,
  type BookLine,
  counts,
  deleted,
  type Entry,
  inserted,
  isBlank,
  type LineCells,
  linesOf,
  loopsIn,
  NO_DRAFT,
  readingsOfLoop,
  toWrite,
  typed,
} from './level-lines.ts';
import type { Method } from './level-method.ts';
import { previewOf } from './level-preview.ts';
import { LevelSays } from './level-says.tsx';
import { aboutLoop, factsOf, newFacts, sameFacts } from './loop-facts.ts';
import { Misclosure } from './misclosure.tsx';

/** What one press may change at once, kept until the next key, so that it can be undone. */
interface Before {
  draft: BookDraft;
  what: string;
}

export function LoopPage({
  loop,
  method,
  onRecorded,
}: {
  loop: string;
  method: Method;
  onRecorded: (loop: string, words: string) => void;
}) {
  const store = useStore();
  const openRow = useOpenRow();
  const { campaign } = useComputation();
  const rows = store.rows('levelling');
  const drafts = useMemo(() => draftsOf(store.id), [store.id]);
  const place = placeOfLoop(loop);
  const [book, setBook] = useState(() => {
    const { draft, facts } = keptBook(drafts.read(place));
    return {
      draft,
      facts: loop === '' ? { ...newFacts(loopsIn(rows), rows.at(-1)?.cells), ...facts } : facts,
    };
  });
  const [before, setBefore] = useState<Before | null>(null);
  const [inHand, setInHand] = useState<{ key: string; entry: Entry } | null>(null);
  const [marking, setMarking] = useState<string | null>(null);
  const { draft } = book;
  const readings = useMemo(() => readingsOfLoop(rows, loop), [rows, loop]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: each new line has an identity of its own
  const blank = useMemo(newRowId, [draft.added.length]);
  const lines = useMemo(() => linesOf(readings, draft, blank), [readings, draft, blank]);
  const written = useMemo(
    () => new Map(linesOf(readings, NO_DRAFT, '').map((l) => [l.key, l.cells])),
    [readings],
  );

  const about = store.rows('level_loops').find((row) => row.cells['loop']?.trim() === loop);
  const facts =
    loop === '' ? (book.facts as LoopFacts) : factsOf(loop, about?.cells, readings[0]?.now?.cells);
  const allowed = Number(facts.allowed_mm_sqrt_km.replace(',', '.'));
  const preview = useMemo(
    () => previewOf(campaign, store.document(), loop, lines, allowed > 0 ? allowed : null),
    [campaign, store, loop, lines, allowed],
  );

  const keep = (next: typeof book): void => {
    setBook(next);
    const isEmpty =
      Object.keys(next.draft.edits).length === 0 && next.draft.added.every(({ cells }) => isBlank(cells));
    if (isEmpty && (loop !== '' || sameFacts(next.facts, newFacts(loopsIn(rows), rows.at(-1)?.cells))))
      drafts.forget(place);
    else
      drafts.keep(place, {
        values: valuesOf(next.draft, loop === '' ? next.facts : {}),
        units: {},
        at: null,
        time: timeWithOffset(new Date()),
        seen: readings.length,
      });
  };
  const change = (next: BookDraft, what: string | null = null): void => {
    setBefore(what === null ? null : { draft, what });
    keep({ ...book, draft: next });
  };
  const type = (line: BookLine, cells: Partial<LineCells>): void =>
    change(typed(draft, line, written.get(line.key) ?? null, cells));
  const paste = (from: BookLine, block: readonly Partial<LineCells>[]): void => {
    let next = draft;
    // Every line that is pasted over or made is found again in the draft as it then is.
    for (const [i, cells] of block.entries()) {
      const all = linesOf(readings, next, i === 0 ? blank : newRowId());
      const open = all.filter(({ state }) => state !== 'withdrawn' && state !== 'conflict');
      const line = open[open.findIndex(({ key }) => key === from.key) + i] ?? open.at(-1)!;
      next = typed(next, line, written.get(line.key) ?? null, cells);
    }
    change(next, 'paste');
  };
  useUnsaved((draft.added.length > 0 || Object.keys(draft.edits).length > 0) && !drafts.onDevice);

  const toRecord = toWrite(lines, draft);
  const label = loop === '' ? facts.loop.trim() : loop;
  const isTaken = loop === '' && loopsIn(rows).includes(label);
  const record = (): void => {
    const { by, device } = facts;
    const who = {
      ...(by.trim() === '' ? {} : { by: by.trim() }),
      ...(device.trim() === '' ? {} : { device: device.trim() }),
    };
    store.together(() => {
      for (const cells of toRecord.added) store.addReading('levelling', { ...cells, ...who, loop: label });
      if (loop === '') store.addRow('level_loops', aboutLoop(facts));
    });
    const failed = toRecord.amended.filter(
      ({ row_id, cells }) => store.amend('levelling', row_id, cells) === null,
    );
    if (failed.length > 0) {
      keep({
        ...book,
        draft: { added: [], edits: Object.fromEntries(failed.map((f) => [f.row_id, f.cells])) },
      });
      return;
    }
    // Not before the device has the readings themselves.
    const { time } = drafts.read(place) ?? {};
    whenSaved(store, () => {
      if (drafts.read(place)?.time === time) drafts.forget(place);
    });
    setBook({ draft: NO_DRAFT, facts: {} });
    setBefore(null);
    onRecorded(
      label,
      loop === ''
        ? `Loop ${label} recorded: ${counted(toRecord.added.length, 'line')}.`
        : `Recorded: ${recordedWords(toRecord)}. The original entries stay in the record.`,
    );
  };

  const line = lines.find(({ key }) => key === inHand?.key) ?? null;
  const ends = benchmarksAtEnds(lines, store.rows('benchmarks'));
  const unread = [...preview.says.values()]
    .flatMap((of) => [...of.values()])
    .filter((s) => s.severity === 'error');
  const isReady = toRecord.added.length + toRecord.amended.length > 0;
  return (
    <>
      <LevelFacts
        facts={facts}
        isNew={loop === ''}
        readOnly={store.readOnly}
        onType={(column, text) => keep({ ...book, facts: { ...facts, [column]: text } })}
        onCommit={(column, text) => {
          if (about === undefined) store.addRow('level_loops', { loop, [column]: text });
          else store.editRow('level_loops', about.row_id, { [column]: text });
        }}
      />
      <LevelGrid
        lines={lines}
        preview={preview}
        method={method}
        inHand={inHand?.key ?? null}
        stations={stationsKnown(store)}
        readOnly={store.readOnly}
        onType={type}
        onPaste={paste}
        onHand={setInHand}
        onOpen={(row_id) => openRow({ table: 'levelling', row_id })}
      />
      {store.readOnly ? null : (
        <div className="line-acts">
          <Button disabled={line === null} onClick={() => change(inserted(draft, line!, newRowId()))}>
            Insert line above
          </Button>
          <Button
            disabled={line === null || !/^(?:back|inter|fore)/.test(inHand?.entry ?? '')}
            onClick={() => type(line!, { [inHand!.entry]: upsideDown(line!.cells[inHand!.entry]) })}
          >
            Staff upside down
          </Button>
          {line?.row_id == null ? (
            <Button
              disabled={line?.at == null || draft.added[line.at] === undefined}
              onClick={() => change(deleted(draft, line!.at!), 'delete line')}
            >
              Delete line
            </Button>
          ) : (
            <Button mark="reading" onClick={() => openRow({ table: 'levelling', row_id: line.row_id! })}>
              Open record
            </Button>
          )}
          {isReady || before !== null ? (
            <Button
              onClick={() =>
                before === null ? change(NO_DRAFT, loop === '' ? 'clear' : 'discard') : change(before.draft)
              }
            >
              {before === null ? (loop === '' ? 'Clear lines' : 'Discard changes') : `Undo ${before.what}`}
            </Button>
          ) : null}
        </div>
      )}
      <Misclosure preview={preview} hasLines={lines.some(counts)} />
      <LevelSays preview={preview} lines={lines} />
      {store.readOnly ? null : (
        <div className="book-foot">
          {ends.map((point) => (
            <Button key={point} mark="plus" onClick={() => setMarking(point)}>
              Add bench mark {point}
            </Button>
          ))}
          <Button
            kind="main"
            mark={loop === '' ? 'tick' : 'amended'}
            disabled={!isReady || label === '' || isTaken}
            onClick={record}
          >
            {loop === '' ? 'Record level loop' : 'Record changes'}
          </Button>
          <span className="quiet" role="status">
            {label === ''
              ? 'The loop needs a label.'
              : isTaken
                ? `Loop ${label} exists: choose another label.`
                : unread.length > 0
                  ? `${counted(unread.length, 'cell')} cannot be read. ${
                      unread.length === 1 ? 'It is' : 'They are'
                    } recorded as typed; until corrected the loop gives no heights.`
                  : isReady
                    ? `${recordedWords(toRecord)} to record. Kept on this device until then.`
                    : 'Each line is a reading: later changes are amendments, and the original stays.'}
          </span>
        </div>
      )}
      {marking === null ? null : (
        <AddRow
          table="benchmarks"
          title="Add bench mark"
          prefill={{ benchmark: marking, datum: preview.datum === 'as stated' ? '' : preview.datum }}
          first={['benchmark', 'elevation_m', 'sigma_m', 'datum']}
          more={`From a satellite: ${columnName('benchmarks', 'ellipsoidal_height_m')}, and more`}
          onClose={() => setMarking(null)}
        />
      )}
    </>
  );
}

function whenSaved(store: Pick<Store, 'saved' | 'subscribe'>, act: () => void): void {
  if (store.saved === 'saved') {
    act();
    return;
  }
  const stop = store.subscribe(() => {
    if (store.saved !== 'saved') return;
    stop();
    act();
  });
}

const recordedWords = ({ added, amended }: ReturnType<typeof toWrite>): string =>
  [
    added.length === 0 ? '' : counted(added.length, 'line'),
    amended.length === 0 ? '' : counted(amended.length, 'amendment'),
  ]
    .filter(Boolean)
    .join(' and ');

/** First and last station, where they have no height yet: what the loop is held at. */
function benchmarksAtEnds(
  lines: readonly BookLine[],
  benchmarks: readonly { cells: Readonly<Record<string, string>> }[],
): string[] {
  const known = new Set(benchmarks.map(({ cells }) => cells['benchmark']?.trim()));
  const used = lines.filter(counts).map(({ cells }) => cells);
  const [first, last] = [used[0], used.at(-1)];
  // A line with a fore sight alone ends the loop, for now.
  const isEnd = last !== undefined && last.foresight_m.trim() !== '' && last.backsight_m.trim() === '';
  const ends = [first?.point.trim() ?? '', isEnd ? last.point.trim() : ''];
  return [...new Set(ends)].filter((point) => point !== '' && !known.has(point));
}

/** Bench marks, then the references of holes: what a station is most likely to be. */
function stationsKnown(store: ReturnType<typeof useStore>): string[] {
  const of = (table: 'benchmarks' | 'holes', column: string): string[] =>
    store.rows(table).map(({ cells }) => cells[column]?.trim() ?? '');
  return [...new Set([...of('benchmarks', 'benchmark'), ...of('holes', 'reference_point')])].filter(Boolean);
}

const upsideDown = (text: string): string =>
  /^\s*[-−–]/.test(text) ? text.replace(/^\s*[-−–]\s*/, '') : `-${text.trim()}`;
