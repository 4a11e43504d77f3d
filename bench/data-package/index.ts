/** The data package of the demo, without photographs and with a season of them: seconds, size, and memory beyond before. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseCampaign, zipChunks } from '@stillstand/campaign/document';
import { computeCampaign, curvesNeeded } from '@stillstand/campaign/steps';
import { openFiles } from '@stillstand/campaign/versions';
import { dataPackage, type Photographs } from '@stillstand/output/data-package';
import { writeGeoPackage } from '@stillstand/output/geopackage';
import { loadCurves } from '@stillstand/published/curves';

export interface DataPackageBench {
  /** With SQLite loaded for it, and once it is loaded. */
  first_geopackage_s: number;
  geopackage_s: number;
  geopackage_megabytes: number;
  package_s: number;
  package_megabytes: number;
  photographs: number;
  with_photographs_s: number;
  with_photographs_megabytes: number;
  /** Most that the photographs add to the resident memory while the archive is written. */
  added_megabytes: number;
}

const DEMO = join(import.meta.dirname, '..', '..', 'demo', 'campaign');
/** As a telephone takes them. */
const PHOTOGRAPHS = 100;
const PHOTOGRAPH_BYTES = 4_000_000;

export async function benchDataPackage(): Promise<DataPackageBench> {
  const files = readdirSync(DEMO).map(
    (name) => [name, new Uint8Array(readFileSync(join(DEMO, name)))] as const,
  );
  const { document } = openFiles(new Map(files));
  const { campaign, problems } = parseCampaign(document);
  const curves = await loadCurves(curvesNeeded(campaign));
  const { results } = computeCampaign(campaign, { curves }, problems, { withCurve: true });
  const first = await timed(() => writeGeoPackage(results));
  const again = await timed(() => writeGeoPackage(results));
  const packed = (photographs: Photographs) =>
    timed(() => written({ document, results, geopackage: again.made, photographs }));
  const without = await packed({ named: [], read: null });
  const photographs = await packed({
    named: Array.from({ length: PHOTOGRAPHS }, (_, i) => `photos/${i}.jpg`),
    read: async () => new Uint8Array(PHOTOGRAPH_BYTES),
  });
  return {
    first_geopackage_s: first.seconds,
    geopackage_s: again.seconds,
    geopackage_megabytes: again.made.length / 1e6,
    package_s: without.seconds,
    package_megabytes: without.made.bytes / 1e6,
    photographs: PHOTOGRAPHS,
    with_photographs_s: photographs.seconds,
    with_photographs_megabytes: photographs.made.bytes / 1e6,
    added_megabytes: photographs.made.most / 1e6,
  };
}

/** The archive as it goes to the disk, chunk by chunk; nothing of it is kept. */
async function written(toPack: Parameters<typeof dataPackage>[0]): Promise<{ bytes: number; most: number }> {
  const before = process.memoryUsage.rss();
  let bytes = 0;
  let most = 0;
  for await (const chunk of zipChunks(dataPackage(toPack))) {
    bytes += chunk.length;
    most = Math.max(most, process.memoryUsage.rss() - before);
  }
  return { bytes, most };
}

async function timed<T>(work: () => Promise<T>): Promise<{ made: T; seconds: number }> {
  const began = performance.now();
  const made = await work();
  return { made, seconds: (performance.now() - began) / 1000 };
}
