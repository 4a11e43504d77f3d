/**
 * The same files as one `.zip` (PKWARE APPNOTE 6.3.10). The central directory is read here, because what guards
 * against a hostile or torn archive stands in it: names, sizes and checksums; inflating and writing are fflate's.
 */

import { type Problem, problem } from '@stillstand/campaign/problems';
import { power } from '@stillstand/science/base';
import { inflateSync, Zip, ZipDeflate, ZipPassThrough } from 'fflate';
import type { CampaignDocument } from './document.ts';
import { PACKAGE_PATH } from './document.ts';
import { readFiles, writeFiles } from './files.ts';
import { unsafePath } from './path.ts';

/** All files of one archive together may unpack to so much. */
const MOST_BYTES = power(2, 30);
const MOST_FILES = 100_000;
/** Deflate (RFC 1951) cannot pack tighter than 258 bytes into 2 bits. */
const TIGHTEST = 1032;

interface Entry {
  name: string;
  flags: number;
  method: number;
  crc: number;
  packed: number;
  size: number;
  header: number;
}

/** Reads a zipped campaign. Never throws; an entry that is unsafe, torn or too large is named and left out. */
export function readZip(bytes: Uint8Array): { document: CampaignDocument; problems: Problem[] } {
  const problems: Problem[] = [];
  const files = new Map<string, Uint8Array>();
  const entries = directory(bytes);
  if (entries === null) {
    problems.push(
      refused('not-a-zip', `${bytes.length} bytes`, 'a zip archive', 'Look whether the file arrived whole.'),
    );
    return { document: { package: null, tables: new Map(), files, source: null }, problems };
  }
  let total = 0;
  for (const entry of entries) {
    if (entry.name.endsWith('/')) continue;
    const why = unsafePath(entry.name);
    if (why !== null) {
      problems.push(
        refused('unsafe-path', entry.name, `a path inside the campaign; ${why}`, 'It is left out.'),
      );
      continue;
    }
    if (files.has(entry.name)) {
      problems.push(
        refused(
          'file-twice',
          entry.name,
          'each file once',
          'Only the first is read: pack the campaign again.',
        ),
      );
      continue;
    }
    total += entry.size;
    if (total > MOST_BYTES || files.size >= MOST_FILES || entry.size > entry.packed * TIGHTEST + 1024) {
      problems.push(
        refused(
          'too-large',
          `${entry.name} of ${entry.size} bytes (${entry.packed} packed)`,
          `at most ${MOST_BYTES / power(2, 20)} MiB and ${MOST_FILES} files in all`,
          'It is left out, with what follows: open the campaign as a folder instead.',
        ),
      );
      break;
    }
    const unpacked = unpack(bytes, entry);
    if (unpacked === null) {
      problems.push(
        refused(
          'torn-file',
          entry.name,
          'a file whose checksum is right',
          'It is left out: get the archive again.',
        ),
      );
    } else files.set(entry.name, unpacked);
  }
  const read = readFiles(withoutOuterFolder(files, problems));
  return { document: read.document, problems: [...problems, ...read.problems] };
}

/** Packs a document. The same document gives the same bytes: every file is dated 1980-01-01, where zip's time begins. */
export function writeZip(document: CampaignDocument): Uint8Array {
  const chunks: Uint8Array[] = [];
  const zip = zipPacker((chunk) => chunks.push(chunk));
  for (const [path, bytes] of writeFiles(document)) zip.add(path, bytes);
  zip.end();
  const archive = new Uint8Array(chunks.reduce((sum, chunk) => sum + chunk.length, 0));
  let at = 0;
  for (const chunk of chunks) {
    archive.set(chunk, at);
    at += chunk.length;
  }
  return archive;
}

