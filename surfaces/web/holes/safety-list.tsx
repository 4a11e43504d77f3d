/** The safety questions, line by line: each answer is a reading of its own, with who gave it and when. */

import {
  ANSWER_WORDS,
  ageWords,
  byWords,
  type SafetyAnswer,
  type SafetyCheck,
} from '@stillstand/campaign/holes';
import { useRef, useState } from 'react';
import { t, translated } from '../language/index.ts';
import { Mark } from '../parts/index.ts';
import { crew, setCrew } from '../store/index.ts';
import './safety-list.css';

const ANSWERS: readonly SafetyAnswer[] = ['yes', 'no', 'not_needed'];

export function SafetyList({
  checks,
  day,
  hole,
  disabled,
  onAnswer,
}: {
  checks: readonly SafetyCheck[];
  day: string;
  hole: string | null;
  disabled: boolean;
  onAnswer: (check: SafetyCheck, answer: SafetyAnswer) => void;
}) {
  const ofHole = checks.filter((c) => c.of === 'hole');
  const ofDay = checks.filter((c) => c.of === 'day');
  const lines = (of: readonly SafetyCheck[]) =>
    of.map((check) => (
      <Line key={check.check} {...{ check, day, disabled }} onAnswer={(answer) => onAnswer(check, answer)} />
    ));
  return (
    <div className="safety-list">
      <Recorder disabled={disabled} />
      {hole === null || ofHole.length === 0 ? null : (
        <>
          <h3>
            {t`Hole ${hole}`} <span>{t`asked again every day`}</span>
          </h3>
          <ul>{lines(ofHole)}</ul>
        </>
      )}
      <h3>
        {t`The day`} <span>{day}</span>
      </h3>
      <ul>{lines(ofDay)}</ul>
    </div>
  );
}

/** Two presses nearer than this are one. */
const TWICE_MS = 700;

function Line({
  check,
  day,
  disabled,
  onAnswer,
}: {
  check: SafetyCheck;
  day: string;
  disabled: boolean;
  onAnswer: (answer: SafetyAnswer) => void;
}) {
  const { given, earlier, state } = check;
  /** When an answer was pressed last: pressed twice by a cold hand it is given, not taken back. */
  const pressed = useRef(0);
  const press = (answer: SafetyAnswer, isByHand: boolean): void => {
    const isTwice = isByHand && given?.answer === answer && performance.now() - pressed.current < TWICE_MS;
    pressed.current = performance.now();
    if (!isTwice) onAnswer(answer);
  };
  return (
    <li data-state={state} data-check={check.check}>
      <p className="asked">
        <b>{translated(check.question)}</b> <span>{translated(check.why)}</span>
        {state === 'caution' ? <em>{`${translated(check.hazard)}. ${translated(check.act)}`}</em> : null}
      </p>
      <p className="by">
        {given !== null ? (
          translated(byWords(given, day))
        ) : earlier === null ? (
          <b>{t`not answered`}</b>
        ) : (
          <>
            <b>{t`not answered today`}</b>
            {`${translated(ANSWER_WORDS[earlier.answer])}, ${earlier.by ?? t`name not given`}, ${translated(ageWords(earlier, day))}`}
          </>
        )}
      </p>
      {/* biome-ignore lint/a11y/useSemanticElements: a fieldset cannot stand in the line */}
      <div className="answers" role="group" aria-label={translated(check.question)}>
        {ANSWERS.map((answer) => (
          <button
            key={answer}
            type="button"
            aria-pressed={given?.answer === answer}
            data-answer={answer}
            disabled={disabled}
            // of a key there is no count of presses
            onClick={(event) => press(answer, event.detail > 0)}
          >
            {given?.answer !== answer || answer === 'not_needed' ? null : (
              <Mark name={answer === 'yes' ? 'tick' : state === 'danger' ? 'stop' : 'close'} size={18} />
            )}
            {translated(ANSWER_WORDS[answer])}
          </button>
        ))}
      </div>
    </li>
  );
}

/** Whose name goes with the answers given here; asked for plainly while there is none. */
function Recorder({ disabled }: { disabled: boolean }) {
  const [by, setBy] = useState(() => crew().by);
  return (
    <label className="recorder" data-missing={by.trim() === ''}>
      <span>
        {by.trim() === '' ? (
          <>
            <Mark name="close" size={18} /> {t`Who answers? Enter a name or role`}
          </>
        ) : (
          t`Answers given by`
        )}
      </span>
      <input
        value={by}
        disabled={disabled}
        autoComplete="off"
        aria-label={t`Recorder: name or role`}
        title={t`Name, initials or role; kept with every answer and reading of this device.`}
        onChange={(event) => {
          setBy(event.target.value);
          setCrew({ ...crew(), by: event.target.value.trim() });
        }}
      />
    </label>
  );
}
