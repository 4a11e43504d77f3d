/**
 * The history of a campaign as a file next to its tables, and its earlier states. The tables are what counts: a campaign
 * without this file opens everywhere, and one with it opens as its tables say.
 */
export { HISTORY_PATH } from '@stillstand/campaign/document';
export { documentAfter } from './document-after.ts';
export { historyBytes, MOST_HISTORY_BYTES, withHistory } from './history-file.ts';
export { historyTooLarge, type Replica, replicaOf } from './open.ts';
export { MOST_ACTS, trimActs } from './trim.ts';
