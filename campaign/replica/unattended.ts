/** An open document that is written without a screen: by a merge, a command, a device in a test. Nobody is told. */
import type * as Y from 'yjs';
import { type Acts, actsOf } from './acts.ts';
import { editing } from './editing.ts';
import type { Writer } from './new-reading.ts';
import { type Reader, reader } from './reader.ts';

export interface Unattended extends Reader {
  acts: Acts;
  edits: ReturnType<typeof editing>;
}

/** What is written is by `writer`. */
export function unattended(doc: Y.Doc, writer: Writer): Unattended {
  const { read, document, forget } = reader(doc);
  const acts = actsOf(doc);
  const nothing = (): void => undefined;
  const edits = editing({ doc, acts, read, forget, demandWritable: nothing, tell: nothing, writer });
  return { read, document, forget, acts, edits };
}
