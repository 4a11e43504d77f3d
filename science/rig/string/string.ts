/**
 * The string of pipe: what is in it, from the shoe up, and what became of everything that was ever added. Its length is
 * the sum of its items less the thread overlap of each made-up connection: that of the upper item, which is made up into
 * the one below it. The drive head sits on the collar and adds
 * nothing; a shoe or coupling without a length is taken as part of the joint it is fitted to.
 */
import type { JointReading } from '../reading.ts';

export type Fate = 'in the string' | 'removed' | 'pulled' | 'cut' | 'left' | 'lost' | 'missing';

/** One item ever added, and what became of it. */
export interface AccountItem {
  /** Row that added it. */
  row_id: string;
  item: JointReading['item'];
  label: string | null;
  /** As added; null where it was not measured. */
  length_m: number | null;
  fate: Fate;
  /** Row that took it out; null while it is in. */
  fate_row_id: string | null;
  /** Cut off and brought back, m. */
  cut_m: number;
  /**
   * What it adds to the pipe still in the ground at the end of the readings, m: made up, the overlap with the item
   * below taken off. 0 where it came out.
   */
  in_ground_m: number;
  /**
   * Where it lies, below the ground at the start, reckoned from where the shoe last was known to be: no deeper than
   * this, for the string may have been drawn up since. Null where that was never known; told of what did not come back.
   */
  lies_from_m: number | null;
  lies_to_m: number | null;
  tight: boolean | null;
  /** Length lost in its own thread, m; null where that of the kind of pipe counts. */
  makeup_loss_m: number | null;
}

export interface PipeString {
  /** From the shoe up; drive heads are kept apart. */
  items: AccountItem[];
  /** The last is on the collar; one before it came off, and no reading says so. */
  heads: AccountItem[];
  account: AccountItem[];
}

export const emptyString = (): PipeString => ({ items: [], heads: [], account: [] });

/** What an item measures now: nothing for a fitting without a length; null for a joint without one. */
function lengthNow(item: AccountItem): number | null {
  if (item.length_m === null) return item.item === 'joint' ? null : 0;
  return item.length_m - item.cut_m;
}

/** True where the item has a length of its own and so a thread of its own. */
function threaded(item: AccountItem): boolean {
  return item.item === 'joint' || item.length_m !== null;
}

/** Length lost in the thread of an item to the one below it, m; `usual` is that of the kind of pipe. */
export const threadLoss = (item: Pick<AccountItem, 'makeup_loss_m'>, usual: number): number =>
  item.makeup_loss_m ?? usual;

/**
 * Collar to shoe, m: Σ lengths − Σ thread losses of all threaded items but the lowest. Null while a joint's length is
 * missing.
 */
export function collarToShoe(string: PipeString, makeup_loss_m: number): number | null {
  let sum = 0;
  let parts = 0;
  let usual = 0;
  let own = 0;
  for (const item of string.items) {
    const length = lengthNow(item);
    if (length === null) return null;
    sum += length;
    if (!threaded(item) || parts++ === 0) continue;
    if (item.makeup_loss_m === null) usual++;
    else own += item.makeup_loss_m;
  }
  return sum - makeup_loss_m * usual - own;
}

/** Threads that go below ground unconfirmed: said to be loose, or above another item and never said to be tight. */
export function untight(string: PipeString): AccountItem[] {
  return string.items.filter(
    (item, i) => threaded(item) && (item.tight === false || (item.tight === null && i > 0)),
  );
}

export type StringChange =
  | { ok: true; outOfOrder: AccountItem[]; gone: AccountItem[] }
  | { ok: false; reason: 'twice' | 'absent' };

/** Adds an item at the top. A label already in the string cannot be added again. */
export function addItem(string: PipeString, reading: JointReading): StringChange {
  const { label, item } = reading;
  const within = [...string.items, ...string.heads];
  if (label !== null && within.some((i) => i.label === label && i.item === item)) {
    return { ok: false, reason: 'twice' };
  }
  const added: AccountItem = {
    row_id: reading.row_id,
    item,
    label,
    length_m: reading.length_m,
    fate: 'in the string',
    fate_row_id: null,
    cut_m: 0,
    in_ground_m: 0,
    lies_from_m: null,
    lies_to_m: null,
    tight: reading.tight,
    makeup_loss_m: reading.makeup_loss_m ?? null,
  };
  string.account.push(added);
  if (item === 'drive_head') string.heads.push(added);
  else if (item === 'shoe' && !string.items.some((i) => i.item === 'shoe')) string.items.unshift(added);
  else string.items.push(added);
  return { ok: true, outOfOrder: [], gone: [] };
}

