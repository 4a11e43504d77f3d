/**
 * Makes one GeoPackage. A worker of its own: SQLite is WebAssembly, which the policy lets this script alone compile
 * (build/policy.ts), and its memory goes with it.
 */
import { readResults } from '@stillstand/campaign/results';
import { GEOPACKAGE_TYPE, writeGeoPackage } from '@stillstand/output/geopackage';

export interface WrittenResults {
  /** results.json and results.npz. */
  results: Blob;
  arrays: Blob;
}

export type Answered = { file: Blob } | { failure: string };

const answer = (message: Answered): void => self.postMessage(message);

self.onmessage = async ({ data }: MessageEvent<WrittenResults>): Promise<void> => {
  try {
    const read = readResults(await data.results.text(), new Uint8Array(await data.arrays.arrayBuffer()));
    if (!read.ok) throw new Error(read.problem.found ?? read.problem.code);
    const bytes = await writeGeoPackage(read.results);
    answer({ file: new Blob([bytes as Uint8Array<ArrayBuffer>], { type: GEOPACKAGE_TYPE }) });
  } catch (error) {
    answer({ failure: error instanceof Error ? error.message : String(error) });
  }
};
