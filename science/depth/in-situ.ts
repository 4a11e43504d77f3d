/** In-situ depths from a depth model, ours or a rival: one question for all. */
import { quantilesBySelection } from '@stillstand/science/base';
import type { EnteredPlace } from '@stillstand/science/rig';
import {
  type DecayingModel,
  type DepthCurve,
  type DepthEstimate,
  type DepthModel,
  type StraightModel,
  summaryOf,
} from './model.ts';
import { placer } from './placing.ts';

/**
 * Depth in the ground, m below the ground at the start of the hole, of a length along everything that entered (as the
 * rig counts it, m), or of a place known within bounds.
 */
export function inSituDepth(model: DepthModel, where: number | EnteredPlace): DepthEstimate {
  return inSituDepths(model, [where])[0]!;
}

/** The same of several places. */
export function inSituDepths(model: DepthModel, places: readonly (number | EnteredPlace)[]): DepthEstimate[] {
  if (model.kind !== 'decaying') return places.map((where) => onStraight(model, where));
  const place = placer(model);
  return places.map((where) => {
    const draws = new Float64Array(model.draws);
    const beyond = place(where, draws);
    return { ...summaryOf(draws), draws, beyond };
  });
}

/** Depth against entered length, for drawing; `points` evenly along what entered. */
export function depthCurve(model: DepthModel, points = 101): DepthCurve {
  return model.kind === 'decaying' ? curveOfDraws(model, points) : straightLine(model, points);
}

function curveOfDraws(model: DecayingModel, points: number): DepthCurve {
  const { draws: n, edges_m, entered_m: entered } = model;
  const count = edges_m.length;
  const place = placer(model);
  const scratch = Float64Array.from({ length: n }, (_, i) => entered[i * count + count - 1]!);
  const [end] = quantilesBySelection(scratch, [0.5]);
  const entered_m = Float64Array.from({ length: points }, (_, i) => (end! * i) / Math.max(1, points - 1));
  const median_m = new Float64Array(points);
  const lower95_m = new Float64Array(points);
  const upper95_m = new Float64Array(points);
  for (let i = 0; i < points; i++) {
    place(entered_m[i]!, scratch);
    const [low, middle, high] = quantilesBySelection(scratch, [0.025, 0.5, 0.975]);
    // never back up, as the errors of two runs nearer than they could make it
    lower95_m[i] = Math.max(low!, i > 0 ? lower95_m[i - 1]! : low!);
    median_m[i] = Math.max(middle!, i > 0 ? median_m[i - 1]! : middle!);
    upper95_m[i] = Math.max(high!, i > 0 ? upper95_m[i - 1]! : high!);
  }
  return { entered_m, median_m, lower95_m, upper95_m };
}

const depthBelowStart = (
  { from_m, penetration_m, factor, missing_m }: StraightModel,
  entered: number,
): number => Math.min(penetration_m - from_m, entered * factor + missing_m);

/** Without errors of its own; a place between bounds is even there, and both rivals are straight. */
function onStraight(model: StraightModel, place: number | EnteredPlace): DepthEstimate {
  const low = typeof place === 'number' ? place : place.low_m;
  const high = typeof place === 'number' ? place : place.high_m;
  const value = model.from_m + depthBelowStart(model, Math.max(0, (low + high) / 2));
  const half = (depthBelowStart(model, Math.max(0, high)) - depthBelowStart(model, Math.max(0, low))) / 2;
  return {
    value,
    sigma: half / Math.sqrt(3),
    lower95: value - 0.95 * half,
    upper95: value + 0.95 * half,
    draws: Float64Array.of(value),
    beyond: (low + high) / 2 > endOf(model) + 1e-9 ? 1 : 0,
  };
}

const endOf = ({ from_m, penetration_m, factor, missing_m }: StraightModel): number =>
  Math.max(0, (penetration_m - from_m - missing_m) / factor);

function straightLine(model: StraightModel, points: number): DepthCurve {
  const end = endOf(model);
  const entered_m = Float64Array.from({ length: points }, (_, i) => (end * i) / Math.max(1, points - 1));
  const median_m = entered_m.map((e) => model.from_m + depthBelowStart(model, e));
  return { entered_m, median_m, lower95_m: median_m.slice(), upper95_m: median_m.slice() };
}
