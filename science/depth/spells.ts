/**
 * One spell of all draws: drawn freely, or to meet the readings at its end. Past 250 lines, since the parts of one draw are
 * written out in one loop.
 */
import { exp, log, type RandomStream, square } from '@stillstand/science/base';
import { drawWay, freeWay, type Ways } from './by-passing.ts';
import type { Ground, Stand } from './cells.ts';
import type { ReadingErrors } from './errors.ts';
import type { Course } from './look-ahead.ts';
import { LEVELS, type Worlds } from './worlds.ts';

/** How far the half-normals lean for what the third derivative says: tried, it steers only. */
const LEAN = 2;
/** Ground that enters of a spell, less than which counts as none, m. */
const LEAST_M = 1e-3;

/** All draws, as far down as they have come. */
export interface Cloud {
  world: Int32Array;
  /** Layer of the last cell. */
  layer: Float64Array;
  /** Entered length so far, m. */
  reached: Float64Array;
  /** Logarithm. */
  weight: Float64Array;
  /** 1 where the last ground was by-passed. */
  passed: Uint8Array;
  /** How ground is by-passed, [draw][spell]. */
  way: Uint8Array;
  /** Logit of local recovery, had nothing been by-passed, [draw][cell]. */
  logit: Float32Array;
  entered: Float32Array;
  deviates: Float32Array;
}

/** A spell to draw: how it is steered, how it can be by-passed, and its number among all. */
export interface Drive {
  course: Course;
  /** By level: how much better the next spell is read if by-passed ground reaches down to it. */
  onward: Float64Array;
  ways: Ways | null;
  number: number;
  spells: number;
}

/** A spell that no sounding ends. */
export function drawFreely(
  { course, onward, ways, number, spells }: Drive,
  ground: Ground,
  worlds: Worlds,
  cloud: Cloud,
  stream: RandomStream,
): void {
  const { spell } = course;
  const { first, cells, cell_m } = spell;
  const { world, layer, reached, weight, passed, way: taken, logit, entered } = cloud;
  const edges = ground.edges.length;
  for (let i = 0; i < layer.length; i++) {
    const w = world[i]!;
    const level = w % LEVELS;
    const { before, ahead, sd } = course.by[level]!;
    const { layer_sd, by_passing } = worlds.levels[level]!;
    const base = Math.floor(w / LEVELS) * (edges - 1) + first;
    const pull = course.pull[w]!;
    const way = ways === null || !by_passing ? 0 : freeWay(ways.choices[passed[i] === 1 ? 1 : 0], stream);
    let g = layer[i]!;
    let e = reached[i]!;
    for (let k = 0; k < cells; k++) {
      g = before[k]! * g + ahead[k]! * pull + sd[k]! * stream.normal();
      const x = worlds.logit[base + k]! + layer_sd * g;
      e += (ways === null ? cell_m : ways.open[way * cells + k]!) / (1 + exp(-x));
      logit[i * (edges - 1) + first + k] = x;
      entered[i * edges + first + k + 1] = e;
    }
    layer[i] = g;
    reached[i] = e;
    taken[i * spells + number] = way;
    if (ways !== null) {
      // nothing was read here: course.onto is 1
      passed[i] = ways.below[way]!;
      if (ways.below[way] === 1) weight[i] = weight[i]! + log(onward[level]!);
    }
  }
}

/**
 * One spell and the readings at its end. The shape of the layers comes from the prior and what lies ahead, which cells are
 * by-passed from what entered; how high the layers stand together from two half-normals about the most probable height,
 * after Laplace: given that and the readings, whose exact density goes into the weight.
 */
