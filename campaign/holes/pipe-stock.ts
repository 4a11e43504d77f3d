/** The stock of pipe: which row of it an item is, by its label whichever way that is typed, and its own thread loss. */
import type { Campaign } from '@stillstand/campaign/document';
import type { Row } from '@stillstand/campaign/tables';
import { sameLabel } from '@stillstand/science/rig';

type Stock = Campaign['rows']['pipe_stock'];

/** A joint and a shoe may have the same label; "a1 " is A1. */
export const itemKey = (item: string, label: string): string => `${item} ${sameLabel(label)}`;

/** A row of the stock that does not say what it is is a joint. */
export const kindOf = (row: Row<'pipe_stock'>): NonNullable<Row<'pipe_stock'>['item']> => row.item ?? 'joint';

const stockKey = (row: Row<'pipe_stock'>): string => itemKey(kindOf(row), row.stock_item);

/** Rows by item, the first of each; looked up once for each list of rows. */
const byItem = new WeakMap<Stock, ReadonlyMap<string, Row<'pipe_stock'>>>();

export function stockByItem(stock: Stock): ReadonlyMap<string, Row<'pipe_stock'>> {
  const known = byItem.get(stock);
  if (known !== undefined) return known;
  const found = new Map<string, Row<'pipe_stock'>>();
  for (const row of stock) if (!found.has(stockKey(row))) found.set(stockKey(row), row);
  byItem.set(stock, found);
  return found;
}

/** Rows of the stock whose item an earlier row is already. */
export const stockTwice = (stock: Stock): Row<'pipe_stock'>[] =>
  stock.filter((row) => stockByItem(stock).get(stockKey(row)) !== row);

/** Which item a reading of the string is about: the one of the stock it names, else the one with its label. */
export function keyOfReading(
  row: Pick<Row<'string_items'>, 'item' | 'stock_item'>,
  label: string | null,
): string | null {
  const name = (row.stock_item ?? label ?? '').trim();
  return name === '' ? null : itemKey(row.item, name);
}

/** The row of the stock of the item that a reading is about; null where the stock does not have it. */
export function stockRowOf(stock: Stock, row: Row<'string_items'>): Row<'pipe_stock'> | null {
  if (stock.length === 0) return null;
  const key = keyOfReading(row, row.joint);
  return key === null ? null : (stockByItem(stock).get(key) ?? null);
}

/** Length lost in the thread of an item that is added, m, where its row of the stock states one. */
export const ownThreadLoss = (stock: Stock, row: Row<'string_items'>): number | null =>
  row.action === 'add' ? (stockRowOf(stock, row)?.makeup_loss_m ?? null) : null;
