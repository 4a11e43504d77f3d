/** The two typefaces as files: Atkinson Hyperlegible Next and STIX Two Text, both SIL Open Font License. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
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

const TEXT = '@expo-google-fonts/atkinson-hyperlegible-next';
const TITLE = '@expo-google-fonts/stix-two-text';
const LIGHT = `${TEXT}/300Light/AtkinsonHyperlegibleNext_300Light.ttf`;
const REGULAR = `${TEXT}/400Regular/AtkinsonHyperlegibleNext_400Regular.ttf`;
const SEMIBOLD = `${TEXT}/600SemiBold/AtkinsonHyperlegibleNext_600SemiBold.ttf`;
/** `plain` are the text faces with a zero that is not slashed. */
const FILES: Record<TypefaceName, string> = {
  text300: LIGHT,
  text400: REGULAR,
  text600: SEMIBOLD,
  plain300: LIGHT,
  plain400: REGULAR,
  plain600: SEMIBOLD,
  title400: `${TITLE}/400Regular/STIXTwoText_400Regular.ttf`,
  title600: `${TITLE}/600SemiBold/STIXTwoText_600SemiBold.ttf`,
  water400: `${TITLE}/400Regular_Italic/STIXTwoText_400Regular_Italic.ttf`,
};
export const TYPEFACE_NAMES = Object.keys(FILES) as TypefaceName[];

export interface Typeface {
  name: TypefaceName;
  file: Buffer;
  font: Font;
}

const loaded = new Map<TypefaceName, Typeface>();

/** Read once and kept. */
export function typeface(name: TypefaceName): Typeface {
  let face = loaded.get(name);
  if (face === undefined) {
    const asMade = readFileSync(createRequire(import.meta.url).resolve(FILES[name]));
    const file = name.startsWith('plain') ? plain(asMade) : asMade;
    face = { name, file, font: create(file) as Font };
    loaded.set(name, face);
  }
  return face;
}

function plain(file: Buffer): Buffer {
  const zero = (create(file) as Font).glyphForCodePoint(0x30).id;
  return Buffer.from(withPlainZero(file, zero));
}

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
