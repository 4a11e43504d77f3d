/** The file next to the tables of a saved campaign that holds how the campaign came about. */
import * as Y from 'yjs';

export const HISTORY_PATH = 'history.yjs';

/** The whole Yjs document in update format v2. One document gives the same bytes every time. */
export const historyBytes = (doc: Y.Doc): Uint8Array => Y.encodeStateAsUpdateV2(doc);
