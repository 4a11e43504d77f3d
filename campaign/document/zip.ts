/** The same files as one `.zip` (PKWARE APPNOTE 6.3.10). Writing is fflate's. */
import { type Problem, problem } from '@stillstand/campaign/problems';
import { Zip, ZipDeflate, ZipPassThrough } from 'fflate';
import { concatenated } from './concatenated.ts';
import type { CampaignDocument } from './document.ts';
import { PACKAGE_PATH } from './document.ts';
import { isTablePath, readFiles, writeFiles } from './files.ts';
import { unzip, type ZipFault } from './unzip.ts';

/** Where a data package has its campaign, and the file by which it is known for one. */
export const PACKED_CAMPAIGN = 'campaign/';
export const PACKED_CHECKSUMS = 'checksums.txt';

/**
 * Reads a zipped campaign, or the campaign in a data package. Never throws; an entry that is unsafe, damaged or too large
 * is named and left out.
 */
export function readZip(bytes: Uint8Array): { document: CampaignDocument; problems: Problem[] } {
  const unzipped = unzip(bytes);
  const problems = listed(unzipped.faults);
  if (unzipped.files.size === 0 && unzipped.faults.length > 0) {
    return { document: { package: null, tables: new Map(), files: new Map(), source: null }, problems };
  }
  const outer = outerFolder([...unzipped.files.keys(), ...unzipped.notFiles.keys()]);
  // Of a data package the folder is as it should be.
  if (outer !== '' && !outer.endsWith(PACKED_CAMPAIGN)) problems.push(hasOuterFolder(outer));
  const notFiles = [...inside(outer, unzipped.notFiles)].filter(
    ([path, what]) => what !== 'a folder' || (isTablePath(path) && !path.includes('/')),
  );
  const read = readFiles(inside(outer, unzipped.files), new Map(notFiles));
  return { document: read.document, problems: [...problems, ...read.problems] };
}

/** The files of any zip, by path, without a folder that holds all of them (`outerFolder`); what could not be read is a problem. */
export function filesOfZip(bytes: Uint8Array): { files: Map<string, Uint8Array>; problems: Problem[] } {
  const { files, faults } = unzip(bytes);
  const paths = [...files.keys()].filter((path) => !path.startsWith('__MACOSX'));
  const first = /^[^/]+\//.exec(paths[0] ?? '')?.[0] ?? '';
  const outer = first !== '' && paths.every((path) => path.startsWith(first)) ? first : '';
  return { files: inside(outer, files), problems: listed(faults) };
}

/** Of one kind so many are listed and the others counted. */
const LISTED = 50;

function listed(faults: readonly ZipFault[]): Problem[] {
  return [...Map.groupBy(faults, ({ code }) => code).values()].flatMap((same) => {
    const problems = same
      .slice(0, LISTED)
      .map(({ code, found, expected, action }) =>
        problem({ severity: 'error', code, table: 'datapackage', found, expected, fix: action }),
      );
    if (same.length <= LISTED) return problems;
    const [{ code, expected, action }] = same as [ZipFault, ...ZipFault[]];
    const found = `${same.length - LISTED} more of them`;
    return [
      ...problems,
      problem({ severity: 'error', code, table: 'datapackage', found, expected, fix: action }),
    ];
  });
}

/** Packs a document. The same document gives the same bytes: every file is dated 1980-01-01, where zip's time begins. */
export const writeZip = (document: CampaignDocument): Uint8Array => zipOf(writeFiles(document));

/** The same of any files, in their order. */
export function zipOf(files: Iterable<FileToPack>): Uint8Array {
  const chunks: Uint8Array[] = [];
  const zip = zipPacker((chunk) => chunks.push(chunk));
  for (const [path, bytes] of files) zip.add(path, bytes);
  zip.end();
  return concatenated(chunks);
}

type FileToPack = readonly [path: string, bytes: Uint8Array];

/**
 * The same bytes in their order, as one file after another is packed: neither the files nor the archive need be in
 * memory whole.
 */
