/** All that is known of each item of pipe: its row in the stock, its trips into holes, what was found of its condition. */
import type { Campaign } from '@stillstand/campaign/document';
import { momentOf, type Row } from '@stillstand/campaign/tables';
import { type AccountItem, reduceHole, rigDefaults } from '@stillstand/science/rig';
import type { Moment } from './pipe-order.ts';
import { itemKey, keyOfReading, stockByItem } from './pipe-stock.ts';
import { remembered } from './remembered.ts';
import { hasEnded, rigEntries } from './rig-readings.ts';

/** One trip of an item into a hole. */
export interface Use extends Moment {
  hole: string;
  added: AccountItem & { label: string };
  /** `pulled`: it came back whole. `shortened`: it came back cut. */
  whereabouts: 'in string' | 'pulled' | 'shortened' | 'cut' | 'left' | 'lost' | 'missing';
}

export type Condition = NonNullable<Row<'pipe_stock'>['condition']>;

/** Somebody said how an item is: where it came out of a hole, or in the stock. */
export interface Finding extends Moment {
  condition: Condition;
}

/** All that is known of one item. */
export interface ItemRecord {
  key: string;
  stock: Row<'pipe_stock'> | null;
  uses: Use[];
  findings: Finding[];
}

type Tables = Pick<Campaign, 'rows' | 'skipped_rows'>;

/** Readings of other tables are no items: they enter neither the account nor its order. */
export const itemRecords = remembered(
  ({ rows, skipped_rows }: Tables) => [rows.holes, rows.pipe_stock, rows.string_items, skipped_rows],
  readItems,
);

function readItems(campaign: Tables): ItemRecord[] {
  const { holes, pipe_stock, string_items } = campaign.rows;
  const rows = new Map(string_items.map((row) => [row.row_id, row]));
  const timeOf = (row_id: string | null): number =>
    momentOf(rows.get(row_id ?? '')?.time ?? '') ?? Number.NaN;
  const items = new Map<string, ItemRecord>();
  for (const [key, stock] of stockByItem(pipe_stock)) {
    const findings: Finding[] =
      stock.condition === null
        ? []
        : [
            {
              hole: null,
              line: 0,
              time_ms: momentOf(stock.condition_at ?? '') ?? Number.NaN,
              condition: stock.condition,
            },
          ];
    items.set(key, { key, stock, uses: [], findings });
  }
  let line = 0;
  for (const { hole, state } of holes) {
    const readings = rigEntries(campaign, hole).flatMap(({ reading }) =>
      reading.kind === 'joint' ? [reading] : [],
    );
    if (readings.length === 0) continue;
    const { account } = reduceHole(readings, { ...rigDefaults, ended: hasEnded(state) });
    for (const added of account) {
      const label = added.label?.trim() ?? '';
      const row = rows.get(added.row_id);
      const key = row === undefined ? itemKey(added.item, label) : keyOfReading(row, label);
      if (key === null || label === '') continue;
      const record = items.get(key) ?? { key, stock: null, uses: [], findings: [] };
      items.set(key, record);
      const at = { hole, line: line++, time_ms: timeOf(added.row_id) };
      record.uses.push({ ...at, added: { ...added, label }, whereabouts: whereaboutsOf(added) });
      for (const row_id of [added.row_id, added.fate_row_id]) {
        const condition = rows.get(row_id ?? '')?.condition ?? null;
        if (condition === null) continue;
        // it came out after it went in, and before the next item goes in
        const isOut = row_id === added.fate_row_id;
        record.findings.push({
          hole,
          line: at.line + (isOut ? 0.5 : 0),
          time_ms: timeOf(row_id),
          condition,
        });
      }
    }
  }
  return [...items.values()];
}

/** Where the readings of its hole leave an item. */
export function whereaboutsOf({ fate, cut_m }: AccountItem): Use['whereabouts'] {
  switch (fate) {
    case 'in the string':
      return 'in string';
    case 'removed':
    case 'pulled':
      return cut_m > 0 ? 'shortened' : 'pulled';
    default:
      return fate;
  }
}

/** It came out, whole or cut. */
export const isBack = ({ whereabouts }: Pick<Use, 'whereabouts'>): boolean =>
  whereabouts === 'pulled' || whereabouts === 'shortened';