/** The same, file by file, for archives that need not stand in memory whole: `onChunk` gets the bytes in their order. */
export function zipPacker(onChunk: (chunk: Uint8Array) => void): {
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

/** The entries of the central directory; null where there is none that holds together. */
function directory(bytes: Uint8Array): Entry[] | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  // The end record is the last thing but for a comment of at most 65,535 bytes.
  let end = bytes.length - 22;
  while (end >= 0 && view.getUint32(end, true) !== 0x06054b50) {
    if (end < bytes.length - 22 - 0xffff) return null;
    end--;
  }
  if (end < 0) return null;
  const count = view.getUint16(end + 10, true);
  let at = view.getUint32(end + 16, true);
  const entries: Entry[] = [];
  for (let i = 0; i < count; i++) {
    if (at + 46 > end || view.getUint32(at, true) !== 0x02014b50) return null;
    const nameLength = view.getUint16(at + 28, true);
    const after = at + 46 + nameLength;
    if (after > end) return null;
    const flags = view.getUint16(at + 8, true);
    entries.push({
      name: new TextDecoder().decode(bytes.subarray(at + 46, after)),
      flags,
      method: view.getUint16(at + 10, true),
      crc: view.getUint32(at + 16, true),
      packed: view.getUint32(at + 20, true),
      size: view.getUint32(at + 24, true),
      header: view.getUint32(at + 42, true),
    });
    at = after + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
  }
  return entries;
}

/** The content of one entry; null where it is torn, encrypted or packed in a way other than stored or deflated. */
function unpack(bytes: Uint8Array, entry: Entry): Uint8Array | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const isEncrypted = (entry.flags & 1) !== 0;
  if (isEncrypted || entry.header + 30 > bytes.length) return null;
  if (view.getUint32(entry.header, true) !== 0x04034b50) return null;
  const from =
    entry.header + 30 + view.getUint16(entry.header + 26, true) + view.getUint16(entry.header + 28, true);
  if (from + entry.packed > bytes.length) return null;
  const packed = bytes.subarray(from, from + entry.packed);
  let content: Uint8Array;
  if (entry.method === 0) content = packed.slice();
  else if (entry.method === 8) {
    try {
      content = inflateSync(packed, { out: new Uint8Array(entry.size) });
    } catch {
      return null;
    }
  } else return null;
  return content.length === entry.size && crc32(content) === entry.crc ? content : null;
}

/**
 * A folder zipped from outside holds everything one level down; that level is taken off. What the packing computer
 * added beside it (`__MACOSX`) is left out with it.
 */
function withoutOuterFolder(files: Map<string, Uint8Array>, problems: Problem[]): Map<string, Uint8Array> {
  const paths = [...files.keys()].filter((path) => !path.startsWith('__MACOSX/'));
  const slash = paths[0]?.indexOf('/') ?? -1;
  const outer = slash > 0 ? paths[0]!.slice(0, slash + 1) : '';
  if (outer === '' || !paths.every((path) => path.startsWith(outer))) return files;
  const isCampaign =
    files.has(outer + PACKAGE_PATH) || paths.some((path) => /^[^/]+\/[^/]+\.[ct]sv$/i.test(path));
  if (!isCampaign) return files;
  problems.push(
    problem({
      severity: 'note',
      code: 'outer-folder',
      table: 'datapackage',
      found: outer,
      expected: 'datapackage.json at the top of the archive',
      mend: 'Nothing need be done: the campaign is read from inside that folder.',
    }),
  );
  return new Map(paths.map((path) => [path.slice(outer.length), files.get(path)!]));
}

function refused(code: string, found: string, expected: string, mend: string): Problem {
  return problem({ severity: 'error', code, table: 'datapackage', found, expected, mend });
}

const CRC_TABLE = Int32Array.from({ length: 256 }, (_, byte) => {
  let crc = byte;
  for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  return crc;
});

/** CRC-32 of ISO 3309, as zip uses it. */
function crc32(bytes: Uint8Array): number {
  let crc = -1;
  for (let i = 0; i < bytes.length; i++) crc = CRC_TABLE[(crc ^ bytes[i]!) & 0xff]! ^ (crc >>> 8);
  return (crc ^ -1) >>> 0;
}
