/** Files into one archive. */
import { zipBlob } from '@stillstand/campaign/document';
import type { PackedFile } from './protocol.ts';

export async function zipped(files: readonly PackedFile[]): Promise<Blob> {
  return await zipBlob(inTurn());

  async function* inTurn(): AsyncGenerator<readonly [path: string, bytes: Uint8Array]> {
    for (const [path, content] of files) yield [path, new Uint8Array(await content.arrayBuffer())];
  }
}
