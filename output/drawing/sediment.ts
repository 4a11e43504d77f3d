/**
 * From the words of a sediment to how it is drawn. The words are kept whole as its name; the drawing takes the pattern
 * of the main constituent and adds what qualifies it, where that has a sign.
 *
 * The last noun is the main constituent, the words before it are lesser ones, the nearest the most of them: "sandy mud"
 * is mud, "muddy sand" is sand (a nomenclature of poorly sorted sediments, J. Sed. Petrology 33:478, 1963, its abstract
 * seen; so also Folk 1954, J. Geology 62:344–359 and ISO 14688-1, from memory). Common practice, no source: words after
 * a comma, and what follows "with", "and", "or", "to", "over" …, are lesser too, as in "Clay, silty".
 */
import { capital } from '@stillstand/campaign/tables';
import { type Glyphs, SEDIMENTS, type Sediment, type SedimentKey } from './sediment-table.ts';

/** Other names of what is drawn the same, each under its own name. */
const SAME = new Map<string, SedimentKey>([
  ['pebble', 'gravel'],
  ['cobble', 'gravel'],
  ['shingle', 'gravel'],
  ['loess', 'silt'],
  ['till', 'diamicton'],
  ['boulder clay', 'diamicton'],
  ['underclay', 'clay rooted'],
  ['palaeosol', 'soil'],
  ['paleosol', 'soil'],
  ['topsoil', 'soil'],
  ['gyttja', 'mud organic'],
  ['shell', 'shell bed'],
  ['coquina', 'shell bed'],
  ['shell hash', 'shell bed'],
  ['coral', 'limestone'],
]);
/** Words that say it only where they are alone: the fill of a channel is no made ground. */
const ALONE = new Map<string, SedimentKey>([
  ['unknown', 'unknown'],
  ['fill', 'made ground'],
  ['lodgement', 'diamicton'],
  ['basement', 'bedrock'],
  ['rock', 'bedrock'],
]);
const PHRASES = /\b(?:shell (?:bed|hash)|made ground|boulder clay)\b/g;

/** Other words for a quality that is drawn. */
const QUALITY = new Map<string, string>([
  ['laminated', 'bedded'],
  ['pebbly', 'gravelly'],
  ['cobbly', 'gravelly'],
  ['rooty', 'rooted'],
  ['root', 'rooted'],
  ['rootlet', 'rooted'],
  ['humic', 'organic'],
]);
/** What qualities add to a pattern; null where it is only written. */
const SIGNS = new Map<string, Glyphs | null>(
  Object.values<Sediment>(SEDIMENTS)
    .filter(({ tint }) => tint !== 'unknown')
    .map(({ adjective, accent }) => [adjective, accent]),
);
/** Qualities that only choose among the patterns of one noun: fine, bedded. */
const OWN = new Set(Object.keys(SEDIMENTS).flatMap((key) => key.split(' ').slice(1)));

/** May follow the noun that it is a layer of. */
const LAYER = /^(?:bed|layer|horizon|unit|deposit|alternation|mixture|matrix)$/;
/** Says how something is, not what. */
const ADJECTIVE =
  /(?:y|ish|ed|ic|ous|ive)$|^(?:dark|light|pale|black|white|brown|green|blue|red|orange|pink|olive|soft|firm|stiff|hard|loose|dense|wet|dry|well|fresh|rich)$|^\d/;
const PARTED =
  /[,;:/+&()[\]]|\b(?:with|and|or|to|over|on|of|under|below|above|between|containing|interbedded)\b/u;
/** What is not there is not drawn. */
const ABSENT = /\b(?:without|no)\b[^,;()]*|\p{L}+[\s-]free\b/giu;

/** What words say of a sediment. */
interface Said {
  /** Null where no sediment goes by that name. */
  main: SedimentKey | null;
  /** The most of it first. */
  qualities: string[];
}

/**
 * The drawing of a sediment's words in any spelling. What is not known is drawn as unknown, never as another sediment,
 * and is called what was typed.
 */
export const sedimentOf = (words: string): Sediment =>
  sedimentOfUnit({ sediment: words, secondary_sediment: null });

/** A unit's sediment with its second one: its name ("Clay, silty"), glyphs and the rest. */
export function sedimentOfUnit(unit: { sediment: string; secondary_sediment: string | null }): Sediment {
  const first = said(unit.sediment);
  const name = nameOf(unit.sediment, first);
  const typed = asTyped(unit.secondary_sediment ?? '');
  if (typed === '') return { ...drawn(first), name };
  const second = said(typed);
  const adjective = second.main === null ? null : adjectiveOf(second.main);
  const isOneNoun = adjective !== null && wordsOf(typed).length === 1;
  return {
    ...drawn({ main: first.main, qualities: [...first.qualities, ...asLesser(second)] }),
    name: `${name}, ${isOneNoun ? adjective : typed.toLowerCase()}`,
  };
}

