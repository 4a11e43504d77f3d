/**
 * The account of a campaign's dates: counted, where a date has the price 1, or in the money that prices are typed in. Costs
 * are those entered in custody for what went to a laboratory; a date without any counts at the price of one.
 */
import { type Custody, custodyOf } from '@stillstand/campaign/chain';
import type { Campaign } from '@stillstand/campaign/document';
import { methodAsked } from '@stillstand/campaign/import';
import { dateFundsOf, datePlanOf } from '@stillstand/campaign/settings';
import type { Row } from '@stillstand/campaign/tables';
import type { DatePlan } from '@stillstand/science/curve';

/** Amounts in the unit of the price of a date: dates, or money. */
export interface DateAccount {
  /** All that may be spent, from the first date on; null: not stated. */
  funds: number | null;
  /** Results of methods that a laboratory is paid for, rejected ones too. */
  made: number;
  /** Samples that are sent for a date and have none. */
  waiting: number;
  spent: number;
  /** For those waiting. */
  committed: number;
  /** Dates made or awaited without a cost entered. */
  unpriced: number;
  /** Of the costs entered; empty where they state none. Several cannot be summed. */
  currencies: readonly string[];
  /** Funds less spent and committed, may be below 0; null without funds or with several currencies. */
  left: number | null;
}

/** What is dated without a laboratory's bill: known years, and clocks read off measurements. */
const PAID: readonly Row<'determinations'>['method'][] = ['radiocarbon', 'u_series', 'luminescence'];

/** Entries whose cost is that of a result. */
const BILLED: readonly Row<'custody'>['action'][] = ['sent', 'arrived', 'result'];

/** No number here depends on the day: what is waiting is so until it comes. */
const ANY_DAY = '2000-01-01';

type Listed = readonly { name: string; value: string }[];

/** `settings` as results list them. */
export function dateAccount(
  campaign: Campaign,
  settings: Listed,
  chain: readonly Custody[] = custodyOf(campaign, ANY_DAY),
): DateAccount {
  const { plan } = datePlanOf(settings);
  const funds = dateFundsOf(settings);
  const made = Map.groupBy(
    campaign.rows.determinations.filter(({ method }) => PAID.includes(method)),
    ({ sample }) => sample,
  );
  const prices = new Map(campaign.rows.laboratories.map((lab) => [lab.laboratory, lab]));
  const isCounted = plan.date_price === 1;
  const sum = { made: 0, waiting: 0, spent: 0, committed: 0, unpriced: 0 };
  const currencies = new Set<string>();
  /** The sum of what was entered; null where nothing was, or where dates are counted. */
  const billed = (bills: readonly Entry[]): number | null => {
    if (isCounted || bills.length === 0) return null;
    for (const { currency } of bills) currencies.add(named(currency));
    return bills.reduce((total, { cost }) => total + cost!, 0);
  };
  for (const custody of chain) {
    if (custody.thing.kind !== 'sample') continue;
    const dates = made.get(custody.thing.sample)?.length ?? 0;
    const isWaiting = isForDate(custody);
    if (dates === 0 && !isWaiting) continue;
    sum.made += dates;
    const bills = billsOf(custody, isWaiting);
    const paid = billed(bills.made);
    sum.spent += paid ?? dates * plan.date_price;
    if (paid === null) sum.unpriced += dates;
    if (!isWaiting) continue;
    sum.waiting += 1;
    const awaited = billed(bills.awaited);
    const lab = isCounted ? undefined : prices.get(custody.waiting?.laboratory ?? '');
    sum.committed += awaited ?? lab?.price ?? plan.date_price;
    if (awaited !== null) continue;
    if (lab?.price == null) sum.unpriced += 1;
    else currencies.add(named(lab.currency));
  }
  if (isCounted) sum.unpriced = 0;
  const several = [...currencies].filter((currency) => currency !== '');
  return {
    funds,
    ...sum,
    currencies: several,
    left: funds === null || several.length > 1 ? null : funds - sum.spent - sum.committed,
  };
}

const named = (currency: string | null): string => currency?.trim().toUpperCase() ?? '';

type Entry = Custody['entries'][number];

/** A request for a date; one that is not entered counts as such. */
const asksForDate = (request: string | null): boolean => request === null || methodAsked(request) !== null;

const isForDate = ({ waiting }: Custody): boolean => waiting !== null && asksForDate(waiting.request);

/**
 * Entries with a cost of a sample's dates: of those made, and of the one it waits for, from when it was last sent. What
 * follows a request for something else is no cost of a date.
 */
function billsOf({ entries }: Custody, isWaiting: boolean): Record<'made' | 'awaited', Entry[]> {
  const bills: Record<'made' | 'awaited', Entry[]> = { made: [], awaited: [] };
  const since = isWaiting ? entries.findLastIndex(({ action }) => action === 'sent') : entries.length;
  let isOfDate = true;
  for (const [i, entry] of entries.entries()) {
    if (entry.action === 'sent' || entry.request !== null) isOfDate = asksForDate(entry.request);
    if (isOfDate && entry.cost !== null && BILLED.includes(entry.action))
      bills[i < since ? 'made' : 'awaited'].push(entry);
  }
  return bills;
}

/** What a campaign knows of its dates beyond its results. */
export interface Dating {
  account: DateAccount;
  /** Samples that cannot be dated now, with why. */
  held: ReadonlyMap<string, string>;
}

export function datingOf(campaign: Campaign, settings: Listed): Dating {
  const chain = custodyOf(campaign, ANY_DAY);
  return { account: dateAccount(campaign, settings, chain), held: heldSamples(campaign, chain) };
}

/** Samples that cannot be dated now, with why. */
export function heldSamples(
  campaign: Campaign,
  chain: readonly Custody[] = custodyOf(campaign, ANY_DAY),
): Map<string, string> {
  const held = new Map<string, string>();
  for (const { thing, state, waiting } of chain) {
    if (thing.kind !== 'sample') continue;
    if (state === 'discarded') held.set(thing.sample, 'discarded');
    else if (state === 'lent') held.set(thing.sample, 'lent, and not back');
    else if (waiting !== null) held.set(thing.sample, 'sent, and waiting for a result');
  }
  return held;
}

/** The plan with no more to spend than is left of the funds; what is spent whole leaves no budget to plan with. */
export function withinFunds(plan: DatePlan, { left }: Pick<DateAccount, 'left'>): DatePlan {
  if (left === null) return plan;
  const budget = Math.min(left, plan.budget ?? left);
  return { ...plan, budget: budget > 0 ? budget : null };
}
