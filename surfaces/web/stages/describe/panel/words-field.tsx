/** Several words in one cell, each from the vocabulary or free: taken off by a press, added by choosing or typing. */

import { listed } from '@stillstand/campaign/tables';
import type { Word } from '@stillstand/published/vocabularies';
import { useState } from 'react';
import { Field, Mark } from '../../../parts/index.ts';
import './words-field.css';

export function WordsField({
  name,
  value,
  vocabulary,
  disabled,
  onCommit,
}: {
  name: string;
  value: string;
  vocabulary: readonly Word[];
  disabled: boolean;
  onCommit: (cell: string) => void;
}) {
  const [typed, setTyped] = useState('');
  const words = listed(value);
  const add = (word: string): void => {
    setTyped('');
    const fresh = listed(word).filter((w) => !words.includes(w));
    if (fresh.length > 0) onCommit([...words, ...fresh].join(';'));
  };
  return (
    <div className="words-field">
      <Field
        name={name}
        help={{ about: `${name} seen in the unit; several may be named. A word of your own is kept` }}
      >
        {(input) => (
          <>
            <input
              {...input}
              value={typed}
              disabled={disabled}
              list={`${input.id}-list`}
              autoComplete="off"
              placeholder={words.length === 0 ? 'none named' : 'add another'}
              onChange={(event) => {
                // A choice from the list comes as one change.
                if (vocabulary.some((w) => w.word === event.target.value)) add(event.target.value);
                else setTyped(event.target.value);
              }}
              onBlur={() => add(typed)}
              onKeyDown={(event) => {
                if (event.key === 'Enter') add(typed);
                if (event.key === 'Backspace' && typed === '' && words.length > 0) {
                  onCommit(words.slice(0, -1).join(';'));
                }
              }}
            />
            <datalist id={`${input.id}-list`}>
              {vocabulary
                .filter((w) => !words.includes(w.word))
                .map((w) => (
                  <option key={w.word} value={w.word}>
                    {w.about}
                  </option>
                ))}
            </datalist>
          </>
        )}
      </Field>
      {words.length === 0 ? null : (
        <ul>
          {words.map((word) => (
            <li key={word}>
              <button
                type="button"
                disabled={disabled}
                aria-label={`Take off ${word}`}
                onClick={() => onCommit(words.filter((w) => w !== word).join(';'))}
              >
                {word}
                <Mark name="cross" size={13} />
              </button>
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}
