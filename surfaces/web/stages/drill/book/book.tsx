/** The book beside the drawing: every reading in its order, struck and amended in place, each a press away from mending. */

import { stopWords } from '@stillstand/campaign/holes';
import { clockOf, isChoice } from '@stillstand/campaign/tables';
import { massWords } from '@stillstand/science/rig';
import { useEffect, useRef } from 'react';
import { t, translated } from '../../../language/index.ts';
import { Mark, UnsavedMark } from '../../../parts/index.ts';
import { plainWord } from '../forms/field.ts';
import type { DrillStore } from '../tape/decimal-points.ts';
import { m2 } from '../tape/lengths.ts';
import type { BookCell, BookLine, BookTable } from './book.ts';
import type { LogEntry } from './log.ts';
import { type Moves, WhichFirst } from './which-first.tsx';
import './book.css';

interface BookProps {
  log: readonly LogEntry[];
  /** The line being mended. */
  chosen: string | null;
  /** The line, and the column of the value that was pressed, where one was. */
  onChoose: (line: BookLine, column?: string) => void;
  /** Which rows the device does not have yet, and whether it refuses them. */
  store: Pick<DrillStore, 'saved' | 'unsaved'>;
  /** Settles the order of readings of one place; undefined where nothing may be written. */
  onMove: ((moves: Moves) => void) | undefined;
  /** What stands above the lines. */
  title: string;
  note?: string;
}

export function Book({ log, chosen, store, onChoose, onMove, title, note }: BookProps) {
  const list = useRef<HTMLOListElement>(null);
  const count = log.length;
  // the newest line is the one wanted
  useEffect(() => {
    if (count > 0) list.current?.scrollTo({ top: list.current.scrollHeight });
  }, [count]);
  return (
    <section className="book" aria-label={t`field log`}>
      <h2>
        {title} {note === undefined ? null : <span>{note}</span>}
      </h2>
      {log.length === 0 ? (
        <p className="empty">{t`No readings yet. Each reading appears here and can be amended here.`}</p>
      ) : (
        <ol ref={list}>
          {log.map((entry) => (
            <Entry key={keyOf(entry)} {...{ entry, chosen, store, onChoose, onMove }} />
          ))}
        </ol>
      )}
    </section>
  );
}

function keyOf(entry: LogEntry): string {
  switch (entry.kind) {
    case 'line':
      return entry.line.root_id;
    case 'day':
      return `${entry.kind} ${entry.date}`;
    case 'stop':
      return `${entry.kind} ${entry.stop.from}`;
    case 'clash':
      return `${entry.kind} ${entry.clash.readings[0]!.row_id}`;
    case 'end':
      return 'end';
  }
}

function Entry({
  entry,
  chosen,
  store,
  onChoose,
  onMove,
}: { entry: LogEntry } & Pick<BookProps, 'chosen' | 'store' | 'onChoose' | 'onMove'>) {
  switch (entry.kind) {
    case 'day':
      return <li className="log-day">{entry.date}</li>;
    case 'stop':
      return <li className="log-stop">{translated(stopWords(entry.stop))}</li>;
    case 'clash':
      return (
        <li>
          <WhichFirst clash={entry.clash} lines={entry.lines} onMove={onMove} />
        </li>
      );
    case 'end':
      return (
        <li className="log-end">
          <span className="clock">{entry.clock}</span> {entry.words}
        </li>
      );
    case 'line':
      return <Line {...entry} isChosen={chosen === entry.line.root_id} {...{ store, onChoose }} />;
  }
}

function Line({
  line,
  shoe_m,
  isChosen,
  store,
  onChoose,
}: Extract<LogEntry, { kind: 'line' }> & { isChosen: boolean } & Pick<BookProps, 'store' | 'onChoose'>) {
  return (
    <li>
      <button
        type="button"
        aria-pressed={isChosen}
        data-state={line.state}
        onClick={(event) => onChoose(line, columnAt(event.target))}
      >
        <span className="clock">{line.clock}</span>
        <span className="what">
          {line.name}
          <States line={line} />
          {line.row_ids.some((id) => store.unsaved.has(id)) ? <UnsavedMark saved={store.saved} /> : null}
          <span className="by">
            {shoe_m === null ? '' : t`shoe ${m2(shoe_m)} m`}
            {shoe_m === null || line.by === '' ? '' : ', '}
            {line.by}
          </span>
        </span>
        <span className="cells">
          {line.cells.map((cell) => (
            <Cell key={cell.column} table={line.table} cell={cell} />
          ))}
          {line.note === '' || line.cells.length > 3 ? null : <q>{line.note}</q>}
        </span>
      </button>
    </li>
  );
}

const columnAt = (target: EventTarget): string | undefined =>
  target instanceof Element ? target.closest<HTMLElement>('[data-column]')?.dataset['column'] : undefined;

function States({ line }: { line: BookLine }) {
  const worst = worstOf(line);
  return (
    <>
      {line.state === 'amended' ? <Mark name="amended" size={16} label={t`amended`} /> : null}
      {line.state === 'withdrawn' ? <small> {t`withdrawn`}</small> : null}
      {line.state === 'moved' ? <small> {t`moved to another hole`}</small> : null}
      {line.state === 'astray' ? <small> {t`amends no reading, not used`}</small> : null}
      {line.state === 'conflict' ? (
        <>
          <Mark name="close" size={16} />
          <small> {t`amendments differ`}</small>
        </>
      ) : null}
      {worst === null ? null : (
        <span className={worst.severity === 'danger' ? 'danger' : 'caution'}>
          <Mark
            name={worst.severity === 'danger' ? 'stop' : 'close'}
            size={17}
            label={translated(worst.found)}
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

function Cell({ table, cell }: { table: BookTable; cell: BookCell }) {
  if (cell.column === 'tight') {
    return <span data-column="tight">{cell.now === 'true' ? t`tight` : t`not tight`}</span>;
  }
  if (cell.column === 'confirmed') {
    return <span data-column="confirmed">{cell.now === 'yes' ? t`confirmed` : t`not confirmed`}</span>;
  }
  const load = cell.column === 'line_load_kn' ? Number(cell.now) : Number.NaN;
  return (
    <span data-column={cell.column}>
      <small>{cell.label}</small> {cell.was.map((w) => (w === '' ? null : <s key={w}>{w}</s>))}
      {cell.was.length > 0 ? ' ' : ''}
      {cellWords(table, cell)}
      {load > 0 ? ` (${massWords(load)})` : ''}
    </span>
  );
}

/** A word of a list in the language of the crew; anything else as somebody typed it. */
function cellWords(table: BookTable, { column, now }: BookCell): string {
  if (column === 'due') return clockOf(now);
  return isChoice(table, column) ? plainWord(now) : now.replace(/^-(?=\d)/, '−').replaceAll('_', ' ');
}
