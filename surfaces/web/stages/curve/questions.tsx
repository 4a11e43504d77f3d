/** Questions a paper asks of the curve: chosen by a key, their value by steps or typed, answered in sentences. */
import { traceId } from '@stillstand/campaign/results';
import { answerInWords } from '@stillstand/output/words';
import {
  type AnsweredQuestion,
  type CurveResult,
  isAnswer,
  type NoAnswer,
  type Question,
  questionText,
} from '@stillstand/science/curve';
import { useEffect, useId, useState } from 'react';
import { useComputation } from '../../compute/index.ts';
import { Button, Mark, printed, Traced } from '../../parts/index.ts';
import type { Interval } from './interval.ts';
import './questions.css';
import { Unsettled } from './unsettled.tsx';

type Kind = 'highest' | 'passed' | 'slowed' | 'fastest' | 'acceleration';

const KINDS: Readonly<Record<Kind, string>> = {
  highest: 'Highest stand',
  passed: 'Level passed',
  slowed: 'Rate below',
  fastest: 'Fastest, slowest',
  acceleration: 'Acceleration',
};
const NAMES = Object.keys(KINDS) as Kind[];

interface Valued {
  label: string;
  unit: string;
  help: string;
  /** One step further from a value. */
  next: (value: number, steps: 1 | -1) => number;
}

const LENGTHS = [50, 100, 200, 500, 1000, 2000, 3000];
const byHalves = (value: number, steps: number): number => (Math.round(2 * value) + steps) / 2;

const VALUES: Readonly<Partial<Record<Kind, Valued>>> = {
  passed: {
    label: 'Level',
    unit: 'm',
    help: 'A level above or below 0 of the datum. Within the curve, −30 to +5 m as a rule',
    next: byHalves,
  },
  slowed: {
    label: 'Rate',
    unit: 'mm/yr',
    help: 'A rate of rise. Usually 0 to 10 mm/yr in the Holocene',
    next: byHalves,
  },
  fastest: {
    label: 'Length',
    unit: 'yr',
    help: 'Length of the stretch. 100 to 1,000 years as a rule; shorter than the curve',
    next: (value, steps) =>
      (steps === 1 ? LENGTHS.find((each) => each > value) : LENGTHS.findLast((each) => each < value)) ??
      value,
  },
};

export function Questions({
  curve,
  of,
  interval,
  isFinal,
}: {
  curve: CurveResult;
  /** Name of the curve. */
  of: string;
  interval: Interval;
  isFinal: boolean;
}) {
  const [kind, setKind] = useState<Kind>('highest');
  const [isWithin, setWithin] = useState(false);
  const [typed, setTyped] = useState<Partial<Record<Kind, string>>>({});
  const valued = VALUES[kind];
  const text = typed[kind] ?? String(firstValue(kind, curve));
  const value = text.trim() === '' ? Number.NaN : Number(text.replace('−', '-').replace(',', '.'));
  const window = isWithin
    ? { older_cal_bp: interval.older_cal_bp, younger_cal_bp: interval.younger_cal_bp }
    : null;
  const question =
    valued !== undefined && !Number.isFinite(value) ? null : questionAbout(kind, value, window);
  const id = useId();
  const set = (next: string): void => setTyped({ ...typed, [kind]: next });
  return (
    <section className="questions" aria-labelledby={`${id}-title`}>
      <h2 id={`${id}-title`}>
        Questions <Unsettled curve={curve} isFinal={isFinal} />
      </h2>
      <ul className="questions-asked" aria-label="Questions">
        {NAMES.map((name) => (
          <li key={name}>
            <Button kind="bare" aria-pressed={name === kind} onClick={() => setKind(name)}>
              {KINDS[name]}
            </Button>
          </li>
        ))}
      </ul>
      <div className="asked">
        {valued === undefined ? null : (
          <p className="value">
            <label htmlFor={`${id}-value`}>{valued.label}</label>
            <Button
              aria-label={`${valued.label}: less`}
              onClick={() => set(String(valued.next(Number.isFinite(value) ? value : 0, -1)))}
            >
              −
            </Button>
            <input
              id={`${id}-value`}
              title={valued.help}
              inputMode="decimal"
              autoComplete="off"
              value={text.replace('-', '−')}
              onChange={(event) => set(event.target.value)}
            />
            <Button
              aria-label={`${valued.label}: more`}
              onClick={() => set(String(valued.next(Number.isFinite(value) ? value : 0, 1)))}
            >
              +
            </Button>
            <span className="unit">{valued.unit}</span>
          </p>
        )}
        <ul className="when" aria-label="Time asked about">
          <li>
            <Button kind="bare" aria-pressed={!isWithin} onClick={() => setWithin(false)}>
              all ages
            </Button>
          </li>
          <li>
            <Button kind="bare" aria-pressed={isWithin} onClick={() => setWithin(true)}>
              {printed(interval.older_cal_bp, 0)} to {printed(interval.younger_cal_bp, 0)}
            </Button>
          </li>
        </ul>
      </div>
      {question === null ? (
        <p className="unsure">
          <Mark name="close" size={18} /> Found “{text}”; expected a number
          {valued === undefined ? '' : ` in ${valued.unit}`}.
        </p>
      ) : (
        <Said question={question} of={of} isFinal={isFinal} />
      )}
    </section>
  );
}

