/** The funds of dates in words, and how far down a list of dates they reach. */
import { type DateAccount, withinFunds } from '@stillstand/campaign/budget';
import {
  type Choice,
  type CurveResult,
  type DatePlan,
  datedTogether,
  type IntervalRate,
  type Layer,
  type Readings,
  type WhatToDate,
} from '@stillstand/science/curve';
import { counted, printed } from './number.ts';
import { price } from './price.ts';

/** What is said of the funds; none where they are not entered. */
export function fundsInWords(account: DateAccount | null, plan: DatePlan): string[] {
  if (account === null || account.funds === null) return [];
  const { funds, made, waiting, spent, committed, unpriced, currencies, left } = account;
  if (currencies.length > 1)
    return [
      `Costs are entered in ${currencies.join(' and ')} and cannot be summed: what is left of the funds is not known. Enter them in one currency.`,
    ];
  const isCounted = plan.date_price === 1;
  const whole = isCounted
    ? `Funds: ${counted(funds, 'date')} in all; ${printed(made)} made, ${printed(waiting)} sent and waiting, ${printed(Math.max(0, left!))} left.`
    : `Funds: ${price(funds)} in all; ${price(spent)} spent on ${counted(made, 'date')}, ${price(committed)} committed for ${counted(waiting, 'sample')} sent and waiting, ${price(Math.max(0, left!))} left.`;
  const over = left! < 0 ? [`This is ${price(-left!)} more than the funds.`] : [];
  const none = left! < plan.date_price ? ['No further date can be paid.'] : [];
  const assumed =
    unpriced === 0
      ? []
      : [`${counted(unpriced, 'date')} without a cost entered, counted at ${price(plan.date_price)} each.`];
  return [[whole, ...over, ...none, ...assumed].join(' ')];
}

/** How far a list of single dates can be paid, in its order. */
export interface Payable {
  /** So many from the top, of so many. */
  count: number;
  of: number;
  price: number;
  /** All of them together, or the first of them; null where none can be paid. */
  together: Choice | null;
  /** Not all of them are in `together`. */
  isCut: boolean;
}

/** More together take too long to go through, as each may fail or not. */
const MOST_TOGETHER = 6;

/** Null where it is not entered what may be spent. `singles`: those of `next` that are listed. */
export function payableOf(
  { curve, readings, rate }: { curve: CurveResult; readings: Readings; rate: IntervalRate },
  { usual }: Pick<WhatToDate, 'usual'>,
  singles: readonly Choice[],
  layers: readonly Layer[],
  plan: DatePlan,
  account: DateAccount | null,
): Payable | null {
  const left = account?.left ?? null;
  const most = left !== null && left <= 0 ? 0 : withinFunds(plan, { left }).budget;
  if (most === null) return null;
  let sum = 0;
  let count = 0;
  for (const single of singles) {
    if (sum + single.price > most) break;
    sum += single.price;
    count += 1;
  }
  const dates = singles.slice(0, Math.min(count, MOST_TOGETHER)).flatMap((choice) => choice.dates);
  const byPoint = new Map(layers.map((layer) => [layer.point, layer]));
  const together = datedTogether(
    curve,
    readings,
    rate,
    dates.map(({ point, age_cal_bp }) =>
      point === null
        ? { age_cal_bp: age_cal_bp.mean, height_sigma_m: usual.height_sigma_m }
        : byPoint.get(point)!,
    ),
    plan,
  );
  return { count, of: singles.length, price: sum, together, isCut: count > MOST_TOGETHER };
}

/** "The first 2 of 5 single dates can be paid for 900: …". `now`: ± as it is, in `unit`. */
export function payableInWords(
  { count, of, price: sum, together, isCut }: Payable,
  plan: DatePlan,
  now: number,
  decimals: number,
  unit: string,
): string {
  if (count === 0) return 'The budget ends above the first of these dates.';
  const cost = plan.date_price === 1 && plan.core_price === 0 ? '' : ` for ${price(sum)}`;
  const which =
    of === 1
      ? 'The single date'
      : count === of
        ? `All ${printed(of)} single dates`
        : `The first ${count === 1 ? '' : `${printed(count)} `}of ${printed(of)} single dates`;
  const those = isCut
    ? `the first ${printed(MOST_TOGETHER)} of them together`
    : count === 1
      ? 'it'
      : 'them together';
  return `${which} can be paid${cost}. With ${those} ± would narrow from ${printed(now, decimals)} to ${printed(now * together!.left, decimals)} ${unit}.`;
}
