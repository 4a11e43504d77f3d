/** Who has read in this campaign, ready to be pressed instead of typed. */
import type { RowSource } from '@stillstand/campaign/holes';
import { ready } from './field.ts';

export function readers(source: RowSource): ReturnType<typeof ready> {
  const seen = new Set<string>();
  for (const table of ['soundings', 'drives', 'runs', 'string_items'] as const) {
    for (const { cells } of source.rows(table)) if (cells['by']) seen.add(cells['by']);
  }
  return ready([...seen].slice(0, 8));
}
