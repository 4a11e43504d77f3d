/** The line through the holes as it is drawn at home: the ground levelled along it, and how contacts run between holes. */
import type { RandomStream } from '@stillstand/science/base';
import type { Place } from './section.ts';
import { plain, type Sheets } from './sheet.ts';

const LINE = 'A';
const HOLES = ['T2', 'T3', 'M1', 'M2', 'M3'] as const;

/** Stations, metres from the first hole, and how far the ground there is above a straight line between the holes. */
const STATIONS: readonly (readonly [along_m: number, above_m: number])[] = [
  [-12, -1.1],
  [0, 0],
  [22, 0.34],
  [48, 0.41],
  [82, 0.16],
  [130, 0],
  [176, -0.12],
  [232, -0.06],
  [246, -0.72],
  [258, -0.08],
  [285, 0],
  [352, -0.28],
  [410, 0],
  [470, 0.09],
  [527, 0],
  [541, 0.22],
];
/** 1 sigma of a station: the staff stands on a tuft or beside it. */
const STATION_SIGMA_M = 0.02;

/** `error_m` is what all levelled heights are wrong by together. */
export function writeSectionLine(
  coast: readonly Place[],
  error_m: number,
  sheets: Sheets,
  random: RandomStream,
): void {
  sheets.write('section_lines', { line: LINE, holes: HOLES.join('; ') });
  const first_m = coast[0]!.along_m;
  for (const [along_m, above_m] of STATIONS) {
    const true_m = groundAt(coast, first_m + along_m) + above_m;
    sheets.write('section_profile', {
      line: LINE,
      distance_m: along_m,
      elevation_m: plain(true_m + error_m + STATION_SIGMA_M * random.split(along_m).normal(), 2),
    });
  }
  const row = { line: LINE } as const;
  sheets.write('section_boundaries', {
    ...row,
    horizon: '7',
    hole_a: 'T3',
    hole_b: 'M1',
    ending: 'pinch_out',
    at_fraction: 0.57,
  });
  sheets.write('section_boundaries', {
    ...row,
    horizon: '4',
    hole_a: 'M1',
    hole_b: 'M2',
    ending: 'pinch_out',
    at_fraction: 0.4,
  });
  sheets.write('section_boundaries', {
    ...row,
    horizon: 'basal peat',
    hole_a: 'M1',
    hole_b: 'M2',
    ending: 'continuous',
    lift_m: -0.3,
  });
}

/** Straight between the places, and level beyond them. */
function groundAt(coast: readonly Place[], along_m: number): number {
  const after = coast.findIndex((place) => place.along_m >= along_m);
  if (after === -1) return coast.at(-1)!.ground_m;
  if (after === 0) return coast[0]!.ground_m;
  const [from, to] = [coast[after - 1]!, coast[after]!];
  const share = (along_m - from.along_m) / (to.along_m - from.along_m);
  return from.ground_m + share * (to.ground_m - from.ground_m);
}
