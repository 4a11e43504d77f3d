/** Every number of some results, each with its place, as one digest: words may change, numbers may not. */
import { createHash, type Hash } from 'node:crypto';
import type { Results } from '@stillstand/campaign/results';

export function digestOfNumbers(results: Results): string {
  const hash = createHash('sha256');
  const { problems: _, ...rest } = results;
  take(hash, '', rest);
  return hash.digest('hex');
}

function take(hash: Hash, place: string, value: unknown): void {
  if (typeof value === 'number') hash.update(`${place} ${Object.is(value, -0) ? '-0' : value}\n`);
  else if (ArrayBuffer.isView(value)) {
    hash.update(`${place} `).update(new Uint8Array(value.buffer, value.byteOffset, value.byteLength));
  } else if (typeof value === 'object' && value !== null) {
    for (const [name, member] of Object.entries(value)) take(hash, `${place}/${name}`, member);
  }
}
