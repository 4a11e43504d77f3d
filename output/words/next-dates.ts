/** What to date next, in words: what each choice is of, what is assumed, and when its promise does not bind. */

import { type DateAccount, type Dating, withinFunds } from '@stillstand/campaign/budget';
import { curveOf, type Results, ratesComparedOf } from '@stillstand/campaign/results';
import { datePlanOf } from '@stillstand/campaign/settings';
import {
  type Choice,
  type CurveResult,
  type DatePlan,
  type IntervalRate,
  intervalRateWithin,
  isAbrupt,
  isSameRate,
  type Layer,
  MOST_DATES,
  type Pair,
  type RatesCompared,
  usualReadings,
  type WhatToDate,
  whatToDate,
} from '@stillstand/science/curve';
import { type Payable, payableOf } from './date-funds.ts';
import { type LayersToDate, layersToDate } from './layers-to-date.ts';
import { counted, printed, years } from './number.ts';
import { price } from './price.ts';
import { rateName } from './rate-model.ts';

interface Interval {
  older_cal_bp: number;
  younger_cal_bp: number;
}

/** What to date for the rate of one interval. */
export interface NextDates {
  interval: Interval;
  rate: IntervalRate;
  next: WhatToDate;
  choices: DateChoice[];
  /** How far the single dates that are worth it can be paid; null where it is not entered what may be spent. */
  payable: Payable | null;
}

const KINDS = {
  one: 'one date',
  two: 'two dates together',
  'two layers': 'two layers together',
  budget: 'within the budget',
} as const;

/** Dates to take together, and as what they are shown. */
export interface DateChoice {
  kind: keyof typeof KINDS;
  choice: Choice | Pair;
}

/**
 * For each reported interval of the headline curve; none without a curve or an index point. Without `dating` every layer
 * without a date is ranked, and nothing is known of what was spent.
 */
export function nextDates(
  results: Results,
  dating: Dating | null = null,
): {
  of: NextDates[];
  layers: LayersToDate;
  plan: DatePlan;
  isAssumed: boolean;
} {
  const curve = curveOf(results);
  const layers = layersToDate(results, dating?.held);
  const { plan: typed, isAssumed } = datePlanOf(results.settings);
  const account = dating?.account ?? null;
  const plan = account === null ? typed : withinFunds(typed, account);
  const of = curve === null ? [] : (datesForIntervals(curve, layers.layers, plan, account) ?? []);
  return { of, layers, plan, isAssumed };
}

/** For each interval of a curve; null without an index point to be usual. */
export function datesForIntervals(
  curve: CurveResult,
  layers: readonly Layer[],
  plan: DatePlan,
  account: DateAccount | null = null,
): NextDates[] | null {
  const readings = usualReadings(curve);
  if (readings === null) return null;
  return curve.intervals.flatMap(({ older_cal_bp, younger_cal_bp }): NextDates[] => {
    const rate = intervalRateWithin(curve, older_cal_bp, younger_cal_bp);
    if (rate === null) return [];
    const next = whatToDate(curve, readings, rate, layers, plan);
    const choices = choicesOf(next);
    const payable = payableOf({ curve, readings, rate }, next, worthAlone(choices), layers, plan, account);
    return [{ interval: { older_cal_bp, younger_cal_bp }, rate, next, choices, payable }];
  });
}

/** Everything that was found, those that are worth it and those that are not; a pair of layers once. */
export function choicesOf({ singles, pair, layers, bought }: WhatToDate): DateChoice[] {
  const isSame = (a: Choice, b: Choice): boolean =>
    a.dates.every((date, i) => date.point === b.dates[i]?.point && date.point !== null);
  return [
    ...singles.map((choice) => ({ kind: 'one' as const, choice })),
    ...(pair === null ? [] : [{ kind: 'two' as const, choice: pair }]),
    ...(layers === null || (pair !== null && isSame(layers, pair))
      ? []
      : [{ kind: 'two layers' as const, choice: layers }]),
    ...(bought === null ? [] : [{ kind: 'budget' as const, choice: bought }]),
  ];
}

/** Single dates that are worth it, the one that buys most first. */
export const worthAlone = (choices: readonly DateChoice[]): Choice[] =>
  choices.flatMap(({ kind, choice }) => (kind === 'one' && choice.isWorth ? [choice] : []));

/** "two dates together". */
export const choiceKind = (kind: DateChoice['kind']): string => KINDS[kind];

/** "a new index point", or the layer by its name. */
export const datingOf = (point: string | null, names: LayersToDate['names']): string =>
  point === null ? 'a new index point' : (names.get(point) ?? point);

/** Layers that stand in no rank, by what keeps them from it. `far`: points that the curve comes nowhere near. */
export const notRanked = (
  far: readonly string[],
  { names, unusable }: LayersToDate,
): LayersToDate['unusable'] => [
  ...(far.length === 0
    ? []
    : [{ why: 'the curve comes nowhere near', names: far.map((point) => datingOf(point, names)) }]),
  ...unusable,
];

