/**
 * What is expected of each constituent before a record is seen: its ratio to a neighbour, the same phase lag, and how
 * far from that it may be. The sea answers neighbouring speeds in nearly the same way (Munk & Cartwright 1966, Phil.
 * Trans. R. Soc. A 259, 533), so that the tide-generating potential gives the ratios.
 */
import { square } from '@stillstand/science/base';
import { CONSTITUENTS, type Constituent, constituentNamed, speedOf } from './constituent.ts';
import type { TidalConstant } from './prediction.ts';

export interface Expected {
  constituent: Constituent;
  /** Neighbour of its own species it follows; null where it is expected at 0. */
  from: string | null;
  /** Amplitude over the neighbour's, and phase lag less the neighbour's. */
  ratio: number;
  turn_deg: number;
  /**
   * How far from that it may be, 1 sigma of either component: a share of the neighbour's amplitude; of the record's own
   * sd; metres.
   */
  off_neighbour: number;
  off_record: number;
  off_m: number;
  /** Fitted because it is there, and not returned: no list of constants has it. */
  isUnlisted: boolean;
}

/** Scatter of a ratio between close neighbours; the sun's warmth in S2 is the largest of it (Zetler 1971; from memory). */
const CLOSE = 0.1;
/** The response turns with speed by the age of the tide, 1 to 2 days: up to a radian per °/h (Garrett & Munk 1971; from memory). */
const PER_DEG_H = 1;
const M2 = constituentNamed('M2')!;
/** Nothing is expected more closely than constants are published. */
const ROUNDED_M = 0.001;

/**
 * Amplitudes of the potential over the neighbour's: Cartwright & Tayler 1971, Cartwright & Edden 1973, Geophys. J. R.
 * astr. Soc. 23, 45 and 33, 253 (from memory; M1 in the convention of Schureman 1958, where it holds two lines); an
 * ephemeris gives the same (checks/tides). Last, the share of the neighbour that tides of another origin at the same
 * speed may be: compound tides, seasons (common practice, no source).
 */
const RATIOS: readonly (readonly [name: string, from: string, ratio: number, other: number])[] = [
  ['S2', 'M2', 0.4652, 0],
  ['N2', 'M2', 0.1915, 0],
  ['O1', 'K1', 0.7112, 0],
  ['P1', 'K1', 0.331, 0],
  ['K2', 'S2', 0.272, 0],
  ['Q1', 'O1', 0.1914, 0],
  ['NU2', 'N2', 0.1899, 0],
  ['MU2', 'M2', 0.0306, 0.02],
  ['L2', 'M2', 0.0283, 0.03],
  ['2N2', 'N2', 0.1323, 0],
  ['T2', 'S2', 0.0584, 0.03],
  ['J1', 'K1', 0.0559, 0],
  ['M1', 'O1', 0.0554, 0],
  ['OO1', 'K1', 0.0306, 0],
  ['RHO', 'Q1', 0.19, 0],
  ['LAM2', 'M2', 0.0074, 0.008],
  ['2Q1', 'Q1', 0.1323, 0],
  ['R2', 'S2', 0.0084, 0.03],
  ['2SM2', 'S2', 0, 0.02],
  ['MN4', 'M4', 0, 0.6],
  ['MS4', 'M4', 0, 0.6],
  ['S4', 'M4', 0, 0.2],
];

/** Expected at 0, with a share of the record's sd: wide for what a record of a day or two has to settle. */
const BY_RECORD: Readonly<Record<string, number>> = {
  M2: 2,
  K1: 2,
  M4: 0.3,
  M6: 0.15,
  MK3: 0.15,
  '2MK3': 0.1,
  M8: 0.1,
  M3: 0.05,
  S6: 0.05,
};

/** Tides of weather and sun: metres (common practice, no source). */
const BY_SEASON_M: Readonly<Record<string, number>> = {
  SA: 0.07,
  SSA: 0.04,
  MF: 0.02,
  MM: 0.02,
  MSF: 0.02,
  S1: 0.01,
};

