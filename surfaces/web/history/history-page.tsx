/** Who changed what, when and on which device: acts by day and writer, each open to its rows. */
import { clockOf } from '@stillstand/campaign/tables';
import { useMemo, useState } from 'react';
import { Button, Mark } from '../parts/index.ts';
import { type Act, crew, dayWords, doneWords, useStore, writerWords } from '../store/index.ts';
import { ActRows, type OpenRow } from './act-rows.tsx';
import { Filters } from './filters.tsx';
import { choicesOf, EVERYTHING, type Line, linesOf, type Wanted, wantedActs, writerOf } from './lines.ts';
import { WindowedList } from './windowed-list.tsx';
import './history-page.css';

/** px, as history-page.css draws them. */
const HEIGHTS: Readonly<Record<Line['kind'], number>> = { day: 56, writer: 36, acts: 56 };

interface HistoryLinks {
  onOpenRow: OpenRow;
  /** Shows the campaign as it was after an act; null: before the first. */
  onShow: (act: Act | null) => void;
  onCompare: (act: Act | null) => void;
}

export function HistoryPage({ onOpenRow, onShow, onCompare }: HistoryLinks) {
  const store = useStore();
  const acts = store.acts();
  const arrived = store.arrived();
  const [wanted, setWanted] = useState<Wanted>(EVERYTHING);
  const [open, setOpen] = useState<string | null>(null);
  const choices = useMemo(() => choicesOf(acts, store.cellsOf), [acts, store]);
  const items = useMemo(() => {
    const own = writerOf({ ...crew() } as Act);
    const isOther = (act: Act): boolean => arrived.has(act.id) || writerOf(act) !== own;
    return linesOf(wantedActs(acts, wanted, store.cellsOf, isOther), store.cellsOf).map((line) => ({
      key: keyOf(line),
      height: HEIGHTS[line.kind],
      line,
    }));
  }, [acts, arrived, wanted, store]);
  const conflicts = store.conflicts();
  const inConflict = useMemo(
    () => new Set(conflicts.flatMap(({ between }) => between.map(({ act }) => act.id))),
    [conflicts],
  );
  const first = (
    <p className="acts">
      <Button onClick={() => onShow(null)}>Show campaign before the first change</Button>
      <Button onClick={() => onCompare(null)}>Compare first state with now</Button>
    </p>
  );
  if (acts.length === 0)
    return <p>No changes are recorded yet. Each entry, edit and deletion is listed here from now on.</p>;
  return (
    <div className="history">
      <Filters choices={choices} wanted={wanted} onWant={setWanted} />
      {items.length === 0 ? <p role="status">No change matches these filters.</p> : null}
      <WindowedList
        label="Changes, newest first"
        items={items}
        open={open}
        draw={({ key, line }) => {
          if (line.kind === 'day') return <h2>{dayWords(line.time) || 'Date not known'}</h2>;
          if (line.kind === 'writer') return <h3>{writerWords(line.act)}</h3>;
          const isOpen = key === open;
          return (
            <>
              <button
                type="button"
                className="act-line"
                aria-expanded={isOpen}
                onClick={() => setOpen(isOpen ? null : key)}
              >
                <span className="clock">{clockOf(line.acts[0]!.time) || '–'}</span>
                <span className="done">{lineWords(line, store.cellsOf)}</span>
                {line.acts.some(({ id }) => inConflict.has(id)) ? (
                  <Mark name="close" size={20} label="Open conflict" />
                ) : null}
                <span className="turn">
                  <Mark name="on" size={14} />
                </span>
              </button>
              {isOpen ? (
                <div className="act-open">
                  <ActRows acts={line.acts} onOpen={onOpenRow} />
                  <p className="acts">
                    <Button onClick={() => onShow(line.acts[0]!)}>Show campaign as it was here</Button>
                    <Button onClick={() => onCompare(line.acts[0]!)}>Compare with now</Button>
                  </p>
                </div>
              ) : null}
            </>
          );
        }}
      />
      {first}
    </div>
  );
}

const keyOf = (line: Line): string => {
  if (line.kind === 'day') return `day ${line.date}`;
  // Of a run the oldest: it stays while readings are added.
  return line.kind === 'writer' ? `writer ${line.act.id}` : line.acts.at(-1)!.id;
};

/** "edit unit 4 of T1 (top, base)", "T2: 46 readings, 09:12–11:40". */
function lineWords(
  { acts, hole }: Extract<Line, { kind: 'acts' }>,
  cellsOf: Parameters<typeof doneWords>[1],
): string {
  if (acts.length === 1) return doneWords(acts[0]!, cellsOf);
  const readings = acts.reduce((sum, { changes }) => sum + changes.length, 0);
  const [from, to] = [acts.at(-1)!, acts[0]!].map(({ time }) => clockOf(time));
  return `${hole}: ${readings} readings, ${from === to ? from : `${from}–${to}`}`;
}
