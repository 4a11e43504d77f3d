/**
 * The 37 constituents that tide agencies publish: argument V as whole multiples of the mean longitudes and a constant,
 * and which node correction belongs to each. Schureman 1958, Manual of Harmonic Analysis and Prediction of Tides, US
 * Coast and Geodetic Survey Special Publication 98, table 2. The order is the agencies' own, the weightiest first.
 */
import type { NodeName } from './node.ts';

export interface Constituent {
  name: string;
  /** Multiples of T, s, h, p and p1. */
  argument: readonly [T: number, s: number, h: number, p: number, p1: number];
  constant_deg: number;
  /** f is the product of these factors to their powers, u the sum of their angles times the same. */
  node: readonly (readonly [NodeName, number])[];
  /** Of the argument alone, degrees per mean solar hour. */
  speed_deg_h: number;
}

type Row = readonly [string, Constituent['argument'], number, Constituent['node']];
const M2 = [['M2', 1]] as const;
const O1 = [['O1', 1]] as const;

const ROWS: readonly Row[] = [
  ['M2', [2, -2, 2, 0, 0], 0, M2],
  ['S2', [2, 0, 0, 0, 0], 0, []],
  ['N2', [2, -3, 2, 1, 0], 0, M2],
  ['K1', [1, 0, 1, 0, 0], -90, [['K1', 1]]],
  ['M4', [4, -4, 4, 0, 0], 0, [['M2', 2]]],
  ['O1', [1, -2, 1, 0, 0], 90, O1],
  ['M6', [6, -6, 6, 0, 0], 0, [['M2', 3]]],
  [
    'MK3',
    [3, -2, 3, 0, 0],
    -90,
    [
      ['M2', 1],
      ['K1', 1],
    ],
  ],
  ['S4', [4, 0, 0, 0, 0], 0, []],
  ['MN4', [4, -5, 4, 1, 0], 0, [['M2', 2]]],
  ['NU2', [2, -3, 4, -1, 0], 0, M2],
  ['S6', [6, 0, 0, 0, 0], 0, []],
  ['MU2', [2, -4, 4, 0, 0], 0, M2],
  ['2N2', [2, -4, 2, 2, 0], 0, M2],
  ['OO1', [1, 2, 1, 0, 0], -90, [['OO1', 1]]],
  ['LAM2', [2, -1, 0, 1, 0], 180, M2],
  ['S1', [1, 0, 0, 0, 0], 0, []],
  // The perigee is in the argument, so that the mean speed is right, and taken out of u again: see node.ts.
  ['M1', [1, -1, 1, 1, 0], -90, [['M1', 1]]],
  ['J1', [1, 1, 1, -1, 0], -90, [['J1', 1]]],
  ['MM', [0, 1, 0, -1, 0], 0, [['MM', 1]]],
  ['SSA', [0, 0, 2, 0, 0], 0, []],
  ['SA', [0, 0, 1, 0, 0], 0, []],
  ['MSF', [0, 2, -2, 0, 0], 0, [['MM', 1]]],
  ['MF', [0, 2, 0, 0, 0], 0, [['MF', 1]]],
  ['RHO', [1, -3, 3, -1, 0], 90, O1],
  ['Q1', [1, -3, 1, 1, 0], 90, O1],
  ['T2', [2, 0, -1, 0, 1], 0, []],
  ['R2', [2, 0, 1, 0, -1], 180, []],
  ['2Q1', [1, -4, 1, 2, 0], 90, O1],
  ['P1', [1, 0, -1, 0, 0], 90, []],
  // Overtide 2·S2 − M2: the angle of M2 turns the other way.
  ['2SM2', [2, 2, -2, 0, 0], 0, [['M2', -1]]],
  ['M3', [3, -3, 3, 0, 0], 0, [['M3', 1]]],
  ['L2', [2, -1, 2, -1, 0], 180, [['L2', 1]]],
  [
    '2MK3',
    [3, -4, 3, 0, 0],
    90,
    [
      ['M2', 2],
      ['K1', -1],
    ],
  ],
  ['K2', [2, 0, 2, 0, 0], 0, [['K2', 1]]],
  ['M8', [8, -8, 8, 0, 0], 0, [['M2', 4]]],
  ['MS4', [4, -2, 2, 0, 0], 0, M2],
];

/** Degrees per mean solar hour of T, s, h, p, p1: the linear terms of astronomy.ts. */
const CENTURY_H = 36_525 * 24;
const RATES = [
  15,
  481267.88123421 / CENTURY_H,
  36000.76983 / CENTURY_H,
  4069.0137287 / CENTURY_H,
  1.71946 / CENTURY_H,
];

/** Degrees per mean solar hour of an argument. */
export const speedOf = (argument: Constituent['argument']): number =>
  argument.reduce((sum, times, i) => sum + times * RATES[i]!, 0);

export const CONSTITUENTS: readonly Constituent[] = ROWS.map(([name, argument, constant_deg, node]) => ({
  name,
  argument,
  constant_deg,
  node,
  speed_deg_h: speedOf(argument),
}));

const BY_NAME = new Map(CONSTITUENTS.map((constituent) => [constituent.name, constituent]));
/** Other ways agencies write the same. */
const ALSO: Readonly<Record<string, string>> = {
  LAMBDA2: 'LAM2',
  LDA2: 'LAM2',
  RHO1: 'RHO',
  Λ2: 'LAM2',
  Μ2: 'MU2',
  Ν2: 'NU2',
  Ρ1: 'RHO',
};

/** By name in any case, Greek letters too; null where it is none of the 37. */
export function constituentNamed(name: string): Constituent | null {
  // The micro sign is a letter of its own.
  const plain = name.trim().replace('µ', 'μ').toUpperCase();
  return BY_NAME.get(ALSO[plain] ?? plain) ?? null;
}
