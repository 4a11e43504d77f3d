/** Readings of one place in the order of the hole: which came first, asked once, and what depends on it. */
import type { OrderClash } from '@stillstand/campaign/order';
import { t, translated } from '../../../language/index.ts';
import { Button, Mark } from '../../../parts/index.ts';
import type { BookLine } from './book.ts';
import './which-first.css';

export type Moves = OrderClash['choices'][number]['moves'];

export function WhichFirst({
  clash: { readings, choices, differs },
  lines,
  onMove,
}: {
  clash: OrderClash;
  /** Lines of the log, those of the readings among them. */
  lines: readonly BookLine[];
  /** Undefined where nothing may be written. */
  onMove: ((moves: Moves) => void) | undefined;
}) {
  const matters = differs.length > 0;
  const lineOf = (row_id: string): BookLine | undefined => lines.find((line) => line.root_id === row_id);
  const [now, other] = (['ours', 'theirs'] as const).map((key) => choices.find((c) => c.key === key)!);
  const isPair = readings.length === 2;
  return (
    <div className="which-first">
      <p>
        {matters ? <Mark name="close" size={20} /> : null}{' '}
        {!matters
          ? t`${readings.length} readings hold one place. Their order changes no number.`
          : isPair
            ? t`Two readings hold one place: which came first?`
            : t`${readings.length} readings hold one place: in which order were they read?`}
      </p>
      <ul>
        {readings.map(({ row_id, words, table }) => {
          const line = lineOf(row_id);
          const said = line === undefined ? words : <Said line={line} />;
          const first = [now!, other!].find(({ order }) => order[0] === row_id);
          return (
            <li key={`${table} ${row_id}`}>
              {matters && isPair && first !== undefined && onMove !== undefined ? (
                <Button onClick={() => onMove(first.moves)}>
                  <span>
                    {t`Put first:`} {said}
                  </span>
                </Button>
              ) : (
                said
              )}
            </li>
          );
        })}
      </ul>
      {matters && !isPair && onMove !== undefined ? (
        <p className="which-first-keys">
          <Button onClick={() => onMove(now!.moves)}>{t`Keep this order`}</Button>
          <Button onClick={() => onMove(other!.moves)}>{t`Reverse the order`}</Button>
        </p>
      ) : null}
      {matters ? <p className="quiet">{t`It decides: ${differs.map(translated).join('; ')}.`}</p> : null}
    </div>
  );
}

/** When, what, the values and who. */
const Said = ({ line }: { line: BookLine }) => (
  <>
    {line.clock} <b>{line.name}</b>{' '}
    {line.cells.map(({ column, label, now }) => (
      <span key={column}>
        {label} {now.replace(/^-(?=\d)/, '−')}{' '}
      </span>
    ))}
    <small>{line.by}</small>
  </>
);