export async function* zipChunks(
  files: AsyncIterable<FileToPack> | Iterable<FileToPack>,
): AsyncGenerator<Uint8Array, void> {
  let chunks: Uint8Array[] = [];
  const taken = (): Uint8Array[] => {
    const now = chunks;
    chunks = [];
    return now;
  };
  const zip = zipPacker((chunk) => chunks.push(chunk));
  for await (const [path, bytes] of files) {
    zip.add(path, bytes);
    yield* taken();
  }
  zip.end();
  yield* taken();
}

/** Of an archive so much waits in memory until a Blob has it. */
const WAITING = 8 * 1_048_576;

/** The same as a Blob, which a browser may keep on its disk. */
export async function zipBlob(files: AsyncIterable<FileToPack> | Iterable<FileToPack>): Promise<Blob> {
  const type = 'application/zip';
  let archive = new Blob([], { type });
  let chunks: Uint8Array<ArrayBuffer>[] = [];
  let waiting = 0;
  const setDown = (): void => {
    archive = new Blob([archive, ...chunks], { type });
    chunks = [];
    waiting = 0;
  };
  for await (const chunk of zipChunks(files)) {
    chunks.push(chunk as Uint8Array<ArrayBuffer>);
    waiting += chunk.length;
    if (waiting >= WAITING) setDown();
  }
  setDown();
  return archive;
}

function zipPacker(onChunk: (chunk: Uint8Array) => void): {
  add(path: string, bytes: Uint8Array): void;
  end(): void;
} {
  const zip = new Zip((error, chunk) => {
    if (error) throw error;
    onChunk(chunk);
  });
  return {
    add: (path, bytes) => {
      const isPacked = /\.(?:jpe?g|png|webp|heic|mp4|zip|gz)$/i.test(path);
      const file = isPacked ? new ZipPassThrough(path) : new ZipDeflate(path, { level: 6 });
      // biome-ignore lint/plugin: zip keeps the hands of the clock, not the moment: these are the same in every zone
      file.mtime = new Date(1980, 0, 1);
      zip.add(file);
      file.push(bytes, true);
    },
    end: () => zip.end(),
  };
}

/**
 * A folder zipped from outside holds everything one level down: the path of that level, or nothing. What the packing
 * computer added beside it (`__MACOSX`) does not count. Of a data package it is the folder of the campaign.
 */
function outerFolder(all: readonly string[]): string {
  const paths = all.filter((path) => !path.startsWith('__MACOSX'));
  const sums = paths.find((path) => /^(?:[^/]+\/)?checksums\.txt$/.test(path));
  const packed = `${sums?.slice(0, -PACKED_CHECKSUMS.length) ?? ''}${PACKED_CAMPAIGN}`;
  if (sums !== undefined && paths.includes(packed + PACKAGE_PATH)) return packed;
  const slash = paths.find((path) => path.includes('/'))?.indexOf('/') ?? -1;
  const outer = paths.find((path) => path.includes('/'))?.slice(0, slash + 1) ?? '';
  if (outer === '' || !paths.every((path) => path.startsWith(outer) || `${path}/` === outer)) return '';
  const isCampaign = paths.some(
    (path) => path === outer + PACKAGE_PATH || /^[^/]+\/[^/]+\.[ct]sv$/i.test(path),
  );
  return isCampaign ? outer : '';
}

/** What stands below a folder, by the path from there. */
function inside<T>(outer: string, files: ReadonlyMap<string, T>): Map<string, T> {
  return new Map(
    [...files].flatMap(([path, each]) => (path.startsWith(outer) ? [[path.slice(outer.length), each]] : [])),
  );
}

function hasOuterFolder(outer: string): Problem {
  return problem({
    severity: 'note',
    code: 'outer-folder',
    table: 'datapackage',
    found: outer,
    expected: 'the campaign at the top of the archive',
    fix: 'No action needed: the campaign is read from inside that folder.',
  });
}
