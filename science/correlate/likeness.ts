/**
 * How alike two names of sediments are, in three steps. Names are taken apart into the kinds of sediment they speak of;
 * which kinds pass into each other sideways, and are taken for each other at the auger, is common practice, no source.
 */

export type Likeness = 'same' | 'akin' | 'different';
export const LIKENESSES: readonly Likeness[] = ['same', 'akin', 'different'];

type Kind = 'gravel' | 'sand' | 'silt' | 'mud' | 'clay' | 'peat' | 'soil' | 'shells' | 'till';

/** Words of a name by kind; the last word that has a kind names the sediment, earlier ones qualify it. */
const KIND: Readonly<Record<string, Kind>> = {
  gravel: 'gravel',
  gravelly: 'gravel',
  pebbles: 'gravel',
  cobbles: 'gravel',
  sand: 'sand',
  sandy: 'sand',
  silt: 'silt',
  silty: 'silt',
  loam: 'silt',
  mud: 'mud',
  muddy: 'mud',
  gyttja: 'mud',
  clay: 'clay',
  clayey: 'clay',
  peat: 'peat',
  peaty: 'peat',
  organic: 'peat',
  wood: 'peat',
  soil: 'soil',
  palaeosol: 'soil',
  rooted: 'soil',
  shell: 'shells',
  shells: 'shells',
  shelly: 'shells',
  diamicton: 'till',
  till: 'till',
};

/** Neighbours in grain size, or in how much of them is organic. */
const AKIN: readonly (readonly [Kind, Kind])[] = [
  ['gravel', 'sand'],
  ['gravel', 'till'],
  ['sand', 'silt'],
  ['sand', 'shells'],
  ['silt', 'mud'],
  ['silt', 'clay'],
  ['mud', 'clay'],
  ['mud', 'peat'],
  ['clay', 'soil'],
  ['peat', 'soil'],
];

/** Null where one of the names is missing or says *unknown*: then nothing can be said. */
export function likeness(
  a: { sediment: string | null; secondary_sediment: string | null },
  b: { sediment: string | null; secondary_sediment: string | null },
): Likeness | null {
  const [one, other] = [tidy(a.sediment), tidy(b.sediment)];
  if (one === '' || other === '') return null;
  if (one === other) return 'same';
  const [kindsOfOne, kindsOfOther] = [kindsOf(one), kindsOf(other)];
  const [main, mainOfOther] = [kindsOfOne.at(-1), kindsOfOther.at(-1)];
  if (main === undefined || mainOfOther === undefined) return 'different';
  const qualified = [
    ...kindsOfOne.map((kind) => [kind, mainOfOther] as const),
    ...kindsOfOther.map((kind) => [main, kind] as const),
    ...kindsOf(tidy(a.secondary_sediment)).map((kind) => [kind, mainOfOther] as const),
    ...kindsOf(tidy(b.secondary_sediment)).map((kind) => [main, kind] as const),
  ];
  if (qualified.some(([x, y]) => x === y)) return 'akin';
  return AKIN.some(([x, y]) => (x === main && y === mainOfOther) || (y === main && x === mainOfOther))
    ? 'akin'
    : 'different';
}

function tidy(name: string | null): string {
  const words = (name ?? '')
    .toLowerCase()
    .replace(/[\s_,;-]+/g, ' ')
    .trim();
  return words === 'unknown' ? '' : words;
}

const kindsOf = (name: string): Kind[] => name.split(' ').flatMap((word) => KIND[word] ?? []);
