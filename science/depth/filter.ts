/**
 * A particle filter down the hole that looks ahead (twisted: Guarniero, Johansen & Lee 2017, J. Am. Stat. Assoc.
 * 112:1636–1647; from memory). A draw is one state of the hole: a pair of ρ₀ and ℓ, layers, what entered; the errors of
 * the readings follow from it and have only their density here, so that none is drawn before what it is to meet.
 */
import { exp, log, type RandomStream, square } from '@stillstand/science/base';
import type { Ground, Stand } from './cells.ts';
import type { ReadingErrors } from './errors.ts';
import type { Course, LookAhead } from './look-ahead.ts';
import { PAIRS, type Pairs } from './pairs.ts';
import { offspring, probabilities } from './resampling.ts';

/** How far the half-normals lean for what the third derivative says: tried, it steers only. */
const LEAN = 2;

export interface Filtered {
  /** Entered length at each edge, m, [draw][edge]; kept to a micrometre. */
  entered: Float32Array;
  /** What the factor of the errors makes the errors of the pins of, [draw][pin]. */
  deviates: Float32Array;
  effectiveMin: number;
  ancestors: number;
}

export function runFilter(
  ground: Ground,
  errors: ReadingErrors,
  pairs: Pairs,
  { courses, cumulative }: LookAhead,
  draws: number,
  stream: RandomStream,
): Filtered {
  const n = draws;
  const edges = ground.edges.length;
  const { pins } = errors;
  const cloud: Cloud = {
    pair: new Int32Array(n),
    layer: new Float64Array(n),
    reached: new Float64Array(n),
    weight: new Float64Array(n),
    entered: new Float32Array(n * edges),
    deviates: new Float32Array(n * pins),
  };
  const { pair, layer, reached, weight, entered, deviates } = cloud;
  const ancestor = new Int32Array(n);
  for (let i = 0; i < n; i++) ancestor[i] = i;
  const probability = new Float64Array(n);
  const slots = new Int32Array(n);
  const copies = new Int32Array(n);
  let effectiveMin = n;

  const first = stream.uniform();
  for (let i = 0, p = 0; i < n; i++) {
    while (p < PAIRS - 1 && cumulative[p]! < (i + first) / n) p++;
    pair[i] = p;
  }

  const resample = (always: boolean, edge: number, pin: number): void => {
    const effective = probabilities(weight, probability);
    effectiveMin = Math.min(effectiveMin, effective);
    if (effective > n / 2 && !always) return;
    offspring(probability, slots, copies, stream.uniform());
    for (let i = 0; i < n; i++) {
      const j = slots[i]!;
      if (j === i) continue;
      pair[i] = pair[j]!;
      ancestor[i] = ancestor[j]!;
      layer[i] = layer[j]!;
      reached[i] = reached[j]!;
      for (let k = 1; k <= edge; k++) entered[i * edges + k] = entered[j * edges + k]!;
      for (let k = 0; k < pin; k++) deviates[i * pins + k] = deviates[j * pins + k]!;
    }
    weight.fill(0);
  };

  let number = 0;
  for (const stand of ground.stands) {
    const course = stand.spell === null ? null : courses[number++]!;
    if (stand.to > stand.from) {
      meetReadings(stand, course, ground, errors, pairs, cloud, stream);
      resample(false, course === null ? 0 : course.spell.first + course.spell.cells, stand.to);
    } else if (course !== null) drawFreely(course, pairs, cloud, edges, stream);
  }
  resample(true, edges - 1, pins);
  return { entered, deviates, effectiveMin, ancestors: new Set(ancestor).size };
}

/** All draws, as far down as they have come. */
interface Cloud {
  pair: Int32Array;
  /** Layer of the last cell. */
  layer: Float64Array;
  /** Entered length so far, m. */
  reached: Float64Array;
  /** Logarithm. */
  weight: Float64Array;
  entered: Float32Array;
  deviates: Float32Array;
}

/** A spell that no sounding ends. */
function drawFreely(course: Course, pairs: Pairs, cloud: Cloud, edges: number, stream: RandomStream): void {
  const { before, ahead, sd } = course;
  const { first, cells, cell_m } = course.spell;
  const { pair, layer, reached, entered } = cloud;
  for (let i = 0; i < layer.length; i++) {
    const base = pair[i]! * (edges - 1) + first;
    const pull = course.pull[pair[i]!]!;
    let g = layer[i]!;
    let e = reached[i]!;
    for (let k = 0; k < cells; k++) {
      g = before[k]! * g + ahead[k]! * pull + sd[k]! * stream.normal();
      e += cell_m / (1 + exp(-(pairs.logit[base + k]! + g)));
      entered[i * edges + first + k + 1] = e;
    }
    layer[i] = g;
    reached[i] = e;
  }
}

/**
 * One spell and the readings at its end. The shape of the layers comes from the prior and what lies ahead; how high they
 * stand together from two half-normals about the most probable height, after Laplace: given that and the readings,
 * whose exact density goes into the weight.
 */
