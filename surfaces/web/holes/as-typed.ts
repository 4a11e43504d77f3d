/** The open campaign as rows that were typed. */
import type { RowSource } from '@stillstand/campaign/holes';
import type { Store } from '../store/index.ts';

/** The store as it is typed, each table with the way its file writes numbers. */
export const asTyped = (store: Pick<Store, 'rows' | 'document'>): RowSource => ({
  rows: store.rows,
  dialect: (table) => store.document().tables.get(table)?.dialect,
});
