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
  const opened = openZip(new Uint8Array(await event.data.arrayBuffer()));
  const unpacked: Unpacked = { ...opened, row_ids: rowIds(opened.document) };
  self.postMessage(unpacked);
};
