/**
 * Ages that points have from their depth: the dates of a hole are read together (`science/dating`, age against depth), and the
 * history of the hole walks within the chain of the curve. Each change that its dates accept is accepted once more with the
 * likelihood of the heights, the path of the sea integrated out; so depth, age and sea are joint, and no draw of ages is used
 * that was made without the heights. The state of the hole, one of the joint draws of its depths, says how deep each sample
 * lies: its height goes with it, and the error of the depth model is in it and nowhere else.
 */
import { type HoleOfClocks, inHistory, sharingOf } from '@stillstand/science/clocks';
import {
  dateInHole,
  depthsIn,
  type HoleToWalk,
  holeToWalk,
  type Places,
  type SharedDate,
} from '@stillstand/science/dating';
import type { AgeOfHole, CurvePoint } from '../problem/model.ts';

/** A hole with points that have their ages from it. */
export interface HoleInCurve {
  hole: string;
  model: HoleToWalk;
  places: Places;
  /** Numbers of the points, in the order of `places`. */
  points: Int32Array;
  /** [state × points]: by how much the sample lies deeper than its height was made for, m. */
  deeper_m: Float64Array;
  /** Number, in the hole, of the date of each point's own sample; −1 for one that has none. */
  dates: Int32Array;
  /** Dates that share an error with others. */
  shared: readonly SharedDate[];
}

/** What a hole says is never changed: each is made ready once while it lives. */
const ready = new WeakMap<HoleOfClocks, HoleToWalk | string>();

/** Or why it cannot be used. */
export function holeReady(clocks: HoleOfClocks): HoleToWalk | string {
  const known = ready.get(clocks);
  if (known !== undefined) return known;
  const made = holeToWalk(inHistory(clocks).input, clocks.settings);
  const result = made.kind === 'hole' ? made : made.reason;
  ready.set(clocks, result);
  return result;
}

/** What is wrong with an age from a depth; null for nothing. */
export function faultOf({
  clocks,
  depth_m,
  height_at_m,
}: AgeOfHole): { found: string; expected: string } | null {
  const hole = holeReady(clocks);
  if (typeof hole === 'string')
    return { found: `hole ${clocks.hole}: ${hole}`, expected: 'dates enough for ages against depth' };
  if (depth_m.length !== hole.states)
    return {
      found: `${depth_m.length} depths in ${clocks.hole}`,
      expected: `${hole.states}, as of its dates`,
    };
  if (!Number.isFinite(height_at_m))
    return { found: `a height made for ${height_at_m} m`, expected: 'the depth it was made for' };
  const deepest = depth_m.reduce((a, b) => Math.max(a, b), -Infinity);
  if (!(deepest <= hole.bottom_m * (1 + 1e-12)))
    return {
      found: `${deepest.toFixed(2)} m in ${clocks.hole}`,
      expected: `a depth above its bottom at ${hole.bottom_m.toFixed(2)} m`,
    };
  return null;
}

/** The holes of the points, by name: those of one name are one. */
export function holesOf(points: readonly CurvePoint[]): HoleInCurve[] {
  const byHole = Map.groupBy(
    points.flatMap(({ age }, i) => (age.kind === 'of_hole' ? [{ age, i }] : [])),
    ({ age }) => age.clocks.hole,
  );
  return [...byHole].map(([hole, members]): HoleInCurve => {
    const { clocks } = members[0]!.age;
    const model = holeReady(clocks) as HoleToWalk;
    const depths = members.map(({ age }) => age.depth_m);
    const deeper_m = new Float64Array(model.states * members.length);
    for (let k = 0; k < model.states; k++)
      members.forEach(({ age }, p) => {
        deeper_m[k * members.length + p] = age.depth_m[k]! - age.height_at_m;
      });
    return {
      hole,
      model,
      places: depthsIn(model, depths),
      points: Int32Array.from(members, ({ i }) => i),
      deeper_m,
      dates: Int32Array.from(members, ({ age }) => (age.date === null ? -1 : dateInHole(model, age.date))),
      shared: sharingOf(clocks).flatMap(({ id, sharing }): SharedDate[] => {
        const date = dateInHole(model, id);
        return date < 0 ? [] : [{ date, sharing }];
      }),
    };
  });
}