/** A round value that the curve comes to. */
function firstValue(kind: Kind, { level_m, rate_mm_yr, ages_cal_bp }: CurveResult): number {
  if (kind === 'fastest') return Math.max(...ages_cal_bp) - Math.min(...ages_cal_bp) > 2000 ? 1000 : 100;
  const { median } = kind === 'passed' ? level_m : rate_mm_yr;
  const middle = (Math.max(...median) + Math.min(...median)) / 2;
  return Math.round(middle);
}

function questionAbout(kind: Kind, value: number, window: Interval | null): Question {
  switch (kind) {
    case 'passed':
      return { kind, level_m: value, window };
    case 'slowed':
      return { kind, mm_yr: value, window };
    case 'fastest':
      return { kind, years: value, window };
    default:
      return { kind, window };
  }
}

function Said({ question, of, isFinal }: { question: Question; of: string; isFinal: boolean }) {
  const answer = useAnswer(question, of);
  if (!isFinal && answer === null) return <p role="status">Answered when the curve is computed.</p>;
  if (answer === null) return <p role="status">Looking through the draws.</p>;
  if (!isAnswer(answer))
    return (
      <p className="unsure" role="status">
        <Mark name="close" size={18} /> Found {answer.found}; expected {answer.expected}.
      </p>
    );
  const { main, more, doubts } = answerInWords(answer);
  return (
    <div className={isFinal ? 'said' : 'said stale'} role="status">
      <p>
        {main.before}{' '}
        {main.number === '' ? null : (
          <Traced id={traceId.answer(questionText(answer.question))}>
            <b>{main.number}</b>
          </Traced>
        )}{' '}
        {main.after}
      </p>
      <p className="more">{more.join(' ')}</p>
      {doubts.map((doubt) => (
        <p key={doubt} className="unsure">
          <Mark name="close" size={18} /> {doubt}
        </p>
      ))}
    </div>
  );
}

/** The answer of the newest curve; that to the question before it, until it has come. */
function useAnswer(question: Question, of: string): AnsweredQuestion | NoAnswer | null {
  const { answer, state } = useComputation();
  const text = `${of}: ${questionText(question)}`;
  const [said, setSaid] = useState<{ text: string; answer: AnsweredQuestion | NoAnswer | null }>({
    text,
    answer: null,
  });
  // biome-ignore lint/correctness/useExhaustiveDependencies: the text is the curve and the question
  useEffect(() => {
    if (state !== 'final') return;
    let isCurrent = true;
    void answer(question, of).then((found) => {
      if (isCurrent) setSaid({ text, answer: found });
    });
    return () => {
      isCurrent = false;
    };
  }, [text, answer, state]);
  return said.text === text ? said.answer : null;
}
