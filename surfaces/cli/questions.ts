/** Questions to a curve, as options of `stillstand curve`, and their answers as lines. */
import { type Problem, problem } from '@stillstand/campaign/problems';
import { answerInWords } from '@stillstand/output/words';
import {
  type AnsweredQuestion,
  answerTo,
  type CurveResult,
  isAnswer,
  type Question,
} from '@stillstand/science/curve';
import { type Command, type Words, WrongUse } from './command.ts';
import { intervalsOf, numbersOf } from './intervals.ts';
import { print } from './say.ts';

export const QUESTION_OPTIONS: Command['options'] = {
  'rate-above': {
    type: 'string',
    value: 'MM_YR',
    about: 'question: the probability of a faster mean rate, over each of --intervals, else over --within',
  },
  at: {
    type: 'string',
    value: 'LIST',
    about: 'with --rate-above: the rate at these ages instead, cal BP, separated by commas',
  },
  passed: {
    type: 'string',
    value: 'LIST',
    about: 'question: when the rising sea first passed these levels, m, separated by commas',
  },
  highest: { type: 'boolean', about: 'question: the highest stand, its height and age' },
  fastest: {
    type: 'string',
    value: 'YEARS',
    about: 'question: the fastest and the slowest stretch of so many years, e.g. 100 or 1000',
  },
  'rate-below': {
    type: 'string',
    value: 'MM_YR',
    about: 'question: when the rate fell below this, for the first time and for good',
  },
  acceleration: {
    type: 'boolean',
    about: 'question: the change of the mean rate from the older half of --within to the younger',
  },
  within: {
    type: 'string',
    value: 'OLDER-YOUNGER',
    about: 'time that the questions are about, cal BP; all ages reported if not given',
  },
};

interface Asked {
  /** Option it comes from. */
  option: string;
  question: Question;
}

/** @param intervals those of the curve */
export function questionsOf(
  words: Words,
  intervals: readonly NonNullable<Extract<Question, { kind: 'highest' }>['window']>[],
): Asked[] {
  const windows = intervalsOf('within', words.text('within') ?? '');
  if (windows.length > 1) throw new WrongUse('--within: expected one OLDER-YOUNGER such as 8000-2000');
  const window = windows[0] ?? null;
  const asked: Asked[] = [];
  const ask = (option: string, question: Question): number => asked.push({ option, question });
  const above = words.number('rate-above');
  const at = words.text('at');
  if (at !== undefined && above === undefined) throw new WrongUse('--at: expected --rate-above too');
  if (above !== undefined && at !== undefined) {
    for (const age_cal_bp of numbersOf('at', at)) ask('at', { kind: 'rate above', mm_yr: above, age_cal_bp });
  } else if (above !== undefined) {
    for (const each of window === null && intervals.length > 0 ? intervals : [window])
      ask('rate-above', { kind: 'mean rate above', mm_yr: above, window: each });
  }
  const passed = words.text('passed');
  if (passed !== undefined)
    for (const level_m of numbersOf('passed', passed)) ask('passed', { kind: 'passed', level_m, window });
  if (words.flag('highest')) ask('highest', { kind: 'highest', window });
  const years = words.number('fastest', { above: 0 });
  if (years !== undefined) ask('fastest', { kind: 'fastest', years, window });
  const below = words.number('rate-below');
  if (below !== undefined) ask('rate-below', { kind: 'slowed', mm_yr: below, window });
  if (words.flag('acceleration')) ask('acceleration', { kind: 'acceleration', window });
  return asked;
}

/** Those that have an answer; a problem names each that has none, and each whose reported ages are too far apart. */
export function answersTo(
  curve: CurveResult,
  asked: readonly Asked[],
): { answers: AnsweredQuestion[]; problems: Problem[] } {
  const answers: AnsweredQuestion[] = [];
  const problems: Problem[] = [];
  for (const { option, question } of asked) {
    const answer = answerTo(curve, question);
    if (!isAnswer(answer)) {
      problems.push(
        problem({
          severity: 'error',
          code: 'no-answer',
          table: `--${option}`,
          ...answer,
          fix: 'Ask within the ages the curve reports, or report more of them. The other questions are answered.',
        }),
      );
      continue;
    }
    answers.push(answer);
    const { too_wide } = answer.answer;
    if (too_wide !== null)
      problems.push(
        problem({
          severity: 'warning',
          code: 'ages-far-apart',
          table: `--${option}`,
          found: `reported ages up to ${too_wide.gap_yr} yr apart`,
          expected: 'ages so close that what lies between them does not matter',
          fix: `${answerInWords(answer).doubts.join(' ')} Shorten --step.`,
        }),
      );
  }
  return { answers, problems };
}

/** A line each; one of a curve that has not converged says so. */
export function sayAnswers(answers: readonly AnsweredQuestion[], converged: boolean): void {
  for (const answer of answers) {
    const { title, main, more } = answerInWords(answer);
    const said = [main.before, main.number, main.after, ...more].filter((part) => part !== '').join(' ');
    print(`${title}: ${said}${converged ? '' : ' (NOT CONVERGED)'}`);
  }
}
