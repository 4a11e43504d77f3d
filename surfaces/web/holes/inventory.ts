/** The pipe of the open campaign: which labelled items can go into a string now, and where the others are. */
import { type PipeItem, partReader, pipeInventory, type RowSource } from '@stillstand/campaign/holes';

const read = partReader(['settings', 'string_items']);

/** One entry for each label of each kind of item. */
export const inventoryOf = (source: RowSource): PipeItem[] => pipeInventory(read(source));
