/** The pipe of a campaign as it is typed: which labelled items can go into a string now, and where the others are. */
import { partReader } from './part-reader.ts';
import { type PipeItem, pipeInventory } from './pipe-inventory.ts';
import type { RowSource } from './row-source.ts';

const read = partReader(['settings', 'pipes', 'pipe_stock', 'string_items']);

/** One entry for each label of each kind of item. */
export const inventoryOf = (source: RowSource): PipeItem[] => pipeInventory(read(source));
