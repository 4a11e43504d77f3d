/** The book beside the drawing: every reading in its order, struck and amended in place, each a press away from mending. */
import { massWords } from '@stillstand/science/rig';
import { useEffect, useRef } from 'react';
import { Mark, UnsavedMark } from '../../../parts/index.ts';
import type { DrillStore } from '../tape/decimal-points.ts';
import type { BookCell, BookLine } from './book.ts';
import './book.css';

interface BookProps {
  lines: readonly BookLine[];
  /** The line being mended. */
  chosen: string | null;
  /** The line, and the column of the value that was pressed, where one was. */
  onChoose: (line: BookLine, column?: string) => void;
  /** Which rows the device does not have yet, and whether it refuses them. */
  store: Pick<DrillStore, 'saved' | 'unsaved'>;
  /** What stands above the lines. */
  title: string;
  note?: string;
}

export function Book({ lines, chosen, store, onChoose, title, note }: BookProps) {
  const list = useRef<HTMLOListElement>(null);
  const count = lines.length;
  // the newest line is the one wanted
  useEffect(() => {
    if (count > 0) list.current?.scrollTo({ top: list.current.scrollHeight });
  }, [count]);
  return (
    <section className="book" aria-label="the book">
      <h2>
        {title} {note === undefined ? null : <span>{note}</span>}
      </h2>
      {lines.length === 0 ? (
        <p className="empty">No readings yet. Each reading appears here and can be amended here.</p>
      ) : (
        <ol ref={list}>
          {lines.map((line) => (
            <li key={line.root_id}>
              <button
                type="button"
                aria-pressed={chosen === line.root_id}
                data-state={line.state}
                onClick={(event) => onChoose(line, columnAt(event.target))}
              >
                <span className="clock">{line.clock}</span>
                <span className="what">
                  {line.name}
                  <States line={line} />
                  {line.row_ids.some((id) => store.unsaved.has(id)) ? (
                    <UnsavedMark saved={store.saved} />
                  ) : null}
                </span>
                <span className="cells">
                  {line.cells.map((cell) => (
                    <Cell key={cell.column} cell={cell} />
                  ))}
                  {line.note === '' || line.cells.length > 3 ? null : <q>{line.note}</q>}
                </span>
              </button>
            </li>
          ))}
        </ol>
      )}
    </section>
  );
}

const columnAt = (target: EventTarget): string | undefined =>
  target instanceof Element ? target.closest<HTMLElement>('[data-column]')?.dataset['column'] : undefined;

function States({ line }: { line: BookLine }) {
  const worst = worstOf(line);
  return (
    <>
      {line.state === 'amended' ? <Mark name="amended" size={16} label="amended" /> : null}
      {line.state === 'withdrawn' ? <small> withdrawn</small> : null}
      {line.state === 'moved' ? <small> moved to another hole</small> : null}
      {line.state === 'astray' ? <small> amends no reading, not used</small> : null}
      {line.state === 'conflict' ? (
        <>
          <Mark name="close" size={16} />
          <small> amendments differ</small>
        </>
      ) : null}
      {worst === null ? null : (
        <span className={worst.severity === 'danger' ? 'danger' : 'caution'}>
          <Mark
            name={worst.severity === 'danger' ? 'stop' : 'close'}
            size={17}
            label={`${worst.severity}: ${worst.found}`}
          />
        </span>
      )}
    </>
  );
}

/** The gravest thing wrong with a line; notes are not shown in a dense row. */
export function worstOf(line: BookLine): BookLine['findings'][number] | null {
  return (
    line.findings.find((f) => f.severity === 'danger') ??
    line.findings.find((f) => f.severity === 'error') ??
    line.findings.find((f) => f.severity === 'warning') ??
    null
  );
}

function Cell({ cell }: { cell: BookCell }) {
  if (cell.column === 'tight') {
    return <span data-column="tight">{cell.now === 'true' ? 'tight' : 'not tight'}</span>;
  }
  const load = cell.column === 'line_load_kn' ? Number(cell.now) : Number.NaN;
  return (
    <span data-column={cell.column}>
      <small>{cell.label}</small> {cell.was.map((w) => (w === '' ? null : <s key={w}>{w}</s>))}
      {cell.was.length > 0 ? ' ' : ''}
      {cell.now.replace(/^-(?=\d)/, '−').replaceAll('_', ' ')}
      {load > 0 ? ` (${massWords(load)})` : ''}
    </span>
  );
}
