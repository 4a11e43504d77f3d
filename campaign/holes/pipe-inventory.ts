/**
 * Where each labelled item of pipe is, across the stock and all holes of a campaign: what can be used again, and what
 * cannot.
 */
import type { Campaign } from '@stillstand/campaign/document';
import type { Row } from '@stillstand/campaign/tables';
import type { AccountItem } from '@stillstand/science/rig';
import { isLater, latest } from './pipe-order.ts';
import {
  type Condition,
  type Finding,
  type ItemRecord,
  isBack,
  itemRecords,
  type Use,
} from './pipe-records.ts';
import { kindOf } from './pipe-stock.ts';

export interface PipeItem {
  item: AccountItem['item'];
  label: string;
  /** End to end, what was cut off it taken off; null where it was not measured. */
  length_m: number | null;
  /** Where that length was written; null where nowhere, or where something was cut off since. */
  length_in: 'string_items' | 'pipe_stock' | null;
  /** Length lost in its own thread, where the stock states one; null: that of its kind of pipe. */
  makeup_loss_m: number | null;
  /** Kind of pipe, where the stock states it. */
  pipe: string | null;
  /** Row that added it to a string last; null where it was never used. */
  row_id: string | null;
  /** Its row in the stock; null where it is known from readings alone. */
  stock_row_id: string | null;
  /**
   * `in stock`: never used. `pulled`: it came back whole. `shortened`: it came back cut, and must be measured again.
   * The others are not to be had: in a string, cut up, left or lost in the ground, not accounted for when its hole
   * ended; or at hand but damaged; or lost out of the stock, then without a hole.
   */
  whereabouts:
    | 'in stock'
    | 'in string'
    | 'pulled'
    | 'shortened'
    | 'damaged'
    | 'cut'
    | 'left'
    | 'lost'
    | 'missing';
  /** The hole it went into last; null where it was never used, or was lost ashore. */
  hole: string | null;
  /** When it went in, ms since 1970; NaN where the clock was not read. */
  time_ms: number;
  /** It can go into a string now. */
  isAtHand: boolean;
}

type Tables = Pick<Campaign, 'rows' | 'skipped_rows'>;

/**
 * One entry for each label of each kind of item: the stock in its order, then what is known from readings alone in the
 * order it was first added. Where the clock does not show which of two holes an item went into last, it is where it
 * cannot be had; where it does not show which was said last of its condition, the worse counts. Pure, nothing throws.
 */
export const pipeInventory = (campaign: Tables): PipeItem[] => itemRecords(campaign).map(itemOf);

function itemOf({ stock, uses, findings }: ItemRecord): PipeItem {
  const last = lastUse(uses);
  // what went into a hole after it was lost has been found
  const isFound = (finding: Finding): boolean =>
    finding.condition === 'lost' && last !== null && isLater(last, finding) === true;
  const condition = conditionOf(findings.filter((finding) => !isFound(finding)));
  const isMeasured = last !== null && isMeasuredAgain(last, stock);
  const whereabouts = whereaboutsNow(last, condition, isMeasured);
  const isLostAshore = whereabouts === 'lost' && last?.whereabouts !== 'lost';
  const measured_m = stock?.length_m ?? null;
  return {
    item: last?.added.item ?? kindOf(stock!),
    label: stock?.stock_item ?? last!.added.label,
    length_m: last === null || isMeasured ? measured_m : (remainderOf(last) ?? measured_m),
    length_in: lengthIn(last, measured_m, isMeasured),
    makeup_loss_m: stock?.makeup_loss_m ?? null,
    pipe: stock?.pipe ?? null,
    row_id: last?.added.row_id ?? null,
    stock_row_id: stock?.row_id ?? null,
    whereabouts,
    hole: isLostAshore ? null : (last?.hole ?? null),
    time_ms: last?.time_ms ?? Number.NaN,
    isAtHand: AT_HAND.has(whereabouts),
  };
}

const AT_HAND: ReadonlySet<PipeItem['whereabouts']> = new Set(['in stock', 'pulled', 'shortened']);

function lengthIn(last: Use | null, measured_m: number | null, isMeasured: boolean): PipeItem['length_in'] {
  if (last !== null && !isMeasured && last.added.length_m !== null)
    return last.added.cut_m > 0 ? null : 'string_items';
  return measured_m === null ? null : 'pipe_stock';
}

/** What is left of it, m; null where it was not measured. */
const remainderOf = ({ added }: Use): number | null =>
  added.length_m === null ? null : added.length_m - added.cut_m;

/** What is in the ground is there whatever the stock says; of what is at hand its condition decides. */
function whereaboutsNow(
  last: Use | null,
  condition: Condition | null,
  isMeasured: boolean,
): PipeItem['whereabouts'] {
  if (last !== null && !isBack(last)) return last.whereabouts;
  if (condition === 'damaged' || condition === 'lost') return condition;
  if (last === null) return 'in stock';
  return last.whereabouts === 'shortened' && isMeasured ? 'pulled' : last.whereabouts;
}

/** A difference of two tapings of one item that is no slip: 1 cm, our choice. */
export const LENGTH_TOLERANCE_M = 0.01;

/** Cut, and the stock has another length than it had when it went in. */
function isMeasuredAgain(use: Use, stock: Row<'pipe_stock'> | null): boolean {
  const before = use.added.length_m;
  if (use.added.cut_m === 0 || before === null || stock?.length_m == null) return false;
  return stock.length_m < before - LENGTH_TOLERANCE_M;
}

export const lastUse = (uses: readonly Use[]): Use | null => latest(uses, (use) => (isBack(use) ? 0 : 1));

const GRAVITY: Record<Condition, number> = { sound: 0, damaged: 1, lost: 2 };

/** The last word on its condition; of words in no known order the worst. Null where nobody said anything. */
export function conditionOf(findings: readonly Finding[]): Condition | null {
  const standing = findings.filter((a) => !findings.some((b) => isLater(b, a) === true));
  const [worst] = standing.map(({ condition }) => condition).sort((a, b) => GRAVITY[b] - GRAVITY[a]);
  return worst ?? null;
}

/** "lost in T1", "in the string of T2", "pulled from T1", "in stock": where an item is, in words. */
export function whereWords({ whereabouts, hole }: Pick<PipeItem, 'whereabouts' | 'hole'>): string {
  const words: Record<PipeItem['whereabouts'], string> = {
    'in stock': 'in stock',
    'in string': `in the string of ${hole}`,
    pulled: `pulled from ${hole}`,
    shortened: `cut in ${hole}, to be measured again`,
    damaged: hole === null ? 'damaged' : `damaged, last in ${hole}`,
    cut: `cut up in ${hole}`,
    left: `left in ${hole}`,
    lost: hole === null ? 'lost ashore' : `lost in ${hole}`,
    missing: `not accounted for in ${hole}`,
  };
  return words[whereabouts];
}
