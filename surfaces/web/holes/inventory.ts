/** The pipe of the open campaign: which labelled items can go into a string now, and where the others are. */
import { type PipeItem, pipeInventory } from '@stillstand/campaign/holes';
import { partReader, type RowSource } from './part-of.ts';

const read = partReader(['settings', 'joints']);

/** One entry for each label of each kind of item. */
export const inventoryOf = (source: RowSource): PipeItem[] => pipeInventory(read(source));
