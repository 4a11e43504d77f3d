/**
 * Signs for what was seen in a unit: structures and fossils. Each sits in a square of 8 pt about its centre. Past 250
 * lines because it is one alphabet.
 */
import { LINE, useInk } from './ink.ts';
import { dot, horizontal, polygon, r2, vertical } from './path.ts';
import { Text } from './text.tsx';

interface Sign {
  name: string;
  /** Stroked. */
  d?: string;
  /** Filled with ink. */
  solid?: string;
}

const SIGNS: Record<string, Sign> = {
  roots: { name: 'roots', d: `${vertical(0, -3.2, 3.2)}M0 -.6L-2.4 2.6M0 -.6L2.4 2.6` },
  shells: {
    name: 'shells',
    d: 'M-3.4 -1.6H3.4C3.2 3 -3.2 3 -3.4 -1.6ZM-1.4 -1.6V1.5M0 -1.6V1.9M1.4 -1.6V1.5',
  },
  'shell fragments': {
    name: 'shell fragments',
    d: 'M-3.2 -1.2C-3 1.4 -1 1.8 -.4 .2M.6 -.6C1 2 2.8 2 3.2 -.2M-1 2.6L.4 2',
  },
  foraminifera: {
    name: 'foraminifera',
    d: 'M2.4 0A1.3 1.3 0 1 1 -.2 0A1.3 1.3 0 1 1 2.4 0ZM-.2 .2A1 1 0 1 1 -2.2 .2A1 1 0 1 1 -.2 .2ZM-.4 -1.7A.8 .8 0 1 1 -2 -1.7A.8 .8 0 1 1 -.4 -1.7Z',
  },
  diatoms: { name: 'diatoms', d: 'M-3.2 0Q0 -3 3.2 0Q0 3 -3.2 0ZM-1.8 0H1.8' },
  laminae: {
    name: 'laminae',
    d: `${horizontal(-3.4, 3.4, -2.2)}${horizontal(-3.4, 3.4, 0)}${horizontal(-3.4, 3.4, 2.2)}`,
  },
  'cross bedding': {
    name: 'cross bedding',
    d: 'M-3.4 -2H3.4M-3.4 2.2H3.4M-3 -2Q-2 1.4 1 2.2M0 -2Q1 1.2 3.4 2',
  },
  ripples: { name: 'ripples', d: 'M-3.6 .8Q-2.6 -1.8 -1.2 .8Q-.2 -1.8 1.2 .8Q2.2 -1.8 3.6 .8' },
  burrows: { name: 'burrows', d: 'M-1.8 -3V1.2Q-1.8 3 0 3T1.8 1.2V-3' },
  pebbles: {
    name: 'pebbles',
    d: 'M-.2 -.6A1.9 1.6 0 1 1 -4 -.6A1.9 1.6 0 1 1 -.2 -.6ZM3.4 1A1.5 1.2 0 1 1 .4 1A1.5 1.2 0 1 1 3.4 1Z',
  },
  'fining up': {
    name: 'fining up',
    solid: polygon([
      [0, -3.6],
      [2.2, 3.6],
      [-2.2, 3.6],
    ]),
  },
  'coarsening up': {
    name: 'coarsening up',
    solid: polygon([
      [0, 3.6],
      [2.2, -3.6],
      [-2.2, -3.6],
    ]),
  },
  charcoal: { name: 'charcoal', solid: 'M-2.8 2.4L-2.2 -1.4L-.6 -.4L.4 -2.4L2.2 -1L2.8 2.4Z' },
  wood: { name: 'wood', d: 'M-3.4 -1.4H2.6Q3.6 0 2.6 1.4H-3.4ZM-3.4 0H1.6' },
  'plant remains': {
    name: 'plant remains',
    d: 'M-3.2 2Q0 1.4 3 -2M-1.4 1.4Q-1.8 -.4 -.6 -1.6M.6 .4Q2 1.4 2.8 .8',
  },
  'mud clasts': {
    name: 'mud clasts',
    d: 'M-3.2 -.8L-1.2 -2.2L.2 -.6L-1.6 .8ZM.4 1.6L2.2 -.2L3.4 1.2L1.8 2.6Z',
  },
  mottles: {
    name: 'mottles',
    solid: 'M-.6 -1A1.3 1 0 1 1 -3.2 -1A1.3 1 0 1 1 -.6 -1ZM3.2 1.2A1.4 1 0 1 1 .4 1.2A1.4 1 0 1 1 3.2 1.2Z',
  },
  nodules: { name: 'nodules', d: `M2.4 0A2.4 2.4 0 1 1 -2.4 0A2.4 2.4 0 1 1 2.4 0Z${dot(0, 0)}` },
  desiccation: { name: 'desiccation cracks', d: 'M-3.4 -2H3.4M-2 -2L-1.4 2.4L-.8 -2M1 -2L1.6 2.4L2.2 -2' },
  bedded: { name: 'bedding', d: `${horizontal(-3.4, 3.4, -1.6)}${horizontal(-3.4, 3.4, 1.8)}` },
  'flaser bedded': {
    name: 'flasers',
    d: 'M-3.6 -1Q-2.4 1.4 -1 -1Q.4 1.4 1.6 -1Q2.8 1.4 3.6 -.6',
    solid: 'M-3.4 1.4Q-1.6 3.4 0 1.4Q-1.6 2.2 -3.4 1.4Z',
  },
  'lenticular bedded': {
    name: 'lenses',
    d: 'M-3.6 -1.2Q-1.6 -3 .4 -1.2Q-1.6 -.2 -3.6 -1.2ZM-.8 1.8Q1.4 0 3.6 1.8Q1.4 2.8 -.8 1.8Z',
  },
  bioturbated: {
    name: 'bioturbation',
    d: 'M-3.2 -2Q-1 -3.4 -1.4 -.6T1.4 0Q3.6 -1.4 2.8 2M-2.6 2.4Q-.6 .6 .6 2.6',
  },
  deformed: { name: 'deformation', d: 'M-3.6 -1.4Q-1.8 -4 0 -1.4T3.6 -1.4M-3.6 2Q-1.8 -.6 0 2T3.6 2' },
  'articulated shells': { name: 'articulated shells', d: 'M-3.4 0Q0 -4 3.4 0Q0 4 -3.4 0ZM-3.4 0H3.4' },
  'shells in life position': {
    name: 'shells in life position',
    d: 'M0 -3.6Q3.6 -.4 0 3.2Q-3.6 -.4 0 -3.6ZM0 -3.6V3.2',
  },
  oysters: { name: 'oysters', d: 'M-3 1.6Q-3.6 -2.6 0 -2.8T3.2 1Q.4 3.4 -3 1.6ZM-1.8 .8Q-1.4 -1.2 .4 -1.4' },
  barnacles: { name: 'barnacles', d: 'M-3.2 2.4L-1.4 -2.2H1.4L3.2 2.4ZM-1.4 -2.2L-.8 2.4M1.4 -2.2L.8 2.4' },
  coral: { name: 'coral', d: `${vertical(0, -1.2, 3.4)}M0 1.6L-2.4 -.6V-3M0 .6L2.4 -1.2V-3.2M0 -1.2V-3.4` },
  ostracods: { name: 'ostracods', d: 'M-2.8 .4Q-2 -2.4 .6 -2Q3.4 -1.4 2.4 1Q0 2.6 -2.8 .4Z' },
  'sea urchin spines': { name: 'sea-urchin spines', d: 'M-3 2.6L-.6 -3M-1 3L1.4 -2.8M1 2.8L3.2 -2' },
  'fish remains': { name: 'fish remains', d: 'M-3.4 0Q-.6 -2.8 2 0Q-.6 2.8 -3.4 0ZM2 0L3.8 -1.8V1.8Z' },
  'wood in place': {
    name: 'wood in place',
    d: 'M-1.4 -3.4V1Q-1.6 2.4 -3.2 3.2M1.4 -3.4V1Q1.6 2.4 3.2 3.2M0 1V3.2M-1.4 -3.4H1.4',
  },
  leaves: { name: 'leaves', d: 'M-3.2 2Q-2.8 -2.6 3.2 -2.4Q3 2.8 -3.2 2ZM-3.2 2L1.4 -1' },
  seeds: {
    name: 'seeds',
    solid:
      'M-1 -1.2A1.1 1.6 0 1 1 -3.2 -1.2A1.1 1.6 0 1 1 -1 -1.2ZM1.2 1.6A1.1 1.6 0 1 1 -1 1.6A1.1 1.6 0 1 1 1.2 1.6ZM3.4 -1A1.1 1.6 0 1 1 1.2 -1A1.1 1.6 0 1 1 3.4 -1Z',
  },
  mangrove: {
    name: 'mangrove',
    d: 'M0 -3.4V-.8M0 -.8Q-2.8 -.6 -3.2 3.2M0 -.8Q-1 .6 -1.1 3.2M0 -.8Q1 .6 1.1 3.2M0 -.8Q2.8 -.6 3.2 3.2',
  },
  reeds: { name: 'reeds', d: 'M-1.8 3.4V-2.6M.2 3.4V-3.4M2.2 3.4V-2.2M-1.8 0L-3.2 -1.6M2.2 .6L3.4 -1' },
};