/**
 * Tides that no list has, beside one so near that months do not separate them: at most so large a share of it, in any
 * phase, root mean square. M2 of a month is not M2 of the year (common practice, no source); the sun's tides beside K1 and
 * P1 are those of the potential (Cartwright & Edden 1973; from memory).
 */
const UNLISTED: readonly (readonly [
  name: string,
  from: string,
  argument: Constituent['argument'],
  share: number,
])[] = [
  ['M2 - SA', 'M2', [2, -2, 1, 0, 0], 0.006],
  ['M2 + SA', 'M2', [2, -2, 3, 0, 0], 0.006],
  ['PI1', 'K1', [1, 0, -2, 0, 1], 0.0194],
  ['PSI1', 'K1', [1, 0, 2, 0, -1], 0.008],
  ['PHI1', 'K1', [1, 0, 3, 0, 0], 0.0143],
];

/**
 * Of all 37 constituents, the largest first, and of what is beside them. `reference`: constants of a long record of the same
 * waters; where they hold a constituent and its neighbour, their ratio and phase difference are expected instead, with
 * the same tolerance.
 */
export function expectedConstituents(reference: readonly TidalConstant[] = []): Expected[] {
  const known = new Map(reference.map((c) => [constituentNamed(c.constituent)?.name ?? c.constituent, c]));
  const listed = CONSTITUENTS.map((constituent): Expected & { size: number } => {
    const { name, speed_deg_h } = constituent;
    const free = { constituent, from: null, ratio: 0, turn_deg: 0, off_neighbour: 0, isUnlisted: false };
    const relation = RATIOS.find(([of]) => of === name);
    if (relation === undefined) {
      const off_record = BY_RECORD[name] ?? 0;
      const off_m = BY_SEASON_M[name] ?? 0;
      // Rough sizes on a coast with a tide of a metre order those that have no neighbour.
      return { ...free, off_record, off_m: Math.max(off_m, ROUNDED_M), size: off_record / 2 + off_m };
    }
    const [, from, equilibrium, other] = relation;
    const apart = Math.abs(constituentNamed(from)!.speed_deg_h - speed_deg_h);
    const here = known.get(name);
    const there = known.get(from);
    const isKnown = here !== undefined && there !== undefined && there.amplitude_m > 0;
    const ratio = isKnown ? here.amplitude_m / there.amplitude_m : equilibrium;
    const scatter = square(CLOSE) + square(PER_DEG_H * apart);
    return {
      ...free,
      from,
      ratio,
      turn_deg: isKnown ? here.phase_deg - there.phase_deg : 0,
      off_neighbour: Math.sqrt(square(ratio) * scatter + square(other)),
      off_record: 0,
      off_m: ROUNDED_M,
      size: 0,
    };
  });
  const sizeOf = (name: string): number => {
    const of = listed.find(({ constituent }) => constituent.name === name)!;
    return of.from === null ? of.size : Math.max(of.ratio, of.off_neighbour / 2) * sizeOf(of.from);
  };
  const sorted = listed
    .map((of) => ({ of, size: sizeOf(of.constituent.name) }))
    .sort((a, b) => b.size - a.size)
    .map(({ of: { size: _, ...expected } }): Expected => expected);
  const unlisted = UNLISTED.map(([name, from, argument, share]): Expected => {
    const constituent = {
      ...{ name, argument, constant_deg: 0, speed_deg_h: speedOf(argument) },
      node: from === 'M2' ? M2.node : [],
    };
    return {
      ...{ constituent, from, ratio: 0, turn_deg: 0, off_neighbour: share / Math.SQRT2 },
      ...{ off_record: 0, off_m: ROUNDED_M, isUnlisted: true },
    };
  });
  return [...sorted, ...unlisted];
}