/** Notes where each of `items` (from the shoe up) stands in the ground with the shoe at `shoe_m`. */
export function lieAt(items: readonly AccountItem[], makeup_loss_m: number, shoe_m: number | null): void {
  let bottom: number | null = shoe_m;
  let below = 0;
  for (const item of items) {
    const length = lengthNow(item);
    // the lower end of a joint is made up into the one below it
    const overlap = threaded(item) && below > 0 ? threadLoss(item, makeup_loss_m) : 0;
    const end: number | null = bottom === null ? null : bottom + overlap;
    const top: number | null = end === null || length === null ? null : end - length;
    item.lies_to_m = top === null ? null : end;
    item.lies_from_m = top;
    bottom = top;
    if (threaded(item)) below++;
  }
}

const FATES: Record<Exclude<JointReading['action'], 'add'>, Fate> = {
  remove: 'removed',
  pull: 'pulled',
  cut: 'cut',
  left: 'left',
  lost: 'lost',
};

/**
 * Takes an item out: the one labelled so, else the topmost of its kind. What is left or lost takes everything below it
 * along. A cut shortens the joint by the length cut off; without a length the whole item counts as cut and out.
 */
export function takeItem(string: PipeString, reading: JointReading, makeup_loss_m: number): StringChange {
  const action = reading.action as keyof typeof FATES;
  const fate = FATES[action];
  if (reading.item === 'drive_head') {
    const head = headOf(string, reading);
    if (head === undefined) return { ok: false, reason: 'absent' };
    string.heads = string.heads.filter((h) => h !== head);
    Object.assign(head, { fate, fate_row_id: reading.row_id });
    return { ok: true, outOfOrder: [], gone: [head] };
  }
  const { items } = string;
  const as = (is: typeof matches) => items.findLastIndex((item) => is(item, reading));
  const exact = as(matches);
  const at = exact < 0 ? as(matchesLoosely) : exact;
  if (at < 0) {
    // told item by item, what hung on a lost joint is already lost
    const known = string.account.some(
      (i) => i.fate === fate && (matches(i, reading) || matchesLoosely(i, reading)),
    );
    if (known && (fate === 'left' || fate === 'lost')) return { ok: true, outOfOrder: [], gone: [] };
    return { ok: false, reason: 'absent' };
  }
  const item = items[at]!;
  if (action === 'cut' && reading.length_m !== null && item.length_m !== null) {
    item.cut_m = Math.min(item.length_m, item.cut_m + reading.length_m);
    return { ok: true, outOfOrder: items.slice(at + 1), gone: [] };
  }
  const below = action === 'left' || action === 'lost';
  const gone = below ? items.splice(0, at + 1) : items.splice(at, 1);
  for (const g of gone) {
    g.fate = fate;
    g.fate_row_id = reading.row_id;
    g.in_ground_m = 0;
  }
  if (below) stayMadeUp(gone, makeup_loss_m);
  return { ok: true, outOfOrder: below ? [] : items.slice(at), gone };
}

/** The one with its label, else the one on the collar: there is only one. */
const headOf = ({ heads }: PipeString, reading: JointReading): AccountItem | undefined =>
  heads.findLast((h) => matches(h, reading)) ??
  heads.findLast((h) => matchesLoosely(h, reading)) ??
  heads.at(-1);

function matches(item: AccountItem, reading: JointReading): boolean {
  return item.item === reading.item && (reading.label === null || item.label === reading.label);
}

/** "a1" is A1, where nothing in the string is labelled "a1". */
function matchesLoosely(item: AccountItem, reading: JointReading): boolean {
  if (item.item !== reading.item || item.label === null || reading.label === null) return false;
  return sameLabel(item.label) === sameLabel(reading.label);
}

/** A painted label whichever way it is typed: " a1 " and "A1" are one. */
export const sameLabel = (label: string): string => label.trim().replace(/\s+/g, ' ').toUpperCase();

/** Closes the account: in a hole that has ended, whatever is still in the string is missing. */
export function closeAccount(string: PipeString, ended: boolean, makeup_loss_m: number): AccountItem[] {
  for (const item of [...string.items, ...string.heads]) {
    item.fate = ended ? 'missing' : 'in the string';
    item.in_ground_m = 0;
  }
  stayMadeUp(string.items, makeup_loss_m);
  return string.account;
}

/** What each of `items`, from the lowest up and still made up, adds to the pipe in the ground. */
function stayMadeUp(items: readonly AccountItem[], makeup_loss_m: number): void {
  let below = 0;
  for (const item of items) {
    const overlap = threaded(item) && below > 0 ? threadLoss(item, makeup_loss_m) : 0;
    item.in_ground_m = Math.max(0, (lengthNow(item) ?? 0) - overlap);
    if (threaded(item)) below++;
  }
}
