/** Questions a paper asks of a curve, as plain data, each with its answer; and as text, for names of numbers. */
import type { CurveResult } from '../result/result.ts';
import { type Acceleration, acceleration } from './acceleration.ts';
import { type FastestSlowest, fastestSlowest } from './fastest-slowest.ts';
import { type HighestStand, highestStand } from './highest-stand.ts';
import { isAnswer, type NoAnswer, pathsOf, type Window, wholeOf } from './paths.ts';
import { meanRateAbove, type RateAbove, rateAboveAt } from './rate-above.ts';
import { type WhenPassed, whenPassed } from './when-passed.ts';
import { type WhenSlowed, whenSlowed } from './when-slowed.ts';

/** A window of null is all the time from the oldest to the youngest reported age. */
export type Question =
  | { kind: 'mean rate above'; mm_yr: number; window: Window | null }
  | { kind: 'rate above'; mm_yr: number; age_cal_bp: number }
  | { kind: 'passed'; level_m: number; window: Window | null }
  | { kind: 'highest'; window: Window | null }
  | { kind: 'fastest'; years: number; window: Window | null }
  | { kind: 'slowed'; mm_yr: number; window: Window | null }
  | { kind: 'acceleration'; window: Window | null };

type Answered<Kind extends Question['kind'], Answer> = {
  kind: Kind;
  question: Question & { kind: Kind };
  answer: Answer;
};

/** A question with its answer. */
export type AnsweredQuestion =
  | Answered<'mean rate above', RateAbove & { window: Window }>
  | Answered<'rate above', RateAbove>
  | Answered<'passed', WhenPassed>
  | Answered<'highest', HighestStand>
  | Answered<'fastest', FastestSlowest>
  | Answered<'slowed', WhenSlowed>
  | Answered<'acceleration', Acceleration>;

/** Of the kind of the question. */
type AnsweredOf<Q extends Question> = Extract<AnsweredQuestion, { kind: Q['kind'] }>;

/** From the draws of the curve; `NoAnswer` where the question asks beyond what the curve reports. Never throws. */
export function answerTo<Q extends Question>(curve: CurveResult, question: Q): AnsweredOf<Q> | NoAnswer {
  const answer = found(curve, question);
  return isAnswer(answer) ? ({ kind: question.kind, question, answer } as unknown as AnsweredOf<Q>) : answer;
}

function found(curve: CurveResult, question: Question): AnsweredQuestion['answer'] | NoAnswer {
  const odd = Object.entries(question).find(
    ([, value]) => typeof value === 'number' && !Number.isFinite(value),
  );
  if (odd !== undefined) return { found: `${odd[0]} ${odd[1]}`, expected: 'a number' };
  switch (question.kind) {
    case 'mean rate above':
      return meanRateAbove(curve, question.mm_yr, question.window);
    case 'rate above':
      return rateAboveAt(curve, question.mm_yr, question.age_cal_bp);
    case 'passed':
      return whenPassed(curve, question.level_m, question.window);
    case 'highest':
      return highestStand(curve, question.window);
    case 'fastest':
      return fastestSlowest(curve, question.years, question.window);
    case 'slowed':
      return whenSlowed(curve, question.mm_yr, question.window);
    case 'acceleration':
      return acceleration(curve, question.window);
  }
}

/** Lengths of time that a curve of that span is asked for its fastest and slowest stretch, longest first, yr. */
const USUAL_YEARS = [1000, 500, 200, 100] as const;

/**
 * What every curve is asked: the highest stand, the fastest and slowest stretch, the acceleration. Stretches of 1,000 yr,
 * or the longest of 500, 200 and 100 of which two fit.
 */
export function usualQuestions(curve: CurveResult): Question[] {
  const whole = wholeOf(pathsOf(curve));
  if (whole === null) return [];
  const span = whole.older_cal_bp - whole.younger_cal_bp;
  const years = USUAL_YEARS.find((length) => 2 * length <= span);
  return [
    { kind: 'highest', window: null },
    ...(years === undefined ? [] : [{ kind: 'fastest', years, window: null } as const]),
    { kind: 'acceleration', window: null },
  ];
}

/** Those of them that the curve has an answer to. */
export const usualAnswers = (curve: CurveResult): AnsweredQuestion[] =>
  usualQuestions(curve)
    .map((question) => answerTo(curve, question))
    .filter(isAnswer);

/** "passed -5 9000..0": kind, number, window; of which each may be missing. */
export function questionText(question: Question): string {
  const number =
    question.kind === 'passed'
      ? question.level_m
      : question.kind === 'fastest'
        ? question.years
        : 'mm_yr' in question
          ? question.mm_yr
          : null;
  const when =
    question.kind === 'rate above'
      ? `${question.age_cal_bp}`
      : question.window === null
        ? null
        : `${question.window.older_cal_bp}..${question.window.younger_cal_bp}`;
  return [question.kind, number, when].filter((part) => part !== null).join(' ');
}

/** The question that such a text is; null for any other text. */
export function questionOf(text: string): Question | null {
  const parts = /^([a-z ]*[a-z])((?: [^ ]+)*)$/.exec(text);
  if (parts === null) return null;
  const kind = parts[1]! as Question['kind'];
  const rest = parts[2]!
    .trim()
    .split(' ')
    .filter((word) => word !== '');
  const needsNumber = kind !== 'highest' && kind !== 'acceleration';
  const number = needsNumber ? Number(rest.shift()) : 0;
  const when = rest.shift() ?? null;
  if (!Number.isFinite(number) || rest.length > 0) return null;
  if (kind === 'rate above') {
    const age_cal_bp = Number(when ?? Number.NaN);
    return Number.isFinite(age_cal_bp) ? { kind, mm_yr: number, age_cal_bp } : null;
  }
  const window = when === null ? null : windowOf(when);
  if (window === undefined) return null;
  switch (kind) {
    case 'mean rate above':
    case 'slowed':
      return { kind, mm_yr: number, window };
    case 'passed':
      return { kind, level_m: number, window };
    case 'fastest':
      return { kind, years: number, window };
    case 'highest':
    case 'acceleration':
      return { kind, window };
    default:
      return null;
  }
}

function windowOf(text: string): Window | undefined {
  const ends = /^(-?[\d.]+)\.\.(-?[\d.]+)$/.exec(text);
  if (ends === null) return undefined;
  const window = { older_cal_bp: Number(ends[1]), younger_cal_bp: Number(ends[2]) };
  return window.older_cal_bp > window.younger_cal_bp ? window : undefined;
}
