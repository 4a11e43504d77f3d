/** One cell of the level book: typed by keyboard or thumb, left by Enter, Tab and the arrows, filled by a pasted block. */
import { useEffect, useRef } from 'react';
import { columnHelp } from '../../../parts/index.ts';
import type { Entry, LineCells } from './level-lines.ts';
import { pastedLines } from './level-paste.ts';
import type { CellSays } from './level-preview.ts';

/** Heads of the columns, as in the paper book. */
export const NAMES: Readonly<Record<Entry, string>> = {
  point: 'station',
  backsight_m: 'backsight',
  intermediate_m: 'intersight',
  foresight_m: 'foresight',
  distance_m: 'distance',
  note: 'note',
};

export function LevelCell({
  entry,
  name,
  value,
  says,
  saysId,
  list,
  readOnly,
  onType,
  onPaste,
  onHand,
  onMove,
}: {
  entry: Entry;
  name: string;
  value: string;
  says: CellSays | null;
  saysId: string;
  list: string;
  readOnly: boolean;
  onType: (text: string) => void;
  onPaste: (block: readonly Partial<LineCells>[]) => void;
  onHand: () => void;
  onMove: (from: HTMLInputElement, rows: number, cells: number) => boolean;
}) {
  const isNumber = entry.endsWith('_m');
  const own = useRef<HTMLInputElement>(null);
  const whole = useRef(false);
  // What a cell was when it came into hand: Escape puts that back.
  const was = useRef(value);
  useEffect(() => {
    if (document.activeElement !== own.current) was.current = value;
  }, [value]);
  const onKey = (event: React.KeyboardEvent<HTMLInputElement>): void => {
    const { currentTarget: cell, key } = event;
    const steps = STEPS[key];
    if (event.altKey || event.ctrlKey || event.metaKey) return;
    if (key === 'Escape' && value !== was.current) {
      event.stopPropagation();
      onType(was.current);
      return;
    }
    if (steps === undefined || (key === 'Enter' && event.shiftKey)) return;
    const [rows, cells, edge] = steps;
    // Within a word the arrows move the caret.
    const isAtEdge =
      whole.current ||
      (cell.selectionStart === cell.selectionEnd &&
        cell.selectionStart === (edge === 'start' ? 0 : cell.value.length));
    if (edge !== null && !isAtEdge) return;
    if (onMove(cell, rows, cells)) event.preventDefault();
    else if (key === 'Enter') event.preventDefault();
  };
  return (
    <input
      ref={own}
      aria-label={name}
      title={`${NAMES[entry]}: ${columnHelp('levelling', entry).about}`}
      className={CLASSES[entry]}
      value={value}
      readOnly={readOnly}
      placeholder={NAMES[entry]}
      inputMode={isNumber ? 'decimal' : 'text'}
      autoComplete="off"
      autoCapitalize="off"
      spellCheck={false}
      {...(entry === 'point' ? { list } : {})}
      {...(says === null ? {} : { 'aria-describedby': saysId })}
      {...(says?.severity === 'error' ? { 'aria-invalid': true } : {})}
      onFocus={(event) => {
        was.current = value;
        whole.current = event.currentTarget.value !== '';
        event.currentTarget.select();
        onHand();
      }}
      onPointerDown={() => {
        whole.current = false;
      }}
      onChange={(event) => {
        whole.current = false;
        onType(event.target.value);
      }}
      onPaste={(event) => {
        const block = readOnly ? null : pastedLines(event.clipboardData.getData('text/plain'), entry);
        if (block === null) return;
        event.preventDefault();
        onPaste(block);
      }}
      onKeyDown={onKey}
    />
  );
}

const STEPS: Readonly<Record<string, readonly [rows: number, cells: number, edge: 'start' | 'end' | null]>> =
  {
    Enter: [0, 1, null],
    ArrowDown: [1, 0, null],
    ArrowUp: [-1, 0, null],
    ArrowLeft: [0, -1, 'start'],
    ArrowRight: [0, 1, 'end'],
  };

const CLASSES: Readonly<Partial<Record<Entry, string>>> = {
  backsight_m: 'number',
  intermediate_m: 'number',
  foresight_m: 'number',
  distance_m: 'number seldom',
  note: 'seldom',
};
