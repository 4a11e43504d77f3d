/**
 * Simulated holes whose truth is known: the share of true depths inside the reported central 95 %, as a whole and by class:
 * how near a sounding, how wide the interval, how deep. Truth is drawn on cells of 2 cm (the model's are up to 50), read
 * with errors, through runs. Places are chosen on the core, half of them anywhere, half within 5 cm of a sounding; classes
 * are those of the answer, as a user sees it.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { exp, log, type RandomStream, randomStream } from '@stillstand/science/base';
import {
  allAtTopModel,
  depthDefaults,
  depthModel,
  inSituDepth,
  uniformModel,
} from '@stillstand/science/depth';
import type { Registration } from '@stillstand/science/rig';

const CELL_M = 0.02;
const SOUNDING_M = 0.01;
const DEPTH_M = 8;
const HOLES = 6000;
/** A class is judged where its share is known to better than 0.01: 1 sigma 0.005, the places of a hole taken as apart. */
const JUDGED = 2000;

/** Local recovery at the middle of each cell down to `cells`. */
type Truth = (cells: number, stream: RandomStream) => Float64Array;

/** Our own prior: decaying shortening with correlated layers. */
const fromPrior: Truth = (cells, stream) => {
  const d = depthDefaults;
  const rho = logistic(logit(d.recovery_at_ground) + d.recovery_logit_sd * stream.normal());
  const ell = d.length_m * exp(d.length_log_sd * stream.normal());
  const step = exp(-CELL_M / d.layer_length_m);
  let layer = d.layer_sd * stream.normal();
  return Float64Array.from({ length: cells }, (_, k) => {
    if (k > 0) layer = step * layer + d.layer_sd * Math.sqrt(1 - step * step) * stream.normal();
    const mean = 1 - (1 - rho) * exp(-((k + 0.5) * CELL_M) / ell);
    return logistic(Math.min(logit(d.recovery_deep), logit(mean)) + layer);
  });
};

/** Layers with sharp contacts, 0.2–1.5 m thick, of three kinds that yield differently: not our prior. */
const inLayers: Truth = (cells, stream) => {
  const ell = 1.5 + 4 * stream.uniform();
  let left = 0;
  let soft = 0;
  return Float64Array.from({ length: cells }, (_, k) => {
    if (left <= 0) {
      left = 0.2 + 1.3 * stream.uniform();
      soft = [0.35, 0.6, 0.9][stream.integer(3)]!;
    }
    left -= CELL_M;
    return 1 - (1 - soft) * exp(-((k + 0.5) * CELL_M) / ell);
  });
};

interface Hole {
  registration: Registration[];
  /** As the rig's ruler reads a true entered length. Rises. */
  measured: (entered_m: number) => number;
  /** True entered length to true depth. */
  depthOf: (entered_m: number) => number;
  end_m: number;
}

/** A spell of 0.3–1.5 m, a sounding unless it is missing, a run when more than 0.6 m stands in the pipe; and so on. */
function drill(truth: Truth, missing: number, stream: RandomStream): Hole {
  const cells = Math.round(DEPTH_M / CELL_M);
  const recovery = truth(cells, stream);
  const entered = new Float64Array(cells + 1);
  for (let k = 0; k < cells; k++) entered[k + 1] = entered[k]! + recovery[k]! * CELL_M;
  const registration: Registration[] = [];
  // the rig's count of the removed is off by this at each run's bottom, on the true ruler
  const runs: { at: number; off: number }[] = [{ at: 0, off: 0 }];
  let k = 0;
  while (k < cells) {
    k = Math.min(cells, k + Math.max(5, Math.round((0.3 + 1.2 * stream.uniform()) / CELL_M)));
    if (stream.uniform() < missing && k < cells) continue;
    const { at, off } = runs.at(-1)!;
    const pinOff = off + SOUNDING_M * stream.normal();
    registration.push({
      kind: 'pin',
      row_id: `p${k}`,
      penetration_m: k * CELL_M,
      entered_m: entered[k]! + pinOff,
      sigma_m: SOUNDING_M,
      place_sigma_m: 0,
    });
    if (entered[k]! - at <= 0.6 || k === cells) continue;
    const run = { at: entered[k]! - 0.3, off: pinOff + SOUNDING_M * stream.normal() };
    runs.push(run);
    registration.push({
      kind: 'run',
      row_id: `r${k}`,
      entered_bottom_m: run.at + run.off,
      sigma_m: SOUNDING_M,
      from: 'soundings',
    });
  }
  return {
    registration,
    end_m: entered[cells]!,
    measured: (x) => {
      const below = runs.findIndex((r) => r.at > x);
      if (below < 0) return x + runs.at(-1)!.off;
      const [a, b] = [runs[below - 1]!, runs[below]!];
      return x + a.off + ((x - a.at) / (b.at - a.at)) * (b.off - a.off);
    },
    depthOf: (x) => {
      const i = Math.max(
        1,
        entered.findIndex((e) => e >= x),
      );
      return (i - 1 + (x - entered[i - 1]!) / (entered[i]! - entered[i - 1]!)) * CELL_M;
    },
  };
}

