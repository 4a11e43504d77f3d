/** The two typefaces as files: Atkinson Hyperlegible Next and STIX Two Text, both SIL Open Font License. */
import { create, type Font } from 'fontkit';
import { withPlainZero } from './plain-zero.ts';

export type TypefaceName =
  | 'text300'
  | 'text400'
  | 'text600'
  | 'plain300'
  | 'plain400'
  | 'plain600'
  | 'title400'
  | 'title600'
  | 'water400';

/** Their files by weight; `plain` are the text faces with a zero that is not slashed, made of the same files. */
export const FACE_FILES = ['text300', 'text400', 'text600', 'title400', 'title600', 'water400'] as const;
export type FaceFile = (typeof FACE_FILES)[number];
export const TYPEFACE_NAMES: readonly TypefaceName[] = [...FACE_FILES, 'plain300', 'plain400', 'plain600'];

export interface Typeface {
  name: TypefaceName;
  file: Uint8Array;
  font: Font;
}

let read: ((name: FaceFile) => Uint8Array) | null = null;
const loaded = new Map<TypefaceName, Typeface>();

/** Where the files come from; to be said before anything is set. */
export function giveTypefaces(from: (name: FaceFile) => Uint8Array): void {
  read = from;
}

/** Read once and kept. */
export function typeface(name: TypefaceName): Typeface {
  let face = loaded.get(name);
  if (face === undefined) {
    if (read === null) throw new Error('typefaces: expected giveTypefaces before any text is set');
    const file = name.startsWith('plain')
      ? plain(read(name.replace('plain', 'text') as FaceFile))
      : read(name as FaceFile);
    face = { name, file, font: opened(file) };
    loaded.set(name, face);
  }
  return face;
}

/** The reader takes any bytes; its types name only Node's. */
const opened = (file: Uint8Array): Font => create(file as Buffer) as Font;

const plain = (file: Uint8Array): Uint8Array => withPlainZero(file, opened(file).glyphForCodePoint(0x30).id);

/** Figures of equal width, as numbers in a table are set; no ligatures, so that every letter keeps its own glyph. */
export const FEATURES = { tnum: true, kern: true, liga: false };

/** Which face an SVG text asks for by family, weight and style. */
export function typefaceFor(family: string, weight: number, italic: boolean): TypefaceName {
  if (family.includes('STIX')) return italic ? 'water400' : weight >= 550 ? 'title600' : 'title400';
  const face = family.includes('Plain Zero') ? 'plain' : 'text';
  return `${face}${weight >= 500 ? 600 : weight < 350 ? 300 : 400}`;
}

/** Pieces of a text with the face each is set in: the asked one, else STIX Two Text where only it has the letter. */
export function setInFaces(text: string, wanted: TypefaceName): { text: string; face: Typeface }[] {
  const first = typeface(wanted);
  const second = typeface(wanted.endsWith('600') ? 'title600' : 'title400');
  const pieces: { text: string; face: Typeface }[] = [];
  for (const character of text) {
    const code = character.codePointAt(0) ?? 0;
    const face =
      !first.font.hasGlyphForCodePoint(code) && second.font.hasGlyphForCodePoint(code) ? second : first;
    const last = pieces.at(-1);
    if (last?.face === face) last.text += character;
    else pieces.push({ text: character, face });
  }
  return pieces;
}

type Run = ReturnType<Font['layout']>;
/** Labels come again and again, in one figure and from one to the next; past this many the store starts anew. */
const MOST_RUNS = 20_000;
const runs = new Map<string, Run>();

/** Glyphs of a text in one face and where they stand. */
export function layout(text: string, face: Typeface): Run {
  const key = `${face.name} ${text}`;
  let run = runs.get(key);
  if (run === undefined) {
    run = face.font.layout(text, FEATURES);
    if (runs.size >= MOST_RUNS) runs.clear();
    runs.set(key, run);
  }
  return run;
}

/** Width in points. */
export function setWidth(text: string, wanted: TypefaceName, size: number): number {
  let sum = 0;
  for (const { text: piece, face } of setInFaces(text, wanted)) {
    sum += (layout(piece, face).advanceWidth * size) / face.font.unitsPerEm;
  }
  return sum;
}
