/** Which item of pipe is offered for the string: sound ones at hand, else the next label of a series. */

import {
  type HoleState,
  inventoryOf,
  type PipeItem,
  type RowSource,
  whereWords,
} from '@stillstand/campaign/holes';
import { capital } from '@stillstand/campaign/tables';
import { itemName, sameLabel } from '@stillstand/science/rig';
import { t, translated } from '../../../language/index.ts';

export interface Offer {
  label: string;
  item: PipeItem['item'];
  /** Its length as it was typed; empty where it must be measured. */
  typed: string;
}

/**
 * Pipe at hand: not in any string, not damaged, lost, left or missing. The stock in its order, then what was used last;
 * what was cut and must be measured again comes after the others.
 */
export function offersOf(source: RowSource, now: HoleState): Offer[] {
  const isFirst = now.string.length === 0;
  const typed = {
    string_items: new Map(source.rows('string_items').map((r) => [r.row_id, r.cells['length'] ?? ''])),
    pipe_stock: new Map(source.rows('pipe_stock').map((r) => [r.row_id, r.cells['length'] ?? ''])),
  };
  const items = inventoryOf(source).filter((i) => i.isAtHand && (i.item === 'shoe') === isFirst);
  const isListed = (i: PipeItem): boolean => i.stock_row_id !== null;
  const unlisted = items
    .filter((i) => !isListed(i))
    .sort((a, b) => Number(b.time_ms > a.time_ms) - Number(b.time_ms < a.time_ms));
  const inOrder = [...items.filter(isListed), ...unlisted];
  const isCut = (i: PipeItem): boolean => i.whereabouts === 'shortened';
  return [...inOrder.filter((i) => !isCut(i)), ...inOrder.filter(isCut)].map((i) => ({
    label: i.label,
    item: i.item,
    typed:
      i.length_in === null
        ? ''
        : (typed[i.length_in].get((i.length_in === 'pipe_stock' ? i.stock_row_id : i.row_id) ?? '') ?? ''),
  }));
}

/**
 * Where labels run A1, A2, A3, the next one that no item has; null where nothing runs. The series is that of the item of
 * this kind that went into the string last, else anywhere.
 */
export function nextOfSeries(source: RowSource, now: HoleState, item: PipeItem['item']): string | null {
  const known = inventoryOf(source).filter((i) => i.item === item);
  const inString = now.string.findLast((i) => i.item === item && i.label !== null)?.label;
  const last = inString ?? known.findLast((i) => i.row_id !== null)?.label;
  const parts = /^(.*?)(\d{1,6})$/.exec(last?.trim() ?? '');
  if (parts === null) return null;
  const [, prefix = '', digits = ''] = parts;
  const taken = new Set(known.map((i) => sameLabel(i.label)));
  for (let n = Number(digits) + 1; ; n++) {
    const label = prefix + String(n).padStart(digits.length, '0');
    if (!taken.has(sameLabel(label))) return label;
  }
}

/** What is doubtful about putting the item with this label into the string: null, or where it is and what it is like. */
export function itemDoubt(source: RowSource, label: string, item: string): string | null {
  const found = inventoryOf(source).find((i) => i.item === item && sameLabel(i.label) === sameLabel(label));
  if (found === undefined || found.isAtHand) return null;
  const says = t`${capital(translated(itemName(found)))} is ${translated(whereWords(found))}.`;
  return found.whereabouts === 'damaged' || found.hole === null
    ? t`${says} Use another, or inspect it first.`
    : t`${says} Another label?`;
}
