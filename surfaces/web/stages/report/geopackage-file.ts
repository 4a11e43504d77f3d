/** Results that were written, as a GeoPackage; SQLite is loaded for it and let go again. */
import type { Answered, WrittenResults } from './geopackage.worker.ts';

export function geopackageOf({ results, arrays }: WrittenResults): Promise<Blob> {
  const thread = new Worker(new URL('./geopackage.worker.ts', import.meta.url), { type: 'module' });
  return new Promise<Blob>((done, failed) => {
    thread.onmessage = ({ data }: MessageEvent<Answered>) =>
      'file' in data ? done(data.file) : failed(new Error(data.failure));
    thread.onerror = (event) => failed(new Error(event.message));
    thread.postMessage({ results, arrays } satisfies WrittenResults);
  }).finally(() => thread.terminate());
}
