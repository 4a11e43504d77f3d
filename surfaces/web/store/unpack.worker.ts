/** One archive in, one campaign out, with its history. */
import { type CampaignDocument, rowIds } from '@stillstand/campaign/document';
import { replicaOf } from '@stillstand/campaign/history';
import type { Problem } from '@stillstand/campaign/problems';
import { actsOf } from '@stillstand/campaign/replica';
import { openZip } from '@stillstand/campaign/versions';
import * as Y from 'yjs';
import { lastWritten, type Written } from './last-written.ts';

export interface Unpacked {
  document: CampaignDocument;
  read_only: boolean;
  problems: Problem[];
  /** Who wrote last in it. */
  written: Written | null;
  /** What the device keeps: the tables, with their history where there is one. */
  update: Uint8Array;
}

self.onmessage = async (event: MessageEvent<Blob>): Promise<void> => {
  try {
    const opened = openZip(new Uint8Array(await event.data.arrayBuffer()));
    const { doc, document, problems } = replicaOf(opened, rowIds(opened.document));
    self.postMessage({
      document,
      read_only: opened.read_only,
      problems: [...opened.problems, ...problems],
      written: lastWritten(document, actsOf(doc).all()),
      update: Y.encodeStateAsUpdate(doc),
    } satisfies Unpacked);
  } catch (error) {
    // A file that was moved or whose disk was taken out; openZip itself never throws.
    self.postMessage({ failure: error instanceof Error ? error.message : String(error) });
  }
};
