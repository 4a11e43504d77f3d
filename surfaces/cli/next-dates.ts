/** What to date next, as options of `stillstand curve`: layers are the rows of index points without an age. */
import {
  choiceKind,
  datesForIntervals,
  datingOf,
  layerName,
  payableInWords,
  price,
  pricesInWords,
  printed,
  promiseAssumes,
  promiseDoubts,
  signed,
  successInWords,
  togetherInWords,
  years,
} from '@stillstand/output/words';
import { square } from '@stillstand/science/base';
import {
  type CurveResult,
  type DatePlan,
  DEFAULT_DATE_PLAN,
  type Layer,
  type RatesCompared,
} from '@stillstand/science/curve';
import { type Command, type Words, WrongUse } from './command.ts';
import type { PlainRow } from './plain-table.ts';
import { print, sayTable } from './say.ts';

export const NEXT_OPTIONS: Command['options'] = {
  next: {
    type: 'boolean',
    about:
      'what to date next for the rate over each of --intervals; index points without an age are layers not yet dated',
  },
  'date-fails': {
    type: 'string',
    value: 'PERCENT',
    about: `with --next: dates that give no result; ${100 * DEFAULT_DATE_PLAN.fails} if not given`,
  },
  'date-price': {
    type: 'string',
    value: 'NUMBER',
    about: 'with --next: price of a date in any unit; 1, dates counted, if not given',
  },
  'core-price': {
    type: 'string',
    value: 'NUMBER',
    about: 'with --next: price of the core for a new point, in the same unit; 0 if not given',
  },
  budget: {
    type: 'string',
    value: 'NUMBER',
    about: 'with --next: what may be spent, in the same unit',
  },
};

/** A layer as a row states it, and where it is. */
export interface StatedLayer {
  layer: Layer;
  site: string | null;
  name: string;
}

/** The plan asked for; null where --next is not. */
export function planOf(words: Words, hasIntervals: boolean): DatePlan | null {
  const fails = words.number('date-fails', { min: 0, max: 95 });
  const plan: DatePlan = {
    fails: fails === undefined ? DEFAULT_DATE_PLAN.fails : fails / 100,
    date_price: words.number('date-price', { above: 0 }) ?? DEFAULT_DATE_PLAN.date_price,
    core_price: words.number('core-price', { min: 0 }) ?? DEFAULT_DATE_PLAN.core_price,
    budget: words.number('budget', { above: 0 }) ?? null,
  };
  if (!words.flag('next')) {
    const alone = ['date-fails', 'date-price', 'core-price', 'budget'].find(
      (option) => words.text(option) !== undefined,
    );
    if (alone !== undefined) throw new WrongUse(`--${alone}: expected --next too`);
    return null;
  }
  if (!hasIntervals)
    throw new WrongUse('--next: expected --intervals too, the rates that dates are to narrow');
  return plan;
}

/** Whether a row is an index point that waits for a date. */
export const isUndated = (row: PlainRow): boolean =>
  row.text('kind') === 'index' && row.text('c14_age') === '' && row.text('age_cal_bp') === '';

/** Null where a cell is missing or wrong; the problem is said. */
export function layerOfRow(row: PlainRow): StatedLayer | null {
  const rsl_m = row.needed('rsl_m');
  const sigma_m = row.needed('rsl_sigma_m', { above: 0 });
  const parts = [
    row.number('group_sigma_m', { min: 0 }) ?? 0,
    (row.number('half_range_m', { min: 0 }) ?? 0) / Math.sqrt(3),
    row.number('lowering_m', { min: 0 }) ?? 0,
  ];
  const its = row.number('price', { above: 0 });
  const depth_m = row.number('depth_m');
  if (rsl_m === null || sigma_m === null) return null;
  const point = row.text('id');
  const rsl_sigma_m = Math.sqrt(square(sigma_m) + parts.reduce((sum, part) => sum + square(part), 0));
  return {
    layer: { point, rsl_m, rsl_sigma_m, price: its },
    site: row.text('site') || null,
    name: layerName(row.text('hole') || null, depth_m, point),
  };
}

