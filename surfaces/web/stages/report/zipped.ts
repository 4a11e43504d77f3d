/** Files into one archive. */
import { zipPacker } from '@stillstand/campaign/document';
import type { PackedFile } from './protocol.ts';

export async function zipped(files: readonly PackedFile[]): Promise<Blob> {
  const chunks: Uint8Array<ArrayBuffer>[] = [];
  const zip = zipPacker((chunk) => chunks.push(chunk as Uint8Array<ArrayBuffer>));
  for (const [path, content] of files) zip.add(path, new Uint8Array(await content.arrayBuffer()));
  zip.end();
  return new Blob(chunks, { type: 'application/zip' });
}