/** Whether something is said that has no pattern. */
export const hasNoPattern = (words: string): boolean => asTyped(words) !== '' && said(words).main === null;

function drawn({ main, qualities }: Said): Sediment {
  if (main === null) return SEDIMENTS.unknown;
  const own = qualities.map((quality) => `${main} ${quality}`).find(isKey);
  const base = SEDIMENTS[own ?? main];
  const signs = qualities
    .filter((quality) => `${main} ${quality}` !== own)
    .flatMap((quality) => SIGNS.get(quality) ?? []);
  return { ...base, glyphs: [...new Set<Glyphs>([...base.glyphs, ...signs])] };
}

/** As the table has it where that says every word, otherwise the words as they were typed. */
function nameOf(typed: string, { main, qualities }: Said): string {
  if (asTyped(typed) === '') return SEDIMENTS.unknown.name;
  // "Peat?" and "(peat)" say more than peat.
  if (/[^\p{L}\s,_-]/u.test(typed)) return capital(asTyped(typed));
  const words = wordsOf(typed).toSorted().join(' ');
  const key = [`${main}`, ...qualities.map((quality) => `${main} ${quality}`)]
    .filter(isKey)
    .find((each) => each.split(' ').toSorted().join(' ') === words);
  return key === undefined ? capital(asTyped(typed)) : SEDIMENTS[key].name;
}

function said(typed: string): Said {
  const alone = ALONE.get(wordsOf(typed).join(' '));
  if (alone !== undefined) return { main: alone, qualities: [] };
  const parts = tidied(typed.replace(ABSENT, ', ')).split(PARTED).map(tokensOf);
  const at = parts.findIndex((part) => !part.every(isHow));
  const end = at === -1 ? -1 : parts[at]!.findLastIndex((word) => !isHow(word));
  const main = at === -1 ? null : nounOf(parts[at]![end]!);
  const nearestFirst = at === -1 ? [] : [...parts[at]!.slice(0, end).reverse(), ...parts[at]!.slice(end + 1)];
  const others = parts.toSpliced(Math.max(at, 0), at === -1 ? 0 : 1);
  return {
    main,
    qualities: [
      ...nearestFirst.flatMap(qualityOf),
      ...others.flatMap((part) => {
        const qualities = part.flatMap(qualityOf);
        // "Gravel with fine sand" has no fine gravel in it.
        return part.every(isHow) ? qualities : qualities.filter((quality) => SIGNS.has(quality));
      }),
    ],
  };
}

/** A sediment as the lesser part of another: "fine sand" makes it sandy, not fine. */
const asLesser = ({ main, qualities }: Said): string[] =>
  [main === null ? '' : (adjectiveOf(main) ?? ''), ...qualities].filter((quality) => SIGNS.has(quality));

/** Null of what qualifies nothing: unknown, made ground. */
function adjectiveOf(key: SedimentKey): string | null {
  const { adjective } = SEDIMENTS[key];
  return SIGNS.has(adjective) ? adjective : null;
}

function nounOf(word: string): SedimentKey | null {
  for (const noun of [word, one(word)]) {
    if (isKey(noun) && noun !== 'unknown') return noun;
    const same = SAME.get(noun);
    if (same !== undefined) return same;
  }
  return null;
}

function qualityOf(word: string): string[] {
  const noun = nounOf(word);
  const quality = noun === null ? (QUALITY.get(one(word)) ?? word) : adjectiveOf(noun);
  return quality !== null && (OWN.has(quality) || SIGNS.has(quality)) ? [quality] : [];
}

const one = (word: string): string => word.replace(/s$/, '');
const isKey = (key: string): key is SedimentKey => Object.hasOwn(SEDIMENTS, key);
const isHow = (word: string): boolean =>
  nounOf(word) === null &&
  (OWN.has(word) || QUALITY.has(word) || ADJECTIVE.test(word) || LAYER.test(one(word)));

const asTyped = (typed: string): string => typed.trim().replaceAll('_', ' ');
const tidied = (typed: string): string =>
  asTyped(typed)
    .toLowerCase()
    .replace(/cross[\s-]*bedded/g, 'crossbedded');
const wordsOf = (typed: string): string[] => tidied(typed).match(/[\p{L}\p{N}]+/gu) ?? [];
/** Words, a noun of two as one. */
const tokensOf = (part: string): string[] =>
  part
    .replace(PHRASES, (two) => two.replace(' ', '_'))
    .match(/[\p{L}\p{N}_]+/gu)
    ?.map((word) => word.replace('_', ' ')) ?? [];
