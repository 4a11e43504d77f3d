/** One conflict: what each side says, by whom and when, and a key for each way to end it. */
import type { ConflictSide, MergeConflict } from '@stillstand/campaign/merge';
import { dateOf } from '@stillstand/campaign/tables';
import { type ReactNode, useId } from 'react';
import { Button, Mark } from '../../parts/index.ts';
import './conflict-row.css';
import { whenWords, whoWords } from './when-words.ts';

const SIDES: Readonly<Record<ConflictSide['side'], string>> = {
  ours: 'This device',
  theirs: 'The copy',
  both: '',
};

/** Longer ones are no numbers to be read at a glance. */
const SHORT = 12;

export function ConflictRow({
  conflict,
  number,
  chosen,
  disabled = false,
  onChoose,
}: {
  conflict: MergeConflict;
  number: number;
  /** Key of the choice; null where none is made. */
  chosen: string | null;
  disabled?: boolean;
  onChoose: (key: string) => void;
}) {
  const title = useId();
  const { kind, name, was, sides, choices, effect, until } = conflict;
  const isOpen = chosen === null || chosen === 'later';
  const day = dateOf(sides[0]?.time);
  return (
    <li className="conflict-row">
      <section aria-labelledby={title}>
        <header>
          {isOpen ? <span className="ring">{number}</span> : <Mark name="tick" size={22} label="decided" />}
          <h3 id={title}>{name}</h3>
          {was === '' ? null : <p className="quiet">was {kind === 'order' ? was : struck(was)}</p>}
        </header>
        <ul className="sides" data-count={Math.min(sides.length, 3)}>
          {sides.map((side) => (
            <li key={`${side.value} ${side.time} ${side.by}`}>
              <p>
                <b>{SIDES[side.side]}</b>{' '}
                {[whoWords(side), whenWords(side.time, day)].filter(Boolean).join(', ')}
                {side.reason === '' ? null : (
                  <>
                    <br />
                    {side.reason}
                  </>
                )}
              </p>
              <p className={side.value.length > SHORT || side.value === '' ? 'value words' : 'value'}>
                {signs(side.value === '' ? side.words : side.value)}
              </p>
            </li>
          ))}
        </ul>
        {effect.length === 0 ? null : <p className="quiet">Changes {effect.map(signs).join('; ')}.</p>}
        <fieldset className="choices">
          <legend className="unseen">{name}</legend>
          {choices.map(({ key, words }) => (
            <Button
              key={key}
              aria-pressed={chosen === key}
              disabled={disabled}
              {...(chosen === key && key !== 'later' ? { mark: 'tick' as const } : {})}
              onClick={() => onChoose(key)}
            >
              {signs(words)}
            </Button>
          ))}
        </fieldset>
        {isOpen ? <p className="quiet until">{signs(until)}</p> : null}
      </section>
    </li>
  );
}

/** "15.20 m at 14:38": the value is struck, not when it was written. */
function struck(was: string): ReactNode {
  const [, value = was, at = ''] = /^(.*?)( at \d\d:\d\d)$/.exec(was) ?? [];
  return (
    <>
      <s>{signs(value)}</s>
      {at}
    </>
  );
}

/** With the true minus. */
export const signs = (text: string): string => text.replace(/(^|\s)-(?=\d)/g, '$1−');
