/** One loop of the level book: its facts, its grid, what its misclosure says, and the button that records it. */
import { useMemo, useState } from 'react';
import { useComputation } from '../../../compute/index.ts';
import { counted } from '../../../parts/index.ts';
import { useOpenRow } from '../../../shell/index.ts';
import { type Store, useStore } from '../../../store/index.ts';
import { BookFoot, recordedWords } from './book-foot.tsx';
import { LevelFacts } from './level-facts.tsx';
import { LevelGrid } from './level-grid.tsx';
import { type BookLine, counts, type Entry, loopsIn, toWrite } from './level-lines.ts';
import type { Method } from './level-method.ts';
import { previewOf } from './level-preview.ts';
import { LevelSays } from './level-says.tsx';
import { LineActs } from './line-acts.tsx';
import { Misclosure } from './misclosure.tsx';
import { useLoopDraft } from './use-loop-draft.ts';

export function LoopPage({
  loop,
  method,
  onRecorded,
}: {
  /** Its label; empty for a new one. */
  loop: string;
  method: Method;
  onRecorded: (loop: string, words: string) => void;
}) {
  const store = useStore();
  const openRow = useOpenRow();
  const { campaign } = useComputation();
  const book = useLoopDraft(store, loop);
  const { lines, facts } = book;
  const [inHand, setInHand] = useState<{ key: string; entry: Entry } | null>(null);
  const allowed = Number(facts.allowed_mm_sqrt_km.replace(',', '.'));
  const preview = useMemo(
    () => previewOf(campaign, store.document(), loop, lines, allowed > 0 ? allowed : null),
    [campaign, store, loop, lines, allowed],
  );

  const isNew = loop === '';
  const toRecord = toWrite(lines, book.draft);
  const label = isNew ? facts.loop.trim() : loop;
  const open = (row_id: string): void => openRow({ table: 'levelling', row_id });
  const record = (): void => {
    if (!book.record(label)) return;
    onRecorded(
      label,
      isNew
        ? `Loop ${label} recorded: ${counted(toRecord.added.length, 'line')}.`
        : `Recorded: ${recordedWords(toRecord)}. The original entries stay in the record.`,
    );
  };
  const unread = [...preview.says.values()].flatMap((of) =>
    [...of.values()].filter(({ severity }) => severity === 'error'),
  );
  return (
    <>
      <LevelFacts facts={facts} isNew={isNew} readOnly={store.readOnly} onFact={book.typeFact} />
      <LevelGrid
        lines={lines}
        preview={preview}
        method={method}
        inHand={inHand?.key ?? null}
        stations={stationsKnown(store)}
        readOnly={store.readOnly}
        onType={book.type}
        onPaste={book.paste}
        onHand={setInHand}
        onOpen={open}
      />
      {store.readOnly ? null : (
        <LineActs
          book={book}
          line={lines.find(({ key }) => key === inHand?.key) ?? null}
          entry={inHand?.entry ?? null}
          isNew={isNew}
          hasTyped={toRecord.added.length + toRecord.amended.length > 0}
          onOpen={open}
        />
      )}
      <Misclosure preview={preview} hasLines={lines.some(counts)} />
      <LevelSays preview={preview} lines={lines} />
      {store.readOnly ? null : (
        <BookFoot
          isNew={isNew}
          label={label}
          isTaken={isNew && loopsIn(store.rows('levelling')).includes(label)}
          toRecord={toRecord}
          unread={unread.length}
          wanted={endsWithoutMark(store, lines)}
          datum={preview.datum}
          onRecord={record}
        />
      )}
    </>
  );
}

/** First and last station, where they are no bench marks yet: what the loop is held at. */
function endsWithoutMark(store: Store, lines: readonly BookLine[]): string[] {
  const known = new Set(store.rows('benchmarks').map(({ cells }) => cells['benchmark']?.trim()));
  const used = lines.filter(counts).map(({ cells }) => cells);
  const [first, last] = [used[0], used.at(-1)];
  // A line with a fore sight alone ends the loop, for now.
  const isEnd = last !== undefined && last.foresight_m.trim() !== '' && last.backsight_m.trim() === '';
  const ends = [first?.point.trim() ?? '', isEnd ? last.point.trim() : ''];
  return [...new Set(ends)].filter((point) => point !== '' && !known.has(point));
}

/** Bench marks, then the references of holes: what a station is most likely to be. */
function stationsKnown(store: Store): string[] {
  const of = (table: 'benchmarks' | 'holes', column: string): string[] =>
    store.rows(table).map(({ cells }) => cells[column]?.trim() ?? '');
  return [...new Set([...of('benchmarks', 'benchmark'), ...of('holes', 'reference_point')])].filter(Boolean);
}
