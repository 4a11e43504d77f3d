/** Answers of a curve in sentences, the same in the app, on the command line and in the report. */
import type { Amount, AnsweredQuestion, Chance, Question, TooWide } from '@stillstand/science/curve';
import { decimalsFor, printed, range, signed, yearRange, years } from './number.ts';

export interface AnswerInWords {
  /** What was asked, as a title. */
  title: string;
  /** The first sentence, about the number that was asked for: words before it, the number with its unit, words after. */
  main: { before: string; number: string; after: string };
  /** What belongs with it: probabilities, other numbers, how many draws it is from. */
  more: string[];
  /** What makes it doubtful. */
  doubts: string[];
}

/** Never a certainty that so many draws cannot show: "less than 0.01", "0.63". */
export function share(p: number, draws: number): string {
  const least = Math.max(0.01, 1 / draws);
  if (p < least) return `less than ${printed(least, 2)}`;
  return p > 1 - least ? `more than ${printed(1 - least, 2)}` : printed(p, 2);
}

const chance = ({ p, effective_draws }: Chance): string => share(p, effective_draws);

/** A probability of at least this is said. */
const WORTH_SAYING = 0.05;

type Window = NonNullable<Extract<Question, { kind: 'highest' }>['window']>;
const during = ({ older_cal_bp, younger_cal_bp }: Window): string =>
  `${yearRange(older_cal_bp, younger_cal_bp)} cal BP`;

/** A level or a rate that was asked for, as it was typed. */
const asked = (value: number): string =>
  signed(value, Number.isInteger(value) ? 0 : Number.isInteger(10 * value) ? 1 : 2);

const decimals = ({ sd }: Amount): number => decimalsFor(2 * sd, 1, 2);
const number = (amount: Amount, unit: string): string => `${signed(amount.median, decimals(amount))} ${unit}`;
const bounds = (amount: Amount): string => `95 % ${range(amount.lower95, amount.upper95, decimals(amount))}`;
const whole = (amount: Amount, unit: string): string => `${number(amount, unit)} (${bounds(amount)})`;
const age = (amount: Amount): string => `${years(amount.median)} cal BP`;
const ageBounds = ({ lower95, upper95 }: Amount): string => `95 % ${yearRange(upper95, lower95)}`;
const wholeAge = (amount: Amount): string => `${age(amount)} (${ageBounds(amount)})`;

function draws(...found: readonly (Amount | Chance | null)[]): string {
  const least = Math.min(...found.flatMap((each) => each?.effective_draws ?? []));
  return `At least ${printed(Math.floor(least))} effective draws.`;
}

function apart(wide: TooWide | null): string[] {
  if (wide === null) return [];
  const { gap_yr, error, unit } = wide;
  const what = unit === 'm' ? 'the level' : 'the rate';
  return [
    `Reported ages are up to ${years(gap_yr)} yr apart: between them ${what} asked about is ±${printed(2 * error, decimalsFor(2 * error, 2))} ${unit} (2σ) uncertain for that alone. Report ages closer together.`,
  ];
}

/** The title of a question alone. */
export function questionTitle(question: Question): string {
  switch (question.kind) {
    case 'mean rate above':
      return `Mean rate above ${asked(question.mm_yr)} mm/yr`;
    case 'rate above':
      return `Rate above ${asked(question.mm_yr)} mm/yr at ${years(question.age_cal_bp)} cal BP`;
    case 'passed':
      return `Level ${asked(question.level_m)} m passed`;
    case 'highest':
      return 'Highest stand';
    case 'fastest':
      return `Fastest and slowest ${years(question.years)} yr`;
    case 'slowed':
      return `Rate below ${asked(question.mm_yr)} mm/yr`;
    case 'acceleration':
      return 'Acceleration';
  }
}

export function answerInWords(answered: AnsweredQuestion): AnswerInWords {
  return {
    title: questionTitle(answered.question),
    ...sentences(answered),
    doubts: apart(answered.answer.too_wide),
  };
}

