/** One archive in, one document out. */
import { type CampaignDocument, rowIds } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import { openZip } from '@stillstand/campaign/versions';

export interface Unpacked {
  document: CampaignDocument;
  read_only: boolean;
  problems: Problem[];
  /** Identity of rows by table and line. */
  row_ids: ReadonlyMap<string, ReadonlyMap<number, string>>;
}

self.onmessage = async (event: MessageEvent<Blob>): Promise<void> => {
  try {
    const opened = openZip(new Uint8Array(await event.data.arrayBuffer()));
    self.postMessage({ ...opened, row_ids: rowIds(opened.document) } satisfies Unpacked);
  } catch (error) {
    // A file that was moved or whose disk was taken out; openZip itself never throws.
    self.postMessage({ failure: error instanceof Error ? error.message : String(error) });
  }
};
