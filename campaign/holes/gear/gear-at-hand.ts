/** What the tables of gear say is at hand: pieces by their number, cable and fuel by the amount in their label. */
import type { GearItem } from '../gear-inventory.ts';

export interface AtHand {
  /** Null where nothing of the kind is recorded, or its amount is not stated. */
  amount: number | null;
  /** "sampler cable, 30 m"; what is lost or damaged is named as such. */
  words: string;
}

export const NOT_RECORDED: AtHand = { amount: null, words: 'not recorded' };

type IsMeant = (item: GearItem) => boolean;

const names = (items: readonly GearItem[]): string =>
  items
    .map(({ gear, count, whereabouts, hole }) =>
      [
        count === null || count === 1 ? gear : `${count} × ${gear}`,
        ...(whereabouts === 'at hand' ? [] : [hole === null ? whereabouts : `${whereabouts} in ${hole}`]),
      ].join(' '),
    )
    .join('; ');

function handOf(
  gear: readonly GearItem[],
  isMeant: IsMeant,
  sum: (found: readonly GearItem[]) => number | null,
): AtHand {
  const found = gear.filter(isMeant);
  if (found.length === 0) return NOT_RECORDED;
  return { amount: sum(found.filter((i) => i.whereabouts === 'at hand')), words: names(found) };
}

const piecesOf = ({ count }: GearItem): number => count ?? 1;

/** Pieces that can be taken. */
export const countAtHand = (gear: readonly GearItem[], isMeant: IsMeant): AtHand =>
  handOf(gear, isMeant, (found) => found.reduce((sum, item) => sum + piecesOf(item), 0));

/** The longest single one, m: two cables of 20 m do not reach 40 m. */
export const longestAtHand = (gear: readonly GearItem[], isMeant: IsMeant): AtHand =>
  handOf(gear, isMeant, (found) =>
    amountOf(found, 'm', (amounts) => Math.max(0, ...amounts.map(({ each }) => each))),
  );

/** Litres of all of them together. */
export const litresAtHand = (gear: readonly GearItem[], isMeant: IsMeant): AtHand =>
  handOf(gear, isMeant, (found) =>
    amountOf(found, 'L', (amounts) =>
      amounts.reduce((sum, { each, item }) => sum + each * piecesOf(item), 0),
    ),
  );

/** Null where one of them does not state its amount. */
function amountOf(
  found: readonly GearItem[],
  unit: 'm' | 'L',
  sum: (amounts: readonly { item: GearItem; each: number }[]) => number,
): number | null {
  const amounts = found.map((item) => ({ item, each: statedIn(item.gear, unit) }));
  if (amounts.some(({ each }) => each === null)) return null;
  return sum(amounts.map(({ item, each }) => ({ item, each: each! })));
}

/** "sampler cable, 30 m" → 30; null where the label states no such amount. */
function statedIn(label: string, unit: 'm' | 'L'): number | null {
  const [, number] =
    new RegExp(`(\\d+(?:[.,]\\d+)?) ?${unit}(?![\\w²³])`, unit === 'L' ? 'i' : '').exec(label) ?? [];
  return number === undefined ? null : Number(number.replace(',', '.'));
}