function sentences(answered: AnsweredQuestion): Pick<AnswerInWords, 'main' | 'more'> {
  switch (answered.kind) {
    case 'mean rate above':
    case 'rate above': {
      const { rate_mm_yr, above } = answered.answer;
      const when =
        answered.kind === 'mean rate above'
          ? `The mean rate over ${during(answered.answer.window)} was`
          : `The rate at ${years(answered.question.age_cal_bp)} cal BP was`;
      return {
        main: { before: when, number: number(rate_mm_yr, 'mm/yr'), after: `(${bounds(rate_mm_yr)}).` },
        more: [
          `Probability of more than ${asked(answered.question.mm_yr)} mm/yr: ${chance(above)}.`,
          draws(rate_mm_yr, above),
        ],
      };
    }
    case 'passed': {
      const { age_cal_bp, passed, more_than_once, above_at_start, window } = answered.answer;
      const level = `${asked(answered.question.level_m)} m`;
      return {
        main:
          age_cal_bp === null
            ? { before: `Too few draws rise through ${level} to date it.`, number: '', after: '' }
            : {
                before: `The sea first rose through ${level} at`,
                number: age(age_cal_bp),
                after: `(${ageBounds(age_cal_bp)}), of the draws in which it did.`,
              },
        more: [
          `Probability that it did within ${during(window)}: ${chance(passed)}; more than once: ${chance(more_than_once)}.`,
          ...(above_at_start.p < WORTH_SAYING
            ? []
            : [
                `Probability that it was already above at ${years(window.older_cal_bp)} cal BP: ${chance(above_at_start)}.`,
              ]),
          draws(age_cal_bp, passed),
        ],
      };
    }
    case 'highest': {
      const { level_m, age_cal_bp, above_zero, above_youngest_m, youngest_cal_bp, window } = answered.answer;
      const { at_older_end, at_younger_end } = answered.answer;
      const isNow = window.younger_cal_bp === youngest_cal_bp;
      return {
        main: {
          before: 'The sea stood highest at',
          number: number(level_m, 'm'),
          after: `(${bounds(level_m)}), at ${wholeAge(age_cal_bp)}.`,
        },
        more: [
          `Probability that this is above 0 of the datum: ${chance(above_zero)}.`,
          ...(isNow && at_younger_end.p > 1 - WORTH_SAYING
            ? []
            : [
                `Relative to the level at ${years(youngest_cal_bp)} cal BP it is ${number(above_youngest_m, 'm')} (${bounds(above_youngest_m)}).`,
              ]),
          ...(at_older_end.p < WORTH_SAYING
            ? []
            : [
                `Probability that the highest is at ${years(window.older_cal_bp)} cal BP, where the window begins: ${chance(at_older_end)}; the sea may have stood higher before.`,
              ]),
          ...(at_younger_end.p < WORTH_SAYING
            ? []
            : [
                `Probability that the highest is at ${years(window.younger_cal_bp)} cal BP, where the window ends: ${chance(at_younger_end)}${isNow ? '' : '; the sea may have stood higher later'}.`,
              ]),
          draws(level_m, age_cal_bp, above_zero),
        ],
      };
    }
    case 'fastest': {
      const { fastest, slowest, years: length } = answered.answer;
      return {
        main: {
          before: `The fastest ${years(length)} yr rose`,
          number: number(fastest.rate_mm_yr, 'mm/yr'),
          after: `(${bounds(fastest.rate_mm_yr)}), their middle at ${wholeAge(fastest.middle_cal_bp)}.`,
        },
        more: [
          `The slowest ${years(length)} yr: ${whole(slowest.rate_mm_yr, 'mm/yr')}, their middle at ${wholeAge(slowest.middle_cal_bp)}.`,
          draws(fastest.rate_mm_yr, fastest.middle_cal_bp, slowest.rate_mm_yr, slowest.middle_cal_bp),
        ],
      };
    }
    case 'slowed': {
      const { first, for_good, below_at_start, below_throughout, window } = answered.answer;
      const rate = `${asked(answered.question.mm_yr)} mm/yr`;
      return {
        main:
          first.age_cal_bp === null
            ? {
                before: `Too few draws show the rate falling below ${rate} to date it.`,
                number: '',
                after: '',
              }
            : {
                before: `The rate first fell below ${rate} at`,
                number: age(first.age_cal_bp),
                after: `(${ageBounds(first.age_cal_bp)}), of the draws in which it did.`,
              },
        more: [
          `Probability that it did within ${during(window)}: ${chance(first.happened)}.`,
          ...(for_good.age_cal_bp === null
            ? [`Probability that it fell below and stayed below: ${chance(for_good.happened)}.`]
            : [
                `It fell below for good at ${wholeAge(for_good.age_cal_bp)}; probability that it stayed below up to ${years(window.younger_cal_bp)} cal BP: ${chance(for_good.happened)}.`,
              ]),
          ...(below_at_start.p < WORTH_SAYING
            ? []
            : [
                `Probability that it was already below at ${years(window.older_cal_bp)} cal BP: ${chance(below_at_start)}; below all the time: ${chance(below_throughout)}.`,
              ]),
          draws(first.age_cal_bp, first.happened, for_good.age_cal_bp),
        ],
      };
    }
    case 'acceleration': {
      const { mm_yr_per_ka, older_mm_yr, younger_mm_yr, quickened, window } = answered.answer;
      const middle_cal_bp = (window.older_cal_bp + window.younger_cal_bp) / 2;
      return {
        main: {
          before: 'The rate changed by',
          number: number(mm_yr_per_ka, 'mm/yr per 1,000 yr'),
          after: `(${bounds(mm_yr_per_ka)}).`,
        },
        more: [
          `Mean rate over ${during({ ...window, younger_cal_bp: middle_cal_bp })}: ${number(older_mm_yr, 'mm/yr')}; over ${during({ ...window, older_cal_bp: middle_cal_bp })}: ${number(younger_mm_yr, 'mm/yr')}.`,
          `Probability that the rise quickened: ${chance(quickened)}.`,
          draws(mm_yr_per_ka, quickened),
        ],
      };
    }
  }
}

