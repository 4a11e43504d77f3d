/** What only a person can say of a table: what lines wait for first, then what was taken until somebody says otherwise. */
import type { Decision } from '@stillstand/campaign/import';
import { useId } from 'react';
import { Mark } from '../parts/index.ts';

/** More of their words than this are decided in a mapping file. */
const MOST_WORDS = 30;

export function Asked({
  decisions,
  onDecide,
}: {
  decisions: readonly Decision[];
  onDecide: (where: string, word: string) => void;
}) {
  if (decisions.length === 0) return null;
  const waits = decisions.filter(({ taken }) => taken === null);
  const taken = decisions.filter((decision) => decision.taken !== null);
  return (
    <section className="import-asked" aria-label="To decide">
      <h3>{waits.length === 0 ? 'Taken until you say otherwise' : 'To decide'}</h3>
      <ul>
        {[...waits, ...taken].map((decision) => (
          <Question key={decision.where} decision={decision} onDecide={onDecide} />
        ))}
      </ul>
    </section>
  );
}

function Question({
  decision,
  onDecide,
}: {
  decision: Decision;
  onDecide: (where: string, word: string) => void;
}) {
  const { where, question, taken, choices, words } = decision;
  return (
    <li data-waits={taken === null}>
      <p>
        {taken === null ? <Mark name="close" size={18} label="lines wait for it" /> : null} {question}
      </p>
      {words.length === 0 ? (
        <Answer where={where} question={question} taken={taken} choices={choices} onDecide={onDecide} />
      ) : (
        words
          .slice(0, MOST_WORDS)
          .map((word) => (
            <Answer
              key={word}
              where={`${where}.${word}`}
              question={`${word} means`}
              taken={taken === null ? null : word}
              choices={choices}
              word={word}
              onDecide={onDecide}
            />
          ))
      )}
    </li>
  );
}

/** Few words are pressed, many are chosen from a list, and a free one is typed. */
function Answer({
  where,
  question,
  taken,
  choices,
  word,
  onDecide,
}: {
  where: string;
  question: string;
  taken: string | null;
  choices: readonly string[];
  word?: string;
  onDecide: (where: string, word: string) => void;
}) {
  const id = useId();
  if (choices.length > 0 && choices.length <= 5 && word === undefined)
    return (
      // biome-ignore lint/a11y/useSemanticElements: a fieldset cannot stand in the line
      <div className="answers" role="group" aria-label={question}>
        {choices.map((choice) => (
          <button
            key={choice}
            type="button"
            aria-pressed={choice === taken}
            onClick={() => onDecide(where, choice)}
          >
            {said(choice)}
          </button>
        ))}
      </div>
    );
  return (
    <p className="answer">
      {word === undefined ? null : <label htmlFor={id}>{word}</label>}
      {choices.length > 0 ? (
        <select
          id={id}
          aria-label={question}
          title={question}
          value={taken !== null && choices.includes(taken) ? taken : ''}
          onChange={(event) => onDecide(where, event.target.value)}
        >
          <option value="">choose</option>
          {choices.map((choice) => (
            <option key={choice} value={choice}>
              {said(choice)}
            </option>
          ))}
        </select>
      ) : (
        <input
          id={id}
          aria-label={question}
          title={question}
          placeholder={taken ?? ''}
          onBlur={(event) => {
            if (event.target.value.trim() !== '') onDecide(where, event.target.value.trim());
          }}
          onKeyDown={(event) => {
            if (event.key === 'Enter') event.currentTarget.blur();
          }}
        />
      )}
    </p>
  );
}

const said = (choice: string): string =>
  choice === 'true' ? 'yes' : choice === 'false' ? 'no' : choice.replaceAll('_', ' ');
