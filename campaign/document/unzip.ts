/**
 * The files in a zip archive (PKWARE APPNOTE 6.3.10), taken with suspicion: an archive may come from anybody. Its
 * directory must hold together and agree with the records it names, no two records may share a byte, and what is
 * unpacked is counted while it is inflated, whatever the directory says of its size. Inflating is fflate's.
 * Past 250 lines because it is one walk over one format.
 */
import { thousands } from '@stillstand/science/base';
import { Inflate } from 'fflate';
import { concatenated } from './concatenated.ts';
import { unsafePath } from './path.ts';

const MIB = 1_048_576;

/** What one archive may hold. */
export const ZIP_LIMITS = {
  files: 20_000,
  /** Unpacked, all together. */
  bytes: 2048 * MIB,
  /** Unpacked, one file. */
  file_bytes: 512 * MIB,
  /** Unpacked, as a multiple of the archive, above `free_bytes`: tables pack to a twentieth, blank rows to a 500th. */
  ratio: 100,
  free_bytes: 64 * MIB,
} as const;

/** What is wrong with an archive or one file in it. */
export interface ZipFault {
  code: string;
  found: string;
  expected: string;
  /** What to do, and what happens until then. */
  action: string;
}

export interface Unzipped {
  files: Map<string, Uint8Array>;
  /** What stands there and is no file, by path: links, devices, folders. */
  notFiles: Map<string, string>;
  faults: ZipFault[];
}

interface Entry {
  name: string | null;
  rawName: Uint8Array;
  flags: number;
  method: number;
  crc: number;
  packed: number;
  size: number;
  header: number;
  /** File type bits of the POSIX mode; 0 where there are none. */
  type: number;
}

/** Reads the files of an archive. Never throws; what is left out is among the faults. */
export function unzip(bytes: Uint8Array): Unzipped {
  const unzipped: Unzipped = { files: new Map(), notFiles: new Map(), faults: [] };
  const { files, faults } = unzipped;
  const refuse = (fault: ZipFault): Unzipped => ({ files: new Map(), notFiles: new Map(), faults: [fault] });
  const read = directory(bytes);
  if ('code' in read) return refuse(read);
  const { entries, start } = read;
  if (entries.length > ZIP_LIMITS.files) {
    return refuse(
      tooLarge(`${thousands(entries.length)} files`, `at most ${thousands(ZIP_LIMITS.files)} files`),
    );
  }
  const places = entries.map((entry) => record(bytes, entry, start));
  if (places.some((place) => 'code' in place && place.code === 'zip64')) return refuse(zip64());
  const overlap = firstOverlap(entries, places);
  if (overlap !== null) return refuse(overlap);

  const most = Math.min(ZIP_LIMITS.bytes, ZIP_LIMITS.free_bytes + ZIP_LIMITS.ratio * bytes.length);
  const names = new Names();
  let total = 0;
  for (const [i, entry] of entries.entries()) {
    const place = places[i]!;
    const name = pathOf(entry, unzipped, names);
    if (name === null) continue;
    const limit = Math.min(ZIP_LIMITS.file_bytes, most - total);
    const content =
      entry.size > limit
        ? 'too large'
        : 'code' in place
          ? place
          : (unreadable(entry, name) ??
            unpacked(bytes.subarray(place.from, place.from + entry.packed), entry, limit));
    if (content === 'too large') {
      faults.push(
        tooLarge(
          `${name} of ${inMiB(entry.size)} or more, in an archive of ${inMiB(bytes.length)}`,
          `at most ${inMiB(ZIP_LIMITS.file_bytes)} a file and ${inMiB(most)} in all for an archive of this size`,
        ),
      );
      break;
    }
    if (content === 'damaged') faults.push(damaged(name));
    else if (!(content instanceof Uint8Array)) faults.push(content);
    else {
      files.set(name, content);
      total += content.length;
    }
  }
  return unzipped;
}

const inMiB = (bytes: number): string => `${thousands(Math.ceil(bytes / MIB))} MiB`;

/** Names as a disk may take them: one that knows no capitals and one way to write an accent. */
class Names {
  readonly #files = new Set<string>();
  readonly #folders = new Set<string>();

