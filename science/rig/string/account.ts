/** The account of every item that ever went into a hole: what came back, what did not, and where that lies. */
import { tapeLength } from '@stillstand/science/base';
import type { AccountItem, Fate } from './string.ts';

export interface Reconciliation {
  /** Number of items by fate. */
  items: Readonly<Record<Fate, number>>;
  /** The sums are of joint lengths end to end. */
  added_m: number;
  /** Came back: pulled, removed, cut off. */
  back_m: number;
  /** Left, lost or missing, joint lengths end to end. */
  in_ground_m: number;
  /** The same made up, as it lies there: one thread overlap less for each joint made up on another. */
  in_ground_made_up_m: number;
  /** Still in the string of a hole that goes on. */
  in_string_m: number;
  /** Items whose length nobody measured: the sums are without them. */
  unmeasured: string[];
  /** One line for each item that did not come back. */
  says: string[];
}

const FATES: readonly Fate[] = ['in the string', 'removed', 'pulled', 'cut', 'left', 'lost', 'missing'];

/** added = back + in the ground + in the string, always. */
export function reconcile(account: readonly AccountItem[]): Reconciliation {
  const items = Object.fromEntries(FATES.map((fate) => [fate, 0])) as Record<Fate, number>;
  const total = { added_m: 0, back_m: 0, in_ground_m: 0, in_ground_made_up_m: 0, in_string_m: 0 };
  const unmeasured: string[] = [];
  const says: string[] = [];
  for (const item of account) {
    items[item.fate]++;
    const length = item.length_m ?? 0;
    if (item.length_m === null && item.item === 'joint') unmeasured.push(itemName(item));
    const away = Math.max(0, length - item.cut_m);
    total.added_m += length;
    total.back_m += length - away;
    if (item.fate === 'in the string') total.in_string_m += away;
    else if (item.fate === 'left' || item.fate === 'lost' || item.fate === 'missing') {
      total.in_ground_m += away;
      total.in_ground_made_up_m += item.in_ground_m;
      says.push(`${itemName(item)} ${item.fate}${whereLies(item, away)}`);
    } else total.back_m += away;
  }
  return { items, ...total, unmeasured, says };
}

/** ", 3.05 m of it, no deeper than 5.10 to 8.15 m below the ground" */
function whereLies(item: AccountItem, length_m: number): string {
  const length = length_m > 0 ? `, ${tapeLength(length_m, 'm', 'at least')}` : '';
  if (item.lies_from_m === null || item.lies_to_m === null) return length;
  return `${length}, no deeper than ${tapeLength(Math.max(0, item.lies_from_m), 'm', 'at most')} to ${tapeLength(item.lies_to_m, 'm', 'at least')} below the ground`;
}

export function itemName(item: { item: string; label: string | null }): string {
  return `${item.item.replace('_', ' ')} ${item.label ?? 'without label'}`;
}
