/**
 * What a hand or the arrows are moving is drawn at once and written when it comes to rest: one step of undo for one
 * movement, and nothing of it lost when the page goes.
 */
import { useCallback, useEffect, useRef, useState } from 'react';
import { type DocRow, useStore } from '../../store/index.ts';
import type { Moving } from './drawing/drawing.tsx';
import { carryOut, type Edit } from './edits.ts';

/** After the last press of an arrow. */
const REST_MS = 350;

export interface Movement {
  /** Not yet written. */
  edits: readonly Edit[];
  move: (edits: readonly Edit[], how: Moving) => void;
  /** Writes what is still moving, before anything else is done. */
  settle: () => void;
}

export function useMovement(): Movement {
  const store = useStore();
  const [edits, setEdits] = useState<readonly Edit[]>([]);
  const pending = useRef<readonly Edit[]>([]);
  const timer = useRef<ReturnType<typeof setTimeout> | null>(null);
  const settle = useCallback(() => {
    if (timer.current !== null) clearTimeout(timer.current);
    timer.current = null;
    const waiting = pending.current;
    pending.current = [];
    carryOut(store, waiting);
    setEdits([]);
  }, [store]);
  const move = useCallback(
    (next: readonly Edit[], how: Moving) => {
      if (!sameRows(pending.current, next)) settle();
      pending.current = next;
      setEdits(next);
      if (timer.current !== null) clearTimeout(timer.current);
      if (how === 'let go') settle();
      else if (how === 'key') timer.current = setTimeout(settle, REST_MS);
    },
    [settle],
  );
  useEffect(() => {
    const leave = (): void => settle();
    addEventListener('pagehide', leave);
    document.addEventListener('visibilitychange', leave);
    return () => {
      removeEventListener('pagehide', leave);
      document.removeEventListener('visibilitychange', leave);
      settle();
    };
  }, [settle]);
  return { edits, move, settle };
}

const rowsOf = (edits: readonly Edit[]): string =>
  edits.map((edit) => (edit.change === 'add' ? '' : edit.row_id)).join(' ');
const sameRows = (a: readonly Edit[], b: readonly Edit[]): boolean =>
  a.length === 0 || rowsOf(a) === rowsOf(b);

/** The rows as they will be once the edits are written. */
export function withEdits(rows: readonly DocRow[], edits: readonly Edit[]): readonly DocRow[] {
  const cells = new Map(edits.flatMap((e) => (e.change === 'edit' ? [[e.row_id, e.cells] as const] : [])));
  return cells.size === 0
    ? rows
    : rows.map((row) => {
        const changed = cells.get(row.row_id);
        return changed === undefined ? row : { ...row, cells: { ...row.cells, ...changed } };
      });
}