/** All dates of a choice: "two new index points", or each by its name. */
export const datingsOf = ({ dates }: Choice, names: LayersToDate['names']): string =>
  dates.length > 1 && dates.every(({ point }) => point === null)
    ? counted(dates.length, 'new index point')
    : dates.map(({ point }) => datingOf(point, names)).join('; ');

/** What two dates do together beside what each does alone; null for other choices. */
export function togetherInWords({ choice }: DateChoice): string | null {
  if (!('beyond' in choice)) return null;
  const percent = (share: number): string => `${printed(100 * share, 0)} %`;
  const { together, beyond, dates } = choice;
  const alone = dates.map((date) => percent(date.alone)).join(' and ');
  const verdict =
    Math.abs(beyond.value) <= 2 * beyond.mcse || Math.abs(beyond.value) < 0.01
      ? 'more or less than the sum cannot be distinguished'
      : beyond.value > 0
        ? 'they complete one another'
        : 'they repeat one another in part';
  return `Together the two take ${percent(together)} of the variance, alone ${alone}: ${verdict}.`;
}

/** What is counted for a date to succeed. */
export function successInWords(
  { succeeds, usual, scatter_m }: WhatToDate,
  plan: DatePlan,
  isAssumed: boolean,
  { settings: { outliers } }: Pick<CurveResult, 'settings'>,
): string {
  const percent = (share: number): string => `${printed(100 * share, share > 0 && share < 0.1 ? 1 : 0)} %`;
  const wrong =
    outliers === null
      ? ''
      : `, or is an outlier by its age (${percent(outliers.age_probability)}) or its height (${percent(outliers.height_probability)}), and then says nothing`;
  const scatter = scatter_m > 0 ? `, with a further scatter of ±${printed(2 * scatter_m, 2)} m` : '';
  return (
    `A new point is as good as half of those there are: height ±${printed(2 * usual.height_sigma_m, 2)} m and age ±${printed(2 * usual.age_sd_yr, 0)} yr (2σ)${scatter}. ` +
    `A date gives no result with ${percent(plan.fails)}${isAssumed ? ' (assumed)' : ''}${wrong}: ${percent(succeeds)} count.` +
    (outliers === null
      ? ''
      : ' An outlier is not seen as one, so that rather more is left than is said here.')
  );
}

/** How prices are meant; null where dates are counted. */
export const pricesInWords = ({ date_price, core_price, budget }: DatePlan): string | null => {
  if (date_price === 1 && core_price === 0 && budget === null) return null;
  const most =
    budget === null
      ? ''
      : budget < date_price
        ? ` The budget is ${price(budget)}: less than a date costs.`
        : ` The budget is ${price(budget)}: one or two dates are the best there are, more are added one after another, ${printed(MOST_DATES)} at most, each as long as it narrows the rate by a fiftieth.`;
  return `A date costs ${price(date_price)}${core_price > 0 ? `, a new point also a core of ${price(core_price)}` : ''}, in the unit they are typed in.${most}`;
};

/** What the promise assumes of the rate: always said. */
export function promiseAssumes({ settings: { rate_model } }: Pick<CurveResult, 'settings'>): string {
  const { kind, changes } = rate_model;
  if (kind === 'constant')
    return 'Promised for a constant rate. If the rate changed, the promise does not bind.';
  if (kind === 'stepwise')
    return `Promised for a rate with ${counted(changes, 'change')}, from its draws as they are. If it changed more often or never so abruptly, the promise does not bind.`;
  return changes > 0
    ? `Promised for a smooth rate with at most ${counted(changes, 'break')}, from its draws as they are. If the rate had other kinks within the interval, the promise does not bind.`
    : 'Promised for a smooth rate. If it had a kink or the level jumped within the interval, the promise does not bind.';
}

/** Why the promise does not bind; none where nothing is known against it. */
export function promiseDoubts(
  curve: Pick<CurveResult, 'settings' | 'one_break'>,
  { older_cal_bp, younger_cal_bp }: Interval,
  compared: RatesCompared,
): string[] {
  const doubts: string[] = [];
  if (isAbrupt(curve)) {
    const age = curve.one_break!.age_cal_bp;
    const where = age < older_cal_bp && age > younger_cal_bp ? 'within the interval' : 'outside the interval';
    doubts.push(
      `This promise does not bind: the heights suit an abrupt change near ${years(age)} cal BP, ${where}. Choose a stepwise rate or allow breaks first.`,
    );
  }
  const here = compared.find((one) => isSameRate(one.rate_model, curve.settings.rate_model));
  const [best] = compared;
  if (best?.converged && here !== undefined && here !== best && here.undecided === null && here.converged)
    doubts.push(
      `This promise does not bind: the data decide against this model of the rate; “${rateName(best.rate_model)}” has the best score.`,
    );
  return doubts;
}

/** The same of the headline curve of some results. */
export const promiseDoubtsOf = (results: Results, interval: Interval): string[] => {
  const curve = curveOf(results);
  return curve === null ? [] : promiseDoubts(curve, interval, ratesComparedOf(results));
};
