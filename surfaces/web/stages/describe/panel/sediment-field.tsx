/** The sediment of a unit: a free word with the vocabulary behind it, or chosen by how it is drawn. */
import { hasNoPattern, INKS, InkContext, Pattern, sedimentOf } from '@stillstand/output/drawing';
import { sediments } from '@stillstand/published/vocabularies';
import { useState } from 'react';
import { Button, ColumnField, Sheet } from '../../../parts/index.ts';
import { type Theme, useTheme } from '../../../shell/index.ts';
import './sediment-field.css';

export function SedimentField({
  value,
  disabled,
  onCommit,
}: {
  value: string;
  disabled: boolean;
  onCommit: (word: string) => void;
}) {
  const { theme } = useTheme();
  const [isOpen, setOpen] = useState(false);
  return (
    <div className="sediment-field">
      <Swatch word={value} theme={theme} id="swatch-now" />
      <ColumnField
        table="units"
        column="sediment"
        value={value}
        labels={sediments.map((s) => s.word)}
        disabled={disabled}
        onCommit={onCommit}
      />
      <Button disabled={disabled} onClick={() => setOpen(true)}>
        Choose
      </Button>
      {hasNoPattern(value) ? (
        <p className="quiet">No pattern is known for this: it is kept as written and drawn as unknown.</p>
      ) : null}
      {isOpen ? (
        <Sheet title="Sediment" onClose={() => setOpen(false)}>
          <ul className="sediment-choices">
            {sediments.map((s, i) => (
              <li key={s.word}>
                <button
                  type="button"
                  aria-pressed={s.word === value}
                  onClick={() => {
                    onCommit(s.word);
                    setOpen(false);
                  }}
                >
                  <Swatch word={s.word} theme={theme} id={`swatch-${i}`} />
                  <span>
                    <b>{s.word}</b>
                    <small>{s.about}</small>
                  </span>
                </button>
              </li>
            ))}
          </ul>
          <p className="quiet">
            Other words can be typed in the field. They are kept whole, and drawn by the last noun: “sandy
            mud” as mud with sand. What has no pattern is drawn as unknown.
          </p>
        </Sheet>
      ) : null}
    </div>
  );
}

function Swatch({ word, theme, id }: { word: string; theme: Theme; id: string }) {
  return (
    <svg className="swatch" viewBox="0 0 34 26" width={63} height={48} aria-hidden="true">
      <InkContext value={INKS[theme]}>
        <Pattern sediment={sedimentOf(word)} at={{ x1: 0.5, y1: 0.5, x2: 33.5, y2: 25.5 }} id={id} seed={3} />
        <path d="M.5 .5H33.5V25.5H.5Z" fill="none" stroke={INKS[theme].ink} strokeWidth={0.65} />
      </InkContext>
    </svg>
  );
}