/** One number or probability of an answer, for a table. */
export interface AnswerRow {
  what: string;
  unit: 'm' | 'mm/yr' | 'mm/yr per ka' | 'cal BP' | '';
  /** Null for a probability, and where too few draws show the event. */
  amount: Amount | null;
  /** Of what is named; with an amount, that the event happens at all: the amount is of those draws alone. Null: always. */
  probability: Chance | null;
}

/** Every number of an answer. */
export function answerRows(answered: AnsweredQuestion): AnswerRow[] {
  const row = (
    what: string,
    unit: AnswerRow['unit'],
    amount: Amount | null,
    probability: Chance | null = null,
  ) => ({
    what,
    unit,
    amount,
    probability,
  });
  const that = (what: string, probability: Chance): AnswerRow => row(what, '', null, probability);
  switch (answered.kind) {
    case 'mean rate above':
    case 'rate above': {
      const { rate_mm_yr, above } = answered.answer;
      const of = answered.kind === 'rate above' ? 'rate' : 'mean rate';
      return [
        row(of, 'mm/yr', rate_mm_yr),
        that(`${of} above ${asked(answered.question.mm_yr)} mm/yr`, above),
      ];
    }
    case 'passed': {
      const { age_cal_bp, passed, more_than_once, above_at_start } = answered.answer;
      const level = `${asked(answered.question.level_m)} m`;
      return [
        row(`first rise through ${level}`, 'cal BP', age_cal_bp, passed),
        that(`rise through ${level} more than once`, more_than_once),
        that(`above ${level} at the older end`, above_at_start),
      ];
    }
    case 'highest': {
      const { level_m, age_cal_bp, above_zero, above_youngest_m, youngest_cal_bp } = answered.answer;
      const { at_older_end, at_younger_end } = answered.answer;
      return [
        row('highest stand', 'm', level_m),
        row('age of the highest stand', 'cal BP', age_cal_bp),
        row(`highest stand above the level at ${youngest_cal_bp} cal BP`, 'm', above_youngest_m),
        that('highest stand above 0 of the datum', above_zero),
        that('highest stand at the older end', at_older_end),
        that('highest stand at the younger end', at_younger_end),
      ];
    }
    case 'fastest': {
      const { fastest, slowest, years: length } = answered.answer;
      return [
        row(`rate of the fastest ${length} yr`, 'mm/yr', fastest.rate_mm_yr),
        row(`middle of the fastest ${length} yr`, 'cal BP', fastest.middle_cal_bp),
        row(`rate of the slowest ${length} yr`, 'mm/yr', slowest.rate_mm_yr),
        row(`middle of the slowest ${length} yr`, 'cal BP', slowest.middle_cal_bp),
      ];
    }
    case 'slowed': {
      const { first, for_good, below_at_start, below_throughout } = answered.answer;
      const rate = `${asked(answered.question.mm_yr)} mm/yr`;
      return [
        row(`rate first below ${rate}`, 'cal BP', first.age_cal_bp, first.happened),
        row(`rate below ${rate} for good`, 'cal BP', for_good.age_cal_bp, for_good.happened),
        that(`rate below ${rate} at the older end`, below_at_start),
        that(`rate below ${rate} throughout`, below_throughout),
      ];
    }
    case 'acceleration': {
      const { mm_yr_per_ka, older_mm_yr, younger_mm_yr, quickened } = answered.answer;
      return [
        row('mean rate of the older half', 'mm/yr', older_mm_yr),
        row('mean rate of the younger half', 'mm/yr', younger_mm_yr),
        row('acceleration from half to half', 'mm/yr per ka', mm_yr_per_ka),
        that('acceleration above 0', quickened),
      ];
    }
  }
}
