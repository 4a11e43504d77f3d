/** What a heading says: the words, the unit, the zero of heights and the sigma that stand in it. */
import { unitCalled } from './units.ts';

export interface Heading {
  /** As it came, joined of its lines. */
  text: string;
  /** Small letters, without unit, zero and sigma, single spaces. */
  words: string;
  unit: string | null;
  /** NAVD88, MLLW … */
  datum: string | null;
  sigma: 1 | 2 | null;
}

/** Zeros of heights as headings name them. From memory: a choice of those met, not a list of all. */
const DATUM =
  /\b(navd ?88|ngvd ?29|cgvd ?(?:28|2013)|igld ?85|a?msl|m\.?s\.?l\.?|mhhw|mhw|mtl|mllw|mlw|hat|lat|nap|d?nn|dhhn\d*|nhn|od[n]?|aod|dnn|dvr ?90|rh ?(?:70|2000)|n2000|evrf ?\d*|egm ?(?:96|2008)|ahd(?: ?\d+)?|cd|asl)\b/i;

const SIGMA: readonly (readonly [1 | 2, RegExp])[] = [
  [2, /\(?\bk ?= ?2\b\)?|\b2 ?(?:s|sd|se|sig(?:ma)?s?|σ)(?=\s|$|\))|±? ?2 ?σ|95(?:\.4)? ?%|two[- ]sigma/i],
  [1, /\(?\bk ?= ?1\b\)?|\b1 ?(?:s|sd|se|sig(?:ma)?s?|σ)(?=\s|$|\))|±? ?1 ?σ|68(?:\.[23])? ?%|one[- ]sigma/i],
];

/** Splits words that run together, such as depthTopCm and depth_top_cm. */
const spaced = (text: string): string =>
  text
    .normalize('NFC')
    .replace(/([\p{Ll}\d])(\p{Lu}\p{Ll})/gu, '$1 $2')
    .replace(/[_\s\u00a0]+/g, ' ')
    .trim();

/** Reads a heading; `unit` is what a row of units says of it. */
export function readHeading(text: string, unitRow = ''): Heading {
  let words = spaced(text);
  const fromRow = unitRow.trim() === '' ? null : unitWithDatum(unitRow);
  let unit = fromRow?.unit ?? null;
  let datum = fromRow?.datum ?? null;
  let sigma: 1 | 2 | null = null;
  for (const [level, pattern] of SIGMA) {
    if (sigma !== null || !pattern.test(words)) continue;
    sigma = level;
    words = words.replace(pattern, ' ');
  }
  // (cm), [m NAVD88], {%}
  words = words.replace(/[([{]([^()[\]{}]*)[)\]}]/g, (whole, inside: string) => {
    const said = unitWithDatum(inside);
    if (said === null) return whole;
    unit ??= said.unit;
    datum ??= said.datum;
    return ' ';
  });
  const zero = DATUM.exec(words);
  // "Location, Lat" is a latitude; the lowest astronomical tide is written LAT
  const isLatitude = zero !== null && /^lat$/i.test(zero[0]) && (unit === 'deg' || zero[0] !== 'LAT');
  if (zero !== null && !isLatitude && datum === null && zero[0].length < words.trim().length) {
    datum = datumCalled(zero[0]);
    words = words.replace(zero[0], ' ');
  }
  words = words
    .replace(/\s+/g, ' ')
    .replace(/[\s,;:/]+$/, '')
    .trim();
  if (unit === null) {
    const behind = trailingUnit(words);
    if (behind !== null) ({ unit, words } = behind);
  }
  // "± 1σ" is an error and says no more.
  return { text: text.trim(), words: bare(words) || (sigma === null ? '' : 'error'), unit, datum, sigma };
}

/** "cm", "m NAVD88", "cm above MLLW", "m, msl"; null where it is no unit. */
function unitWithDatum(text: string): { unit: string; datum: string | null } | null {
  const plain = unitCalled(text);
  if (plain !== null) return { unit: plain, datum: null };
  const zero = DATUM.exec(text);
  if (zero === null) return null;
  const unit = unitCalled(
    text
      .replace(zero[0], ' ')
      .replace(/\b(?:above|below|rel(?:ative)? to|a\.?|re)\b|[,;]/gi, ' ')
      .trim(),
  );
  return unit === null ? null : { unit, datum: datumCalled(zero[0]) };
}

const datumCalled = (text: string): string => {
  const name = text.replace(/[ .]/g, '').toUpperCase();
  return name === 'AMSL' || name === 'ASL' ? 'MSL' : name;
};

/** Words that are a unit too, and mean something else at the end of a heading of one word before. */
const NOT_ALONE = /^(?:a|g|m|in|dd|bp|cal bp)$/;

/** A unit at the end of a heading written with blanks or underlines: "depth top cm", "dry bulk density g cm3". */
function trailingUnit(words: string): { unit: string; words: string } | null {
  const parts = words.split(' ');
  for (let from = Math.max(1, parts.length - 4); from < parts.length; from++) {
    const tail = parts.slice(from).join(' ').toLowerCase();
    const unit =
      unitCalled(tail) ?? unitCalled(tail.replaceAll(' ', '/')) ?? unitCalled(tail.replace(/ (?=\d)/, ''));
    if (unit === null || (NOT_ALONE.test(tail) && tail !== 'm' && tail !== 'g')) continue;
    return { unit, words: parts.slice(0, from).join(' ') };
  }
  return null;
}

const bare = (words: string): string =>
  words
    .toLowerCase()
    .replace(/[.:,;#]+(?=\s|$)/g, '')
    .replace(/\s*\/\s*/g, '/')
    .replace(/\s+/g, ' ')
    .trim();

/** The same for every table headed alike, whatever the capitals, blanks and marks. */
export const headingKey = (headings: readonly string[]): string =>
  headings
    .map((heading) =>
      heading
        .normalize('NFKC')
        .toLowerCase()
        .replace(/[^\p{L}\p{N}%‰±+<>]+/gu, ' ')
        .trim(),
    )
    .join(' | ')
    .replace(/(?: \|)+ ?$/, '');