  /** What stands in the way of a name; null where nothing does, and it is then taken. */
  taken(name: string): 'a file' | 'a folder' | null {
    const key = name.normalize('NFC').toLowerCase();
    if (this.#files.has(key)) return 'a file';
    if (this.#folders.has(key)) return 'a folder';
    const above = foldersAbove(key);
    if (above.some((folder) => this.#files.has(folder))) return 'a file';
    this.#files.add(key);
    for (const folder of above) this.#folders.add(folder);
    return null;
  }
}

function foldersAbove(path: string): string[] {
  const parts = path.split('/');
  return parts.slice(1).map((_, i) => parts.slice(0, i + 1).join('/'));
}

/** The path of an entry that is a file; null where it is none, or may not be written, which is then said. */
function pathOf(entry: Entry, { notFiles, faults }: Unzipped, names: Names): string | null {
  if (entry.name === null) {
    faults.push(unsafe(new TextDecoder().decode(entry.rawName), 'it is not UTF-8, as it says it is'));
    return null;
  }
  const isFolder = entry.name.endsWith('/');
  const name = isFolder ? entry.name.slice(0, -1) : entry.name;
  const why = unsafePath(name);
  if (why !== null) {
    faults.push(unsafe(entry.name, why));
    return null;
  }
  if (isFolder || entry.type === FOLDER) {
    notFiles.set(name, 'a folder');
    return null;
  }
  if (entry.type !== 0 && entry.type !== FILE) {
    notFiles.set(name, entry.type === LINK ? 'a symbolic link' : 'a pipe or a device');
    return null;
  }
  const other = names.taken(name);
  if (other === null) return name;
  faults.push({
    code: 'file-twice',
    found: `${name}, and ${other} of that name or of one that some disks take for it`,
    expected: 'each name once, whatever its capitals and accents',
    action: 'Rename one of the two and pack the campaign again. Until then only the first is read.',
  });
  return null;
}

/** File types of a POSIX mode (IEEE Std 1003.1, sys/stat.h). */
const FILE = 0x8000;
const FOLDER = 0x4000;
const LINK = 0xa000;

/** Why an entry cannot be unpacked at all. */
function unreadable(entry: Entry, name: string): ZipFault | null {
  // Bits 0, 6 and 13: encrypted, strongly encrypted, its header masked.
  if ((entry.flags & 0x2041) !== 0) {
    return {
      code: 'encrypted-file',
      found: `${name}, under a password`,
      expected: 'files anybody can read',
      action: 'Pack the campaign again without a password. It is left out.',
    };
  }
  if (entry.method === 0 || entry.method === 8) return null;
  return {
    code: 'unknown-packing',
    found: `${name}, packed by method ${entry.method}`,
    expected: 'files stored (0) or deflated (8)',
    action: 'Pack the campaign again as a plain zip. It is left out.',
  };
}

/** The content, counted as it is inflated. */
function unpacked(packed: Uint8Array, entry: Entry, limit: number): Uint8Array | 'damaged' | 'too large' {
  let content: Uint8Array;
  if (entry.method === 0) {
    if (packed.length !== entry.size) return 'damaged';
    content = packed.slice();
  } else {
    const chunks: Uint8Array[] = [];
    let length = 0;
    const inflate = new Inflate((chunk) => {
      chunks.push(chunk);
      length += chunk.length;
    });
    try {
      for (let at = 0; at === 0 || at < packed.length; at += STEP) {
        inflate.push(packed.subarray(at, at + STEP), at + STEP >= packed.length);
        if (length > limit) return 'too large';
        if (length > entry.size) return 'damaged';
      }
    } catch {
      return 'damaged';
    }
    content = concatenated(chunks);
  }
  return content.length === entry.size && crc32(content) === entry.crc ? content : 'damaged';
}

/** Packed bytes inflated at a time: at deflate's tightest, 1 to 1,032 (RFC 1951), they make 16 MiB. */
const STEP = 16_384;

const END = 0x06054b50;
const CENTRAL = 0x02014b50;
const LOCAL = 0x04034b50;
const DESCRIPTOR = 0x08074b50;
const END_BYTES = 22;
const CENTRAL_BYTES = 46;
const LOCAL_BYTES = 30;

/** The entries of the central directory and where it starts, or what is wrong with it. */
function directory(bytes: Uint8Array): { entries: Entry[]; start: number } | ZipFault {
  const view = viewOf(bytes);
  const ends = endRecords(view, bytes.length);
  const [end] = ends;
  if (end === undefined) return notAZip(bytes.length, 'no end of a directory');
  if (ends.length > 1) return notAZip(bytes.length, 'more than one end of a directory');
  const count = view.getUint16(end + 10, true);
  const size = view.getUint32(end + 12, true);
  const start = view.getUint32(end + 16, true);
  if (isLarge(view, end, count, size, start)) return zip64();
  const isOneDisk =
    view.getUint16(end + 4, true) === 0 &&
    view.getUint16(end + 6, true) === 0 &&
    view.getUint16(end + 8, true) === count;
  if (!isOneDisk) return notAZip(bytes.length, 'one part of a divided archive');
  if (start + size !== end) return notAZip(bytes.length, 'a directory that is not where it is said to be');

  const entries: Entry[] = [];
  let at = start;
  while (at < end) {
    if (at + CENTRAL_BYTES > end || view.getUint32(at, true) !== CENTRAL) break;
    const nameLength = view.getUint16(at + 28, true);
    const next =
      at + CENTRAL_BYTES + nameLength + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
    if (next > end) break;
    const entry = centralEntry(bytes, view, at, nameLength);
    if (entry === null) return zip64();
    entries.push(entry);
    at = next;
  }
  if (at !== end || entries.length !== count) return notAZip(bytes.length, 'a directory that breaks off');
  return { entries, start };
}

/** Places of the records that end at the end of the archive with their comment: one, in an honest archive. */
function endRecords(view: DataView, length: number): number[] {
  const found: number[] = [];
  for (let at = length - END_BYTES; at >= 0 && at >= length - END_BYTES - 0xffff; at--) {
    if (view.getUint32(at, true) !== END) continue;
    if (at + END_BYTES + view.getUint16(at + 20, true) === length) found.push(at);
  }
  return found;
}

/** Whether the archive is in the form for more than 4 GiB or 65,535 files. */
function isLarge(view: DataView, end: number, count: number, size: number, start: number): boolean {
  const hasLocator = end >= 20 && view.getUint32(end - 20, true) === 0x07064b50;
  return hasLocator || count === 0xffff || size === 0xffffffff || start === 0xffffffff;
}

/** One entry of the directory; null where its sizes stand in the form for more than 4 GiB. */
function centralEntry(bytes: Uint8Array, view: DataView, at: number, nameLength: number): Entry | null {
  const [packed, size, header] = [20, 24, 42].map((offset) => view.getUint32(at + offset, true)) as [
    number,
    number,
    number,
  ];
  if ([packed, size, header].includes(0xffffffff)) return null;
  const flags = view.getUint16(at + 8, true);
  const rawName = bytes.subarray(at + CENTRAL_BYTES, at + CENTRAL_BYTES + nameLength);
  return {
    name: nameText(rawName, (flags & 0x800) !== 0),
    rawName,
    flags,
    method: view.getUint16(at + 10, true),
    crc: view.getUint32(at + 16, true),
    packed,
    size,
    header,
    type: (view.getUint32(at + 38, true) >>> 16) & 0xf000,
  };
}

/** Where the packed bytes of an entry start, and where its record ends. */
interface Place {
  from: number;
  to: number;
}

/** The record an entry names, where it is there and says the same. */
function record(bytes: Uint8Array, entry: Entry, start: number): Place | ZipFault {
  const view = viewOf(bytes);
  const at = entry.header;
  const name = entry.name ?? new TextDecoder().decode(entry.rawName);
  if (at + LOCAL_BYTES > start || view.getUint32(at, true) !== LOCAL) return disagrees(name, 'no record');
  const nameEnd = at + LOCAL_BYTES + view.getUint16(at + 26, true);
  const from = nameEnd + view.getUint16(at + 28, true);
  const end = from + entry.packed;
  if (end > start) return disagrees(name, 'a record that runs into the directory');
  if (!sameBytes(bytes.subarray(at + LOCAL_BYTES, nameEnd), entry.rawName))
    return disagrees(name, 'another name');
  const flags = view.getUint16(at + 6, true);
  if (((flags ^ entry.flags) & 0x2849) !== 0 || view.getUint16(at + 8, true) !== entry.method)
    return disagrees(name, 'another way of packing');
  const isAfter = (entry.flags & 8) !== 0;
  const stated = [entry.crc, entry.packed, entry.size];
  const local = [14, 18, 22].map((offset) => view.getUint32(at + offset, true));
  if (local[1] === 0xffffffff || local[2] === 0xffffffff) return zip64();
  if (!local.every((value, i) => value === stated[i] || (isAfter && value === 0)))
    return disagrees(name, 'another size or checksum');
  if (!isAfter) return { from, to: end };
  // Written while it was packed, a record says its sizes behind its content, with or without a sign in front.
  for (const sign of [4, 0]) {
    if (end + sign + 12 > start || (sign === 4 && view.getUint32(end, true) !== DESCRIPTOR)) continue;
    if (stated.every((value, i) => view.getUint32(end + sign + 4 * i, true) === value))
      return { from, to: end + sign + 12 };
  }
  return disagrees(name, 'another size or checksum behind it');
}

function firstOverlap(entries: readonly Entry[], places: readonly (Place | ZipFault)[]): ZipFault | null {
  const known = places.flatMap((place, i) =>
    'code' in place ? [] : [{ start: entries[i]!.header, end: place.to, name: entries[i]!.name ?? '' }],
  );
  known.sort((a, b) => a.start - b.start);
  for (const [i, { start, name }] of known.entries()) {
    if (i === 0 || start >= known[i - 1]!.end) continue;
    return {
      code: 'overlapping-files',
      found: `${known[i - 1]!.name} and ${name} share bytes of the archive`,
      expected: 'a place of its own for each file',
      action: 'Do not trust this archive; ask for the campaign again. Nothing of it is read.',
    };
  }
  return null;
}

const viewOf = (bytes: Uint8Array): DataView =>
  new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);

const sameBytes = (a: Uint8Array, b: Uint8Array): boolean =>
  a.length === b.length && a.every((byte, i) => byte === b[i]);

/** UTF-8, as most write it; else, where it is not said to be UTF-8, code page 437 (APPNOTE, appendix D). */
function nameText(bytes: Uint8Array, isUtf8: boolean): string | null {
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    if (isUtf8) return null;
    return Array.from(bytes, (byte) =>
      byte < 0x80 ? String.fromCharCode(byte) : CODE_PAGE_437[byte - 0x80]!,
    ).join('');
  }
}

/** 0x80–0xff (Unicode Consortium, CP437.TXT). */
const CODE_PAGE_437 =
  'ÇüéâäàåçêëèïîìÄÅÉæÆôöòûùÿÖÜ¢£¥₧ƒáíóúñÑªº¿⌐¬½¼¡«»░▒▓│┤╡╢╖╕╣║╗╝╜╛┐└┴┬├─┼╞╟╚╔╩╦╠═╬╧╨╤╥╙╘╒╓╫╪┘┌█▄▌▐▀αßΓπΣσµτΦΘΩδ∞φε∩≡±≥≤⌠⌡÷≈°∙·√ⁿ²■\u00a0';

function notAZip(length: number, what: string): ZipFault {
  return {
    code: 'not-a-zip',
    found: `${length} bytes with ${what}`,
    expected: 'a zip archive',
    action: 'Check that the file arrived whole, and get it again.',
  };
}

function zip64(): ZipFault {
  return {
    code: 'zip64',
    found: 'an archive in the form for more than 4 GiB or 65,535 files',
    expected: 'a plain zip',
    action: 'Pack the campaign again with fewer photos, or open it as a folder. Nothing of it is read.',
  };
}

function tooLarge(found: string, expected: string): ZipFault {
  return {
    code: 'too-large',
    found,
    expected,
    action: 'Open the campaign as a folder. It is left out, with what follows.',
  };
}

function unsafe(found: string, why: string): ZipFault {
  return {
    code: 'unsafe-path',
    found,
    expected: `a path inside the campaign; ${why}`,
    action: 'Give the file a plain name and pack the campaign again. It is left out.',
  };
}

function damaged(name: string): ZipFault {
  return {
    code: 'corrupt-file',
    found: name,
    expected: 'a file whose size and checksum are right',
    action: 'Get the archive again. It is left out.',
  };
}

function disagrees(name: string, what: string): ZipFault {
  return {
    code: 'headers-disagree',
    found: `${name} in the directory, and ${what} where it should be`,
    expected: 'the same in both places',
    action: 'Get the archive again, or pack it again. The file is left out.',
  };
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
