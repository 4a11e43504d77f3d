/** The pipe of the open campaign: which labelled items can go into a string now, and where the others are. */
import { type PipeItem, pipeInventory } from '@stillstand/campaign/holes';
import { partReader, type TypedRows } from './part-of.ts';

const read = partReader(['settings', 'joints']);
let kept: { of: object; items: PipeItem[] } | null = null;

/** One entry for each label of each kind of item. */
export function inventoryOf(source: TypedRows): PipeItem[] {
  const part = read(source);
  if (kept?.of !== part) kept = { of: part, items: pipeInventory(part) };
  return kept.items;
}
