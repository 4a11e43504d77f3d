/** What a contact is, chosen by how it is drawn. */
import { Contact, INKS, InkContext } from '@stillstand/output/drawing';
import { contacts } from '@stillstand/published/vocabularies';
import { useId } from 'react';
import { useTheme } from '../../../shell/index.ts';
import './contact-kind.css';

export function ContactKind({
  value,
  disabled,
  onChoose,
}: {
  value: string;
  disabled: boolean;
  onChoose: (kind: string) => void;
}) {
  const { theme } = useTheme();
  const name = useId();
  return (
    <fieldset className="contact-kinds" disabled={disabled}>
      <legend>Contact at its base</legend>
      {contacts.map(({ word, about }) => (
        <label key={word} title={about}>
          <input
            type="radio"
            name={name}
            value={word}
            checked={value === word}
            onChange={() => onChoose(word)}
          />
          <svg viewBox="0 0 40 8" width={74} height={15} aria-hidden="true">
            <InkContext value={INKS[theme]}>
              <Contact kind={word} x1={1} x2={39} y={4} />
            </InkContext>
          </svg>
          {word}
        </label>
      ))}
    </fieldset>
  );
}
