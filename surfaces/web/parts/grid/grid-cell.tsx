/** One cell of a grid: typed by keyboard or thumb, left by Enter, Tab and the arrows, filled by a pasted block. */
import { useEffect, useRef } from 'react';
import './grid.css';

/** Puts the caret so many lines and cells further in its table, whose lines are alike; false where there is none. */
function move(from: HTMLInputElement, rows: number, cells: number): boolean {
  const inputs = [...(from.closest('tbody')?.querySelectorAll('input') ?? [])];
  const perLine = from.closest('tr')?.querySelectorAll('input').length ?? 0;
  const to = inputs[inputs.indexOf(from) + rows * perLine + cells];
  to?.focus();
  to?.select();
  return to !== undefined;
}

export function GridCell({
  name,
  help,
  head,
  value,
  isNumber = false,
  className,
  list,
  saysId,
  isWrong = false,
  readOnly,
  onType,
  onPaste,
  onHand,
  onLeave,
}: {
  /** For those who hear it: "height of line 3". */
  name: string;
  help: string;
  /** Head of its column, shown in the empty cell where the heads are not. */
  head: string;
  value: string;
  isNumber?: boolean;
  className?: string | undefined;
  /** Identity of a list of values to choose from. */
  list?: string | undefined;
  /** Identity of what is said of it; none where nothing is. */
  saysId?: string | undefined;
  isWrong?: boolean;
  readOnly: boolean;
  onType: (text: string) => void;
  /** True where it took the text: otherwise it is pasted into the cell as any text is. */
  onPaste: (text: string) => boolean;
  onHand?: () => void;
  onLeave?: () => void;
}) {
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
    if (move(cell, rows, cells) || key === 'Enter') event.preventDefault();
  };
  return (
    <input
      ref={own}
      aria-label={name}
      title={`${head}: ${help}`}
      className={className}
      value={value}
      readOnly={readOnly}
      placeholder={head}
      inputMode={isNumber ? 'decimal' : 'text'}
      autoComplete="off"
      autoCapitalize="off"
      spellCheck={false}
      {...(list === undefined ? {} : { list })}
      {...(saysId === undefined ? {} : { 'aria-describedby': saysId })}
      {...(isWrong ? { 'aria-invalid': true } : {})}
      onFocus={(event) => {
        was.current = value;
        whole.current = event.currentTarget.value !== '';
        event.currentTarget.select();
        onHand?.();
      }}
      onBlur={onLeave}
      onPointerDown={() => {
        whole.current = false;
      }}
      onChange={(event) => {
        whole.current = false;
        onType(event.target.value);
      }}
      onPaste={(event) => {
        if (!readOnly && onPaste(event.clipboardData.getData('text/plain'))) event.preventDefault();
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
