/** Bytes one after another. */
export function concatenated(chunks: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const all = new Uint8Array(chunks.reduce((sum, chunk) => sum + chunk.length, 0));
  let at = 0;
  for (const chunk of chunks) {
    all.set(chunk, at);
    at += chunk.length;
  }
  return all;
}
