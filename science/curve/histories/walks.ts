/** Histories of holes as a chain of the curve has them. */
import type { RandomStream } from '@stillstand/science/base';
import {
  agesOfWalk,
  copyOfWalk,
  endWarmUpOfWalk,
  nothingGiven,
  outOfPlaceOfWalk,
  type SharingWalk,
  startWalk,
  stateOfWalk,
} from '@stillstand/science/dating';
import type { Observations } from '../process/observations.ts';
import type { HoleInCurve } from './histories.ts';

const KA = 1000;

export interface WalkInCurve extends SharingWalk {
  of: HoleInCurve;
  /** Ages of its points as they were last asked, cal BP. */
  age_cal_bp: Float64Array;
}

export const startWalks = (holes: readonly HoleInCurve[], stream: RandomStream): WalkInCurve[] =>
  holes.map((of) => ({
    of,
    walk: startWalk(of.model, of.places, stream.split('history').split(of.hole)),
    age_cal_bp: new Float64Array(of.points.length),
    shared: of.shared,
    given: nothingGiven(of.shared),
  }));

/** The same for a chain that goes on by itself. */
export const walksApart = (walks: readonly WalkInCurve[], stream: RandomStream): WalkInCurve[] =>
  walks.map(({ of, walk, age_cal_bp, given }) => ({
    of,
    walk: copyOfWalk(walk, stream.split('history').split(of.hole)),
    age_cal_bp: age_cal_bp.slice(),
    shared: of.shared,
    given: given.slice(),
  }));

/** What a chain has of its points that a history sets: ages, and by how much heights are off. */
interface SetByHistory {
  o: Pick<Observations, 'age_ka'>;
  lowered_m: Float64Array;
  shift_m: Float64Array;
}

/** Ages and depths of its points as a history has them; whether any is another than it was. */
export function setByHistory(
  { o, lowered_m, shift_m }: SetByHistory,
  { of, walk, age_cal_bp }: WalkInCurve,
): boolean {
  const { points, deeper_m } = of;
  agesOfWalk(walk, age_cal_bp);
  const row = stateOfWalk(walk) * points.length;
  let isOther = false;
  for (let p = 0; p < points.length; p++) {
    const i = points[p]!;
    const age_ka = age_cal_bp[p]! / KA;
    const lowered = deeper_m[row + p]!;
    if (age_ka === o.age_ka[i] && lowered === lowered_m[i]) continue;
    isOther = true;
    o.age_ka[i] = age_ka;
    shift_m[i] = shift_m[i]! + lowered - lowered_m[i]!;
    lowered_m[i] = lowered;
  }
  return isOther;
}

export function endWarmUpOfWalks(walks: readonly WalkInCurve[]): void {
  for (const { walk } of walks) endWarmUpOfWalk(walk);
}

/** Probability that the date of a point's own sample is out of place, by point; 0 where it has none in a history. */
export function datesOutOfPlace(walks: readonly WalkInCurve[], into: Float64Array): void {
  for (const { of, walk } of walks)
    of.dates.forEach((date, p) => {
      into[of.points[p]!] = date < 0 ? 0 : outOfPlaceOfWalk(walk, date);
    });
}
