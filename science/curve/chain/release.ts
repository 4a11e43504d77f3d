/**
 * Frees the latent heights of all soft points at once (limits, and index points with a uniform or one-sided part). Drawn
 * one by one they hold each other: two limits side by side that the sea is far from would pin the level between them to
 * their latent heights. Here the path is drawn given the latent heights, the latent heights are forgotten, the path moves
 * along an ellipse (elliptical slice sampling: Murray, Adams & MacKay 2010, J. Mach. Learn. Res. W&CP 9:541–548) and the
 * latent heights are drawn anew.
 *
 * The ellipse needs a normal law near the target. It has the exact heights as they are, uniform and lowered ones as normals
 * of a variance no smaller than theirs (s² + h²/3; s² + L²), limits not at all; the slice corrects by the ratio of each
 * true factor to its stand-in, which stays bounded.
 */
import { log, type RandomStream, square } from '@stillstand/science/base';
import { drawHeight, EXACT, LOWERED, logHeight, MARINE, TERRESTRIAL } from '../problem/height.ts';
import type { Problem } from '../problem/problem.ts';
import type { Observations } from '../process/observations.ts';
import { drawPath, type Path, path } from '../process/path.ts';
import { type Rates, trend_m } from '../process/rates.ts';

const PI = Math.PI;
const SILENT = { normal: (): number => 0 };

export interface Release {
  problem: Problem;
  /** Points whose latent height is free. */
  soft: Int32Array;
  /** The stand-in chain: ages and order shared with the true one. */
  standIn: Observations;
  /** What the stand-in of each soft point has on top of its own variance, m²; infinite for limits. */
  more_m2: Float64Array;
  path: Path;
  /** Level at each soft point: of the centre of the ellipse; from there to the current and to another path. */
  centre_m: Float64Array;
  current_m: Float64Array;
  other_m: Float64Array;
}

/** Null where every height walked is exact. */
export function release(problem: Problem, o: Observations, isLoose: Uint8Array): Release | null {
  const soft = problem.visit.filter((i) => problem.kind[i] !== EXACT && isLoose[i] === 0);
  if (soft.length === 0) return null;
  const more_m2 = new Float64Array(soft.length);
  for (let k = 0; k < soft.length; k++) {
    const i = soft[k]!;
    const kind = problem.kind[i]!;
    const width2 = square(problem.width_m[i]!);
    const limit = kind === TERRESTRIAL || kind === MARINE;
    more_m2[k] = limit ? Infinity : kind === LOWERED ? width2 : width2 / 3;
  }
  return {
    problem,
    soft,
    standIn: { ...o, height_m: new Float64Array(o.count), variance_m2: new Float64Array(o.count) },
    more_m2,
    path: path(o.count, new Float64Array(0)),
    centre_m: new Float64Array(soft.length),
    current_m: new Float64Array(soft.length),
    other_m: new Float64Array(soft.length),
  };
}

/** Redraws `latent_m` of every soft point; `o.height_m` must be that of the current latent heights. */
export function releaseHeights(
  r: Release,
  o: Observations,
  height: Record<'latent_m' | 'centre_m' | 'shift_m' | 'lowered_m', Float64Array>,
  rates: Rates,
  stream: RandomStream,
): void {
  const { soft, standIn, path, problem } = r;
  const { latent_m, centre_m, shift_m, lowered_m } = height;
  standIn.height_m.set(o.height_m);
  standIn.variance_m2.set(o.variance_m2);
  for (let k = 0; k < soft.length; k++) {
    const i = soft[k]!;
    standIn.variance_m2[i] = o.variance_m2[i]! + r.more_m2[k]!;
    standIn.height_m[i] = centre_m[i]! - shift_m[i]! + trend_m(rates, o.age_ka[i]!);
  }
  drawPath(path, standIn, rates, SILENT);
  for (let k = 0; k < soft.length; k++) r.centre_m[k] = path.levelAtNode_m[soft[k]!]!;
  drawPath(path, standIn, rates, stream);
  for (let k = 0; k < soft.length; k++) r.other_m[k] = path.levelAtNode_m[soft[k]!]! - r.centre_m[k]!;
  drawPath(path, o, rates, stream);
  for (let k = 0; k < soft.length; k++) r.current_m[k] = path.levelAtNode_m[soft[k]!]! - r.centre_m[k]!;

  const least = slice(r, height, o, 1, 0) + log(stream.uniform());
  let angle = 2 * PI * stream.uniform();
  let low = angle - 2 * PI;
  let high = angle;
  let c = 1;
  let s = 0;
  for (;;) {
    c = cosine(angle);
    s = cosine(angle - PI / 2);
    if (slice(r, height, o, c, s) > least) break;
    if (angle < 0) low = angle;
    else high = angle;
    angle = low + (high - low) * stream.uniform();
    // The bracket closes on where the path stands.
    if (high - low < 1e-12) {
      c = 1;
      s = 0;
      break;
    }
  }
  for (let k = 0; k < soft.length; k++) {
    const i = soft[k]!;
    const mean = r.centre_m[k]! + c * r.current_m[k]! + s * r.other_m[k]! + shift_m[i]!;
    latent_m[i] = drawHeight(
      problem.kind[i]!,
      centre_m[i]!,
      problem.width_m[i]!,
      mean,
      o.variance_m2[i]!,
      stream,
    );
    const height = latent_m[i]! + trend_m(rates, o.age_ka[i]!);
    o.raw_m[i] = height - lowered_m[i]!;
    o.height_m[i] = height - shift_m[i]!;
  }
}

/** Log ratio of the true factors to their stand-ins on the path at an angle of the ellipse. */
function slice(
  r: Release,
  height: { centre_m: Float64Array; shift_m: Float64Array },
  o: Observations,
  c: number,
  s: number,
): number {
  const { soft, problem, standIn } = r;
  let sum = 0;
  for (let k = 0; k < soft.length; k++) {
    const i = soft[k]!;
    const centre = height.centre_m[i]!;
    const mean = r.centre_m[k]! + c * r.current_m[k]! + s * r.other_m[k]! + height.shift_m[i]!;
    sum += logHeight(problem.kind[i]!, centre, problem.width_m[i]!, mean, o.variance_m2[i]!);
    const spread = standIn.variance_m2[i]!;
    if (spread < Infinity) sum += (0.5 * (centre - mean) * (centre - mean)) / spread;
  }
  return sum;
}

/** cos x for |x| ≤ 4π from + − × ÷ alone, so that every engine agrees: to [−π, π], a quarter of it by Taylor, then
 * doubled twice. Within 1e-15. */
function cosine(x: number): number {
  const turns = Math.round(x / (2 * PI));
  const y = (x - turns * 2 * PI) / 4;
  const z = y * y;
  let sum = 0;
  // To y¹⁸/18!, below 1e-17 at y = π/4.
  for (let k = 18; k > 0; k -= 2) sum = (-z / (k * (k - 1))) * (1 + sum);
  let c = 1 + sum;
  c = 2 * c * c - 1;
  return 2 * c * c - 1;
}