export function meetReadings(
  { from, to }: Stand,
  drive: Drive | null,
  ground: Ground,
  errors: ReadingErrors,
  worlds: Worlds,
  cloud: Cloud,
  stream: RandomStream,
): void {
  const { reached, weight, deviates } = cloud;
  const { factor, pins } = errors;
  const order = pins + errors.runs;
  const draws = reached.length;
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
  if (drive !== null) driveTo(aims, sureness, drive, ground, worlds, cloud, stream);
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

/** Draws a spell in which `aims` are to enter, each with the precision `sureness`. */
function driveTo(
  aims: Float64Array,
  sureness: number,
  { course, onward, ways, number, spells }: Drive,
  ground: Ground,
  worlds: Worlds,
  cloud: Cloud,
  stream: RandomStream,
): void {
  const { world, layer, reached, weight, passed, way: taken, logit, entered } = cloud;
  const edges = ground.edges.length;
  const { spell } = course;
  const { cells, cell_m, length_m, follow } = spell;
  const sigma_m = 1 / Math.sqrt(sureness);
  const odds = new Float64Array(cells);
  const shape = new Float64Array(cells);
  const open = new Float64Array(cells).fill(cell_m);
  const chance = new Float64Array(1);
  const slip = (1 - follow) / spell.follow_variance;
  for (let i = 0; i < aims.length; i++) {
    const w = world[i]!;
    const level = w % LEVELS;
    const steered = course.by[level]!;
    const { before, ahead, sd, precision } = steered;
    const { layer_sd, by_passing } = worlds.levels[level]!;
    const base = Math.floor(w / LEVELS) * (edges - 1) + spell.first;
    const pull = course.pull[w]!;
    const above = layer[i]!;
    const aim = aims[i]!;
    let g = above;
    let sum = 0;
    let top = 0;
    let mean = 0;
    for (let k = 0; k < cells; k++) {
      // one cell has no shape
      g = before[k]! * g + ahead[k]! * pull + (cells === 1 ? 0 : sd[k]! * stream.normal());
      if (k === 0) top = g;
      sum += g;
      shape[k] = g;
      mean += worlds.logit[base + k]!;
    }
    // to the middle of all that differ by a move together: the same from wherever the draw began
    const middle =
      ((spell.enter * above - top) / spell.enter_variance -
        slip * (sum - top - follow * (sum - g)) -
        steered.weight * g +
        pull) /
      precision;
    let open_m = length_m;
    let way = 0;
    if (ways !== null && by_passing) {
      const among = ways.choices[passed[i] === 1 ? 1 : 0];
      const expected = mean / cells + layer_sd * (steered.mean_above * above + steered.mean_ahead * pull);
      const variance = square(layer_sd) * steered.own_variance;
      way = drawWay(
        ways,
        among,
        aim,
        sigma_m,
        length_m,
        expected,
        variance,
        steered.flatten,
        onward[level]!,
        stream,
        chance,
      );
      weight[i] = weight[i]! + chance[0]!;
      if (passed[i] === 1) weight[i] = weight[i]! - log(course.onto[level]!);
      if (ways.below[way] === 1) weight[i] = weight[i]! + log(onward[level]!);
      taken[i * spells + number] = way;
      passed[i] = ways.below[way]!;
      open_m = ways.open_m[way]!;
      for (let k = 0; k < cells; k++) open[k] = ways.open[way * cells + k]!;
    } else open.fill(cell_m);
    let move = 0;
    if (open_m < LEAST_M) {
      // nothing says how high the layers stand
      move = stream.normal() / Math.sqrt(precision);
      weight[i] = weight[i]! + log(2) - 0.5 * log(precision);
      for (let k = 0; k < cells; k++) odds[k] = 0;
    } else {
      let gain = 0;
      let slope = 0;
      for (let k = 0; k < cells; k++) {
        const o = exp(worlds.logit[base + k]! + layer_sd * (shape[k]! + middle));
        const rho = o / (1 + o);
        odds[k] = o;
        gain += open[k]! * rho;
        slope += open[k]! * rho * (1 - rho);
      }
      slope *= layer_sd;
      // no aim is taken nearer than this to nothing or all
      const edge = Math.min(0.3 * open_m, 0.5 * sigma_m);
      // a step on the logit of what enters, which is nearly straight; log x ≈ 3(x² − 1)/(x² + 4x + 1)
      const within = Math.max(edge, Math.min(open_m - edge, aim));
      const straight = (slope * open_m) / (gain * (open_m - gain));
      const steep = (straight * within * (open_m - within)) / open_m;
      const x = (within * (open_m - gain)) / ((open_m - within) * gain);
      const held = 1 + precision / (steep * steep * sureness);
      move = (3 * (x * x - 1)) / ((x * x + 4 * x + 1) * straight * held);
      const lift = exp(layer_sd * move);
      gain = 0;
      slope = 0;
      let bend = 0;
      for (let k = 0; k < cells; k++) {
        const rho = 1 - 1 / (1 + odds[k]! * lift);
        const s = open[k]! * rho * (1 - rho);
        gain += open[k]! * rho;
        slope += s;
        bend += s * (1 - 2 * rho);
      }
      slope *= layer_sd;
      bend *= square(layer_sd);
      // then one of Gauss and Newton; where recovery levels off towards 0 or 1 the height may lie far to that side
      const bent = precision + slope * slope * sureness;
      const lean = (-LEAN * slope * bend * sureness) / (bent * Math.sqrt(bent));
      const right = 1 / Math.sqrt(bent * (1 - Math.max(-0.6, Math.min(0.6, lean))));
      const left = 1 / Math.sqrt(bent * (1 + Math.max(-0.6, Math.min(0.6, lean))));
      const noise = Math.abs(stream.normal());
      move += (slope * (aim - gain) * sureness - precision * move) / bent;
      move += stream.bits() * (left + right) < 4294967296 * right ? noise * right : -noise * left;
      weight[i] = weight[i]! + log(left + right) + 0.5 * (noise * noise - precision * move * move);
    }
    const lift = exp(layer_sd * move);
    let e = reached[i]!;
    for (let k = 0; k < cells; k++) {
      e += open[k]! * (1 - 1 / (1 + odds[k]! * lift));
      entered[i * edges + spell.first + k + 1] = e;
      logit[i * (edges - 1) + spell.first + k] =
        worlds.logit[base + k]! + layer_sd * (shape[k]! + middle + move);
    }
    reached[i] = e;
    const rough = course.found[w]! - steered.mean_above * above - steered.mean_ahead * pull;
    weight[i] = weight[i]! + steered.constant - course.bonus[w]! + (0.5 * rough * rough) / steered.variance;
    layer[i] = g + middle + move;
  }
}
