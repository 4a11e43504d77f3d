/** A line of the book whose amendments differ: what it says now, and the choice that ends it. */
import { t } from '../../../language/index.ts';
import { AmendmentChoice, Button } from '../../../parts/index.ts';
import type { BookLine } from './book.ts';
import './decide.css';

export function Decide({
  line,
  disabled,
  onDecide,
  onLeave,
}: {
  line: BookLine;
  disabled: boolean;
  onDecide: (row_id: string | null) => void;
  onLeave: () => void;
}) {
  return (
    <section className="entry decide" aria-label={t`Decide: ${line.name}`}>
      <header>
        <h2>
          {line.name} <span>{line.clock}</span>
        </h2>
        <Button kind="bare" mark="cross" aria-label={t`Close: ${line.name}`} onClick={onLeave} />
      </header>
      {line.choices.length === 0 ? (
        <p role="status">{t`It was decided elsewhere.`}</p>
      ) : (
        <AmendmentChoice choices={line.choices} disabled={disabled} onChoose={onDecide} />
      )}
    </section>
  );
}
