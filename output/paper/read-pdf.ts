/**
 * Reads text and faces back out of the PDFs that `figureToPdf` writes, for the tests: one page, no object streams,
 * text in Identity-H with a ToUnicode map. It is a reader for our own files, not for PDF (ISO 32000-1) at large; what
 * it does not know, it says.
 */
import { inflateSync } from 'node:zlib';

interface PdfFace {
  name: string;
  /** The TrueType file inside, null where there is none. */
  file: Uint8Array | null;
  /** Letter of each glyph. */
  letters: ReadonlyMap<number, string>;
}

interface PdfPiece {
  text: string;
  face: PdfFace;
  size: number;
  /** Baseline start, points from the left and from the top of the page. */
  x: number;
  y: number;
}

interface PdfPage {
  width: number;
  height: number;
  faces: PdfFace[];
  /** In the order they are set. */
  pieces: PdfPiece[];
}

interface PdfObject {
  /** What stands before the stream. */
  head: string;
  stream: Uint8Array | null;
}

function objects(pdf: Uint8Array): Map<number, PdfObject> {
  const raw = Buffer.from(pdf).toString('latin1');
  const found = new Map<number, PdfObject>();
  for (const match of raw.matchAll(/(?:^|\n)(\d+) 0 obj\n/g)) {
    const from = match.index + match[0].length;
    const streams = raw.indexOf('stream\n', from);
    const ends = raw.indexOf('endobj', from);
    if (streams === -1 || streams > ends) {
      found.set(Number(match[1]), { head: raw.slice(from, ends), stream: null });
      continue;
    }
    const head = raw.slice(from, streams);
    const start = streams + 'stream\n'.length;
    const bytes = pdf.subarray(start, start + Number(one(/\/Length (\d+)/, head, 'a stream')));
    const stream = head.includes('/FlateDecode') ? inflateSync(bytes) : bytes;
    found.set(Number(match[1]), { head, stream });
  }
  return found;
}

function one(pattern: RegExp, text: string, where: string): string {
  const found = pattern.exec(text)?.[1];
  if (found === undefined) throw new RangeError(`PDF: expected ${pattern.source} in ${where}`);
  return found;
}

/** Glyphs of a ToUnicode map, whose ranges are lists of UTF-16 units. */
function letters(map: string): Map<number, string> {
  const found = new Map<number, string>();
  for (const [, first = '', list = ''] of map.matchAll(/<(\w{4})> <\w{4}> \[([^\]]*)\]/g)) {
    for (const [i, [, units = '']] of [...list.matchAll(/<(\w*)>/g)].entries()) {
      const codes = (units.match(/\w{4}/g) ?? []).map((unit) => Number.parseInt(unit, 16));
      found.set(Number.parseInt(first, 16) + i, String.fromCharCode(...codes));
    }
  }
  return found;
}

/** Throws RangeError where the file is not as `figureToPdf` writes it. */
export function readPdf(pdf: Uint8Array): PdfPage {
  const all = objects(pdf);
  const at = (number: string): PdfObject => {
    const object = all.get(Number(number));
    if (object === undefined) throw new RangeError(`PDF: no object ${number}`);
    return object;
  };
  const text = (object: PdfObject): string => Buffer.from(object.stream ?? []).toString('latin1');
  const pages = [...all.values()].filter(({ head }) => /\/Type \/Page\b/.test(head));
  const page = pages[0];
  if (page === undefined || pages.length > 1)
    throw new RangeError(`PDF: expected one page, found ${pages.length}`);
  const [, width = '', height = ''] = /\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/.exec(page.head) ?? [];

  const resources = at(one(/\/Resources (\d+) 0 R/, page.head, 'the page'));
  const faces = new Map<string, PdfFace>();
  for (const [, key = '', number = ''] of one(/\/Font <<([^>]*)>>/, resources.head, 'the resources').matchAll(
    /\/(F\d+) (\d+) 0 R/g,
  )) {
    const font = at(number);
    one(/\/Encoding \/(Identity-H)/, font.head, key);
    const descendant = at(one(/\/DescendantFonts \[(\d+) 0 R\]/, font.head, key));
    const descriptor = at(one(/\/FontDescriptor (\d+) 0 R/, descendant.head, key));
    const file = /\/FontFile2 (\d+) 0 R/.exec(descriptor.head)?.[1];
    faces.set(key, {
      name: one(/\/FontName \/[A-Z]{6}\+(\S+)/, descriptor.head, key),
      file: file === undefined ? null : at(file).stream,
      letters: letters(text(at(one(/\/ToUnicode (\d+) 0 R/, font.head, key)))),
    });
  }

  const content = text(at(one(/\/Contents (\d+) 0 R/, page.head, 'the page')));
  const pieces = readPieces(content, faces, Number(height));
  return { width: Number(width), height: Number(height), faces: [...faces.values()], pieces };
}

/** Text objects of the content, each at its place after the shifts (cm) around it. */
function readPieces(content: string, faces: ReadonlyMap<string, PdfFace>, height: number): PdfPiece[] {
  const pieces: PdfPiece[] = [];
  // Only shifts and flips occur: y = scale × y′ + shift.
  let place = { x: 0, y: 0, flip: 1 };
  const kept: (typeof place)[] = [];
  const number = String.raw`(-?[\d.]+)`;
  const token = new RegExp(
    `\\nq(?=\\n)|\\nQ(?=\\n)|\\n1 0 0 (-?1) ${number} ${number} cm|BT\\n1 0 0 1 ${number} ${number} Tm\\n\\/(F\\d+) ${number} Tf\\n\\[([^\\]]*)\\] TJ\\nET`,
    'g',
  );
  for (const match of `\n${content}\n`.matchAll(token)) {
    const [whole, flip, dx, dy, x, y, key = '', size, glyphs] = match;
    if (whole === '\nq') kept.push(place);
    else if (whole === '\nQ') place = kept.pop() ?? place;
    else if (flip !== undefined) {
      place = {
        x: place.x + Number(dx),
        y: place.y + place.flip * Number(dy),
        flip: place.flip * Number(flip),
      };
    } else {
      const face = faces.get(key);
      if (face === undefined) throw new RangeError(`PDF: no face ${key}`);
      const codes = (glyphs?.match(/<(\w+)>/g) ?? []).flatMap((run) => run.match(/\w{4}/g) ?? []);
      pieces.push({
        text: codes.map((code) => face.letters.get(Number.parseInt(code, 16)) ?? '\u{fffd}').join(''),
        face,
        size: Number(size),
        x: place.x + Number(x),
        y: height - (place.y + place.flip * Number(y)),
      });
    }
  }
  const set = (content.match(/\bBT\b/g) ?? []).length;
  if (set !== pieces.length) throw new RangeError(`PDF: ${set} texts set, ${pieces.length} read`);
  return pieces;
}