const layersOf = (stated: readonly StatedLayer[]): Layer[] => stated.map(({ layer }) => layer);

/** For each interval of the curve, for other programs. */
export function nextAsJson(
  curve: CurveResult,
  layers: readonly StatedLayer[],
  plan: DatePlan,
  compared: RatesCompared,
): object[] {
  return (datesForIntervals(curve, layersOf(layers), plan) ?? []).map(
    ({ interval, rate, next, choices }) => ({
      ...interval,
      rate_sd_mm_yr: rate.rate_mm_yr.sd,
      plan,
      succeeds: next.succeeds,
      usual: next.usual,
      scatter_m: next.scatter_m,
      choices: choices.map(({ kind, choice }) => ({ what: choiceKind(kind), ...choice })),
      far: next.far,
      assumes: promiseAssumes(curve),
      does_not_bind: promiseDoubts(curve, interval, compared),
    }),
  );
}

export function sayNext(
  curve: CurveResult,
  layers: readonly StatedLayer[],
  plan: DatePlan,
  compared: RatesCompared,
): void {
  const names = new Map(layers.map(({ layer, name }) => [layer.point, name]));
  const unsettled = curve.diagnostics.converged ? [] : ['NOT CONVERGED'];
  const nexts = datesForIntervals(curve, layersOf(layers), plan);
  if (nexts === null) {
    print('What to date next: without an index point there is no usual date to count with.');
    return;
  }
  for (const { interval, rate, next, choices, payable } of nexts) {
    const now = 2 * rate.rate_mm_yr.sd;
    print(
      `What to date next, rate over ${years(interval.older_cal_bp)} to ${years(interval.younger_cal_bp)} cal BP, now ±${printed(now, 2)} mm/yr (2σ):`,
    );
    for (const doubt of promiseDoubts(curve, interval, compared)) print(doubt);
    const worth = choices.filter(({ choice }) => choice.isWorth);
    if (worth.length === 0) print('No date would narrow it by as much as a fiftieth.');
    else
      sayTable([
        ['dating', 'about, cal BP', 'near, m', 'then ±, mm/yr', 'price', ...unsettled.map(() => '')],
        ...worth.flatMap(({ kind, choice }) => [
          ...(kind === 'one' ? [] : [[`${choiceKind(kind)}:`, '', '', '', '', ...unsettled.map(() => '')]]),
          ...choice.dates.map(({ point, age_cal_bp, level_m }, k) => [
            `${kind === 'one' ? '' : '  '}${datingOf(point, names)}`,
            years(age_cal_bp.mean),
            signed(level_m.mean, 1),
            k === 0 ? printed(now * choice.left, 2) : '',
            k === 0 ? price(choice.price) : '',
            ...unsettled,
          ]),
        ]),
      ]);
    if (payable !== null && worth.length > 0) print(payableInWords(payable, plan, now, 2, 'mm/yr'));
    for (const choice of worth) {
      const together = togetherInWords(choice);
      if (together !== null)
        print(`${choice.kind === 'two layers' ? 'Two layers' : 'Two dates'}: ${together}`);
    }
    const idle = choices.filter(
      ({ kind, choice }) => kind === 'one' && !choice.isWorth && choice.dates[0]!.point !== null,
    );
    if (idle.length > 0)
      print(
        `Narrow it by less than a fiftieth, or than Monte-Carlo noise: ${idle.map(({ choice }) => datingOf(choice.dates[0]!.point, names)).join('; ')}.`,
      );
    if (next.far.length > 0)
      print(`The curve comes nowhere near: ${next.far.map((point) => datingOf(point, names)).join('; ')}.`);
  }
  const [first] = nexts;
  if (first !== undefined)
    print(successInWords(first.next, plan, plan.fails === DEFAULT_DATE_PLAN.fails, curve));
  const priced = pricesInWords(plan);
  if (priced !== null) print(priced);
  print(promiseAssumes(curve));
}
