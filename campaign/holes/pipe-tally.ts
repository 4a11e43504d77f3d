/** What became of items of pipe that went into a hole, each in one list, and how such a list is said. */
import type { Campaign } from '@stillstand/campaign/document';
import type { AccountItem } from '@stillstand/science/rig';
import { isBack, type Use, whereaboutsOf } from './pipe-records.ts';

/** One item of one hole. */
export interface TallyItem {
  hole: string;
  item: AccountItem['item'];
  /** What is painted on it; null where nothing is. */
  label: string | null;
  /** End to end when it went in; null where it was not measured. */
  length_m: number | null;
  /** Row that added it. */
  row_id: string;
}

/** What became of items, each in one list. */
export interface PipeTally {
  /** Came back whole, and nobody found it damaged. */
  back: TallyItem[];
  /** Came back, damaged. */
  damaged: TallyItem[];
  /** Cut up, or came back cut. */
  cut: TallyItem[];
  left: TallyItem[];
  lost: TallyItem[];
  /** Still in the string of a hole that goes on. */
  inString: TallyItem[];
  /** In the string when the hole ended, and nobody said what became of it. */
  unaccounted: TallyItem[];
}

export const emptyTally = (): PipeTally => ({
  back: [],
  damaged: [],
  cut: [],
  left: [],
  lost: [],
  inString: [],
  unaccounted: [],
});

export const tallyItem = (hole: string, { item, label, length_m, row_id }: AccountItem): TallyItem => ({
  hole,
  item,
  label,
  length_m,
  row_id,
});

/** "shoe S1; joints J1, J2 and 3 without a label". */
export function itemsWords(items: readonly { item: string; label: string | null }[]): string {
  return [...Map.groupBy(items, ({ item }) => item)]
    .map(([item, of]) => {
      const labels = of.flatMap(({ label }) => (label === null || label === '' ? [] : [label]));
      const bare = of.length - labels.length;
      const name = item.replaceAll('_', ' ') + (of.length > 1 ? 's' : '');
      if (labels.length === 0) return of.length === 1 ? name : `${of.length} ${name}`;
      return `${name} ${labels.join(', ')}${bare > 0 ? ` and ${bare} without a label` : ''}`;
    })
    .join('; ');
}

export const conditionsOf = ({
  rows,
}: Pick<Campaign, 'rows'>): ReadonlyMap<string, 'sound' | 'damaged' | null> =>
  new Map(rows.string_items.map(({ row_id, condition }) => [row_id, condition]));

/** The list of an item of one hole; `isEnding`: as if the hole ended now. */
export function fateOf(
  added: AccountItem,
  conditions: ReturnType<typeof conditionsOf>,
  isEnding = false,
): keyof PipeTally {
  const where = whereaboutsOf(added);
  if (where === 'in string' && isEnding) return 'unaccounted';
  const found = conditions.get(added.fate_row_id ?? '') ?? conditions.get(added.row_id);
  return isBack({ whereabouts: where }) && found === 'damaged' ? 'damaged' : LIST_OF[where];
}

const LIST_OF: Record<Use['whereabouts'], keyof PipeTally> = {
  'in string': 'inString',
  pulled: 'back',
  shortened: 'cut',
  cut: 'cut',
  left: 'left',
  lost: 'lost',
  missing: 'unaccounted',
};
