/** A campaign as one zip, photo by photo, so that a season of photos need not stand in memory at once. */
import { type CampaignDocument, writeFiles, zipPacker } from '@stillstand/campaign/document';

export async function packed(
  document: CampaignDocument,
  paths: readonly string[],
  file: (path: string) => Promise<Blob | null>,
): Promise<Blob> {
  let chunks: Uint8Array<ArrayBuffer>[] = [];
  let archive = new Blob([], { type: 'application/zip' });
  const zip = zipPacker((chunk) => chunks.push(chunk as Uint8Array<ArrayBuffer>));
  const setDown = (): void => {
    archive = new Blob([archive, ...chunks], { type: 'application/zip' });
    chunks = [];
  };
  for (const [path, bytes] of writeFiles(document)) zip.add(path, bytes);
  setDown();
  for (const path of paths) {
    const blob = await file(path);
    if (blob === null) continue;
    zip.add(path, new Uint8Array(await blob.arrayBuffer()));
    setDown();
  }
  zip.end();
  setDown();
  return archive;
}
