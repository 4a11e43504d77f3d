/** A campaign as one zip, photo by photo, so that a season of photos need not stand in memory at once. */
import { type CampaignDocument, writeFiles, zipBlob } from '@stillstand/campaign/document';

export async function packed(
  document: CampaignDocument,
  paths: readonly string[],
  file: (path: string) => Promise<Blob | null>,
): Promise<Blob> {
  return await zipBlob(all());

  async function* all(): AsyncGenerator<readonly [path: string, bytes: Uint8Array]> {
    yield* writeFiles(document);
    for (const path of paths) {
      const blob = await file(path);
      if (blob !== null) yield [path, new Uint8Array(await blob.arrayBuffer())];
    }
  }
}
