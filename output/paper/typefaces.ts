/** The two typefaces as files: Atkinson Hyperlegible Next and STIX Two Text, both SIL Open Font License. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { create, type Font } from 'fontkit';

export type TypefaceName = 'text300' | 'text400' | 'text600' | 'title400' | 'title600' | 'water400';

const TEXT = '@expo-google-fonts/atkinson-hyperlegible-next';
const TITLE = '@expo-google-fonts/stix-two-text';
const FILES: Record<TypefaceName, string> = {
  text300: `${TEXT}/300Light/AtkinsonHyperlegibleNext_300Light.ttf`,
  text400: `${TEXT}/400Regular/AtkinsonHyperlegibleNext_400Regular.ttf`,
  text600: `${TEXT}/600SemiBold/AtkinsonHyperlegibleNext_600SemiBold.ttf`,
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
    const file = readFileSync(createRequire(import.meta.url).resolve(FILES[name]));
    face = { name, file, font: create(file) as Font };
    loaded.set(name, face);
  }
  return face;
}

/** Figures of equal width, as numbers in a table are set; no ligatures, so that every letter keeps its own glyph. */
export const FEATURES = { tnum: true, kern: true, liga: false };

/** Which face an SVG text asks for by family, weight and style. */
export function typefaceFor(family: string, weight: number, italic: boolean): TypefaceName {
  if (family.includes('STIX')) return italic ? 'water400' : weight >= 550 ? 'title600' : 'title400';
  return weight >= 500 ? 'text600' : weight < 350 ? 'text300' : 'text400';
}

/** Pieces of a text with the face each is set in: the asked one, else STIX Two Text where only it has the letter. */
export function setInFaces(text: string, wanted: TypefaceName): { text: string; face: Typeface }[] {
  const first = typeface(wanted);
  const second = typeface(wanted === 'text600' ? 'title600' : 'title400');
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