/** x within 0–`end` with f(x) = y, f rising. */
function invert(f: (x: number) => number, y: number, end: number): number {
  let low = 0;
  let high = end;
  for (let round = 0; round < 40; round++) {
    const middle = (low + high) / 2;
    if (f(middle) < y) low = middle;
    else high = middle;
  }
  return low;
}

function coverage(truth: Truth, missing: number, seed: number) {
  const root = randomStream(seed);
  const classes = new Map<string, { inside: number; asked: number }>();
  const squares = { ours: 0, uniform: 0, top: 0, asked: 0 };
  for (let h = 0; h < HOLES; h++) {
    const stream = root.split(h);
    const hole = drill(truth, missing, stream);
    const input = { from_m: 0, penetration_m: DEPTH_M, registration: hole.registration };
    const model = depthModel(input, stream.split('model'));
    const uniform = uniformModel(input);
    const top = allAtTopModel(input);
    const pins = hole.registration.filter((r) => r.kind === 'pin');
    const end = hole.measured(hole.end_m);
    for (let q = 0; q < 8; q++) {
      const anywhere = q < 4;
      const e = anywhere
        ? stream.uniform() * end
        : pins[stream.integer(pins.length)]!.entered_m + 0.05 * (2 * stream.uniform() - 1);
      if (e <= 0 || e >= end) continue;
      const depth_m = hole.depthOf(invert(hole.measured, e, hole.end_m));
      const d = inSituDepth(model, e);
      const count = (name: string) => {
        const c = classes.get(name) ?? { inside: 0, asked: 0 };
        if (depth_m >= d.lower95 && depth_m <= d.upper95) c.inside++;
        c.asked++;
        classes.set(name, c);
      };
      const near = pins.reduce((least, p) => Math.min(least, Math.abs(p.penetration_m - d.value)), 9);
      count(`sounding within ${[0.01, 0.02, 0.05, 0.1, 0.2, 0.4].find((m) => near < m) ?? 'more'} m`);
      const width = d.upper95 - d.lower95;
      count(`interval below ${[0.03, 0.05, 0.08, 0.15, 0.3].find((m) => width < m) ?? 'any'} m`);
      if (!anywhere) continue;
      count('all');
      count(`third ${Math.min(3, 1 + Math.floor((3 * d.value) / DEPTH_M))} from the top`);
      squares.ours += (d.value - depth_m) ** 2;
      squares.uniform += (inSituDepth(uniform, e).value - depth_m) ** 2;
      squares.top += (inSituDepth(top, e).value - depth_m) ** 2;
      squares.asked++;
    }
  }
  const rms = (sum: number) => Math.sqrt(sum / squares.asked);
  return { classes, ours: rms(squares.ours), uniform: rms(squares.uniform), top: rms(squares.top) };
}

const logistic = (x: number) => 1 / (1 + exp(-x));
const logit = (p: number) => log(p / (1 - p));

for (const [name, truth, missing, seed] of [
  ['under the prior', fromPrior, 0, 4231],
  ['under the prior, half the soundings missing', fromPrior, 0.5, 4232],
  ['sharp layers', inLayers, 0, 4233],
  ['sharp layers, half the soundings missing', inLayers, 0.5, 4234],
] as const) {
  test(`coverage, ${name}: 93–97 % of true depths inside 95 %, in every class (seed ${seed})`, () => {
    const { classes, ours, uniform, top } = coverage(truth, missing, seed);
    console.log(`${name}: rms ${ours.toFixed(4)} m, uniform ${uniform.toFixed(2)}, top ${top.toFixed(2)}`);
    let judged = 0;
    for (const [what, { inside, asked }] of [...classes].sort()) {
      const share = inside / asked;
      console.log(`  ${what}: ${share.toFixed(3)} of ${asked}`);
      if (asked < JUDGED) continue;
      judged++;
      assert.ok(share > 0.93 && share < 0.97, `${what}: ${share} of ${asked}`);
    }
    assert.ok(judged >= 14, `${judged} classes judged`);
    assert.ok(ours < uniform && ours < top);
  });
}