/** Other words for the same, and words of the shipped vocabularies that share a sign. */
const SAME: Record<string, string> = {
  root: 'roots',
  rootlets: 'roots',
  rooted: 'roots',
  rhizomes: 'roots',
  shell: 'shells',
  bivalves: 'shells',
  gastropods: 'shells',
  molluscs: 'shells',
  cockles: 'shells',
  'shell hash': 'shell fragments',
  'broken shells': 'shell fragments',
  forams: 'foraminifera',
  lamination: 'laminae',
  laminated: 'laminae',
  laminations: 'laminae',
  bedding: 'bedded',
  'cross bedded': 'cross bedding',
  'cross lamination': 'cross bedding',
  rippled: 'ripples',
  'ripple lamination': 'ripples',
  burrowed: 'burrows',
  bioturbation: 'bioturbated',
  pebble: 'pebbles',
  stones: 'pebbles',
  gravel: 'pebbles',
  'graded upward': 'fining up',
  'fining upward': 'fining up',
  'fining upwards': 'fining up',
  'graded downward': 'coarsening up',
  'coarsening upward': 'coarsening up',
  'coarsening upwards': 'coarsening up',
  twigs: 'wood',
  plants: 'plant remains',
  'plant fragments': 'plant remains',
  organics: 'plant remains',
  'rip up clasts': 'mud clasts',
  'mud balls': 'mud clasts',
  mottled: 'mottles',
  mottling: 'mottles',
  concretions: 'nodules',
  desiccated: 'desiccation',
  'desiccation cracks': 'desiccation',
};

