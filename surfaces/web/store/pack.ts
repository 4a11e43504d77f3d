/** A campaign as one zip, photo by photo, so that a season of photos need not be in memory at once. */
import {
  type CampaignDocument,
  leftOutList,
  leftOutPaths,
  PHOTOS_LEFT_OUT,
  writeFiles,
  zipBlob,
} from '@stillstand/campaign/document';

/** `leave`: files that stay behind; the copy says which, and those that an earlier copy left behind and are not here. */
export async function packed(
  document: CampaignDocument,
  paths: readonly string[],
  file: (path: string) => Promise<Blob | null>,
  leave: ReadonlySet<string> = new Set(),
): Promise<Blob> {
  const earlier = paths.includes(PHOTOS_LEFT_OUT) ? await file(PHOTOS_LEFT_OUT) : null;
  const gone = earlier === null ? [] : leftOutPaths(await earlier.text());
  const missing = new Set([...gone.filter((path) => !paths.includes(path)), ...leave]);
  return await zipBlob(all());

  async function* all(): AsyncGenerator<readonly [path: string, bytes: Uint8Array]> {
    yield* writeFiles(document);
    for (const path of paths) {
      if (path === PHOTOS_LEFT_OUT || leave.has(path)) continue;
      const blob = await file(path);
      if (blob !== null) yield [path, new Uint8Array(await blob.arrayBuffer())];
    }
    if (missing.size > 0) yield [PHOTOS_LEFT_OUT, new TextEncoder().encode(leftOutList([...missing]))];
  }
}
