/** A hand-over: what is handed over, in words, and the press by which the next crew confirms it. */

import { type HoleState, handOverLines, type RowSource } from '@stillstand/campaign/holes';
import { t, translated } from '../../../language/index.ts';
import { Button, Mark } from '../../../parts/index.ts';
import type { BookLine } from '../book/book.ts';

export function HandOverState({ now, source }: { now: HoleState; source: RowSource }) {
  return (
    <ul className="handed">
      {handOverLines(now, source).map((line) => (
        <li key={line}>{translated(line)}</li>
      ))}
    </ul>
  );
}

const cellOf = (line: BookLine, column: string): string => line.versions.at(-1)!.cells[column]?.trim() ?? '';

/** The last hand-over, while it is not confirmed. */
function unconfirmed(lines: readonly BookLine[]): BookLine | null {
  const last = lines.findLast(
    (l) => l.table === 'events' && cellOf(l, 'kind') === 'hand_over' && l.state !== 'withdrawn',
  );
  return last === undefined || /^(?:yes|true)$/i.test(cellOf(last, 'confirmed')) ? null : last;
}

export function Unconfirmed({
  lines,
  onConfirm,
}: {
  lines: readonly BookLine[];
  onConfirm: (line: BookLine) => void;
}) {
  const line = unconfirmed(lines);
  if (line === null || line.state === 'conflict') return null;
  const next = cellOf(line, 'next');
  return (
    <section className="handed-over" aria-label={t`Hand-over`}>
      <p className="caution">
        <Mark name="close" size={20} /> {t`Handed over to ${cellOf(line, 'with_whom')}, not confirmed`}
      </p>
      <p>{cellOf(line, 'text')}.</p>
      {next === '' ? null : <p>{t`Next: ${next}.`}</p>}
      <Button mark="tick" onClick={() => onConfirm(line)}>
        {t`Confirm as ${cellOf(line, 'with_whom')}`}
      </Button>
    </section>
  );
}