/** Said of a unit, but nothing to draw. */
const NOTHING = new Set(['massive', 'none', 'structureless', '']);

const tidy = (word: string): string =>
  word
    .toLowerCase()
    .replace(/[\s_-]+/g, ' ')
    .trim();

/** The sign of a word: its own, that of its synonym, or of the longest word with a sign inside it ("pebbles at the base"). */
function signOf(word: string): Sign | null {
  const key = tidy(word);
  const own = SIGNS[SAME[key] ?? key];
  if (own !== undefined) return own;
  const within = [...Object.keys(SIGNS), ...Object.keys(SAME)]
    .filter((known) => ` ${key} `.includes(` ${known} `))
    .sort((a, b) => b.length - a.length)[0];
  return within === undefined ? null : (SIGNS[SAME[within] ?? within] ?? null);
}

/** Names a unit's words are listed under, each once, so that "forams" and "foraminifera" share a line of the legend. */
export function coreSymbols(words: readonly string[]): string[] {
  const names = words
    .filter((word) => !NOTHING.has(tidy(word)))
    .map((word) => signOf(word)?.name ?? tidy(word));
  return [...new Set(names)];
}

const BY_NAME = new Map(Object.values(SIGNS).map((sign) => [sign.name, sign]));

/** The sign of a name; a word without one is a ring with its first letters, explained in the legend. */
export function CoreSymbol({ name, x, y }: { name: string; x: number; y: number }) {
  const ink = useInk();
  const sign = BY_NAME.get(name);
  if (sign === undefined) {
    return (
      <g>
        <circle cx={r2(x)} cy={r2(y)} r={4.6} fill={ink.paper} stroke={ink.ink} strokeWidth={LINE.fine} />
        <Text x={x} y={y + 2.4} anchor="middle">
          {name.slice(0, 2)}
        </Text>
      </g>
    );
  }
  return (
    <g transform={`translate(${r2(x)} ${r2(y)})`}>
      {sign.d === undefined ? null : (
        <path
          d={sign.d}
          fill="none"
          stroke={ink.ink}
          strokeWidth={LINE.edge}
          strokeLinecap="round"
          strokeLinejoin="round"
        />
      )}
      {sign.solid === undefined ? null : <path d={sign.solid} fill={ink.ink} />}
    </g>
  );
}