function meetReadings(
  { from, to }: Stand,
  course: Course | null,
  ground: Ground,
  errors: ReadingErrors,
  pairs: Pairs,
  cloud: Cloud,
  stream: RandomStream,
): void {
  const { pair, layer, reached, weight, entered, deviates } = cloud;
  const { factor, pins } = errors;
  const order = pins + errors.runs;
  const edges = ground.edges.length;
  const draws = layer.length;
  // deviate q of the readings here is rest − slope·entered
  const slopes = new Float64Array(to - from);
  let sureness = 0;
  for (let q = from; q < to; q++) {
    let slope = 1;
    for (let k = from; k < q; k++) slope -= factor[q * order + k]! * slopes[k - from]!;
    slopes[q - from] = slope / factor[q * order + q]!;
    sureness += square(slopes[q - from]!);
  }
  const aims = new Float64Array(draws);
  for (let i = 0; i < draws; i++) {
    let aim = 0;
    for (let q = from; q < to; q++) {
      let rest = ground.read_m[q]!;
      for (let k = 0; k < q; k++) rest -= factor[q * order + k]! * deviates[i * pins + k]!;
      rest /= factor[q * order + q]!;
      deviates[i * pins + q] = rest;
      aim += slopes[q - from]! * rest;
    }
    aims[i] = aim / sureness - reached[i]!;
  }
  if (course !== null) {
    const { spell, before, ahead, sd, precision } = course;
    const { cells, cell_m, length_m, follow } = spell;
    const odds = new Float64Array(cells);
    const slip = (1 - follow) / spell.follow_variance;
    // no aim is taken nearer than this to nothing or all
    const edge = Math.min(0.3 * length_m, 0.5 / Math.sqrt(sureness));
    for (let i = 0; i < draws; i++) {
      const p = pair[i]!;
      const base = p * (edges - 1) + spell.first;
      const pull = course.pull[p]!;
      const above = layer[i]!;
      const aim = aims[i]!;
      let g = above;
      let sum = 0;
      let top = 0;
      for (let k = 0; k < cells; k++) {
        // one cell has no shape
        g = before[k]! * g + ahead[k]! * pull + (cells === 1 ? 0 : sd[k]! * stream.normal());
        if (k === 0) top = g;
        sum += g;
        odds[k] = g;
      }
      // to the middle of all that differ by a move together: the same from wherever the draw began
      const middle =
        ((spell.enter * above - top) / spell.enter_variance -
          slip * (sum - top - follow * (sum - g)) -
          course.weight * g +
          pull) /
        precision;
      let gain = 0;
      let slope = 0;
      for (let k = 0; k < cells; k++) {
        const o = exp(pairs.logit[base + k]! + odds[k]! + middle);
        const rho = o / (1 + o);
        odds[k] = o;
        gain += rho;
        slope += rho * (1 - rho);
      }
      gain *= cell_m;
      slope *= cell_m;
      // a step on the logit of what enters, which is nearly straight; log x ≈ 3(x² − 1)/(x² + 4x + 1)
      const within = Math.max(edge, Math.min(length_m - edge, aim));
      const straight = (slope * length_m) / (gain * (length_m - gain));
      const steep = (straight * within * (length_m - within)) / length_m;
      const x = (within * (length_m - gain)) / ((length_m - within) * gain);
      const held = 1 + precision / (steep * steep * sureness);
      let move = (3 * (x * x - 1)) / ((x * x + 4 * x + 1) * straight * held);
      let lift = exp(move);
      gain = 0;
      slope = 0;
      let bend = 0;
      for (let k = 0; k < cells; k++) {
        const rho = 1 - 1 / (1 + odds[k]! * lift);
        const s = rho * (1 - rho);
        gain += rho;
        slope += s;
        bend += s * (1 - 2 * rho);
      }
      gain *= cell_m;
      slope *= cell_m;
      bend *= cell_m;
      // then one of Gauss and Newton; where recovery levels off towards 0 or 1 the height may lie far to that side
      const bent = precision + slope * slope * sureness;
      const lean = (-LEAN * slope * bend * sureness) / (bent * Math.sqrt(bent));
      const right = 1 / Math.sqrt(bent * (1 - Math.max(-0.6, Math.min(0.6, lean))));
      const left = 1 / Math.sqrt(bent * (1 + Math.max(-0.6, Math.min(0.6, lean))));
      const noise = Math.abs(stream.normal());
      move += (slope * (aim - gain) * sureness - precision * move) / bent;
      move += stream.bits() * (left + right) < 4294967296 * right ? noise * right : -noise * left;
      lift = exp(move);
      let e = reached[i]!;
      for (let k = 0; k < cells; k++) {
        e += cell_m * (1 - 1 / (1 + odds[k]! * lift));
        entered[i * edges + spell.first + k + 1] = e;
      }
      const rough = course.found[p]! - course.mean_above * above - course.mean_ahead * pull;
      weight[i] =
        weight[i]! +
        log(left + right) +
        0.5 * (noise * noise - precision * move * move + (rough * rough) / course.variance);
      layer[i] = g + middle + move;
      reached[i] = e;
    }
  }
  for (let i = 0; i < draws; i++) {
    let squares = 0;
    for (let q = from; q < to; q++) {
      const z = deviates[i * pins + q]! - slopes[q - from]! * reached[i]!;
      deviates[i * pins + q] = z;
      squares += z * z;
    }
    weight[i] = weight[i]! - 0.5 * squares;
  }
}
