/**
 * Simulated holes whose truth is known: the share of true depths inside the reported central 95 %. Truth is drawn on cells
 * of 2 cm (the model's are 20), read with errors, through runs, and asked for at random places of what entered.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { exp, log, type RandomStream, randomStream } from '@stillstand/science/base';
import { allAtTopModel, depthDefaults, depthModel, uniformModel } from '@stillstand/science/depth';
import type { Registration } from '@stillstand/science/rig';

const CELL_M = 0.02;
const SOUNDING_M = 0.01;

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

interface Plan {
  truth: Truth;
  holes: number;
  /** Share of drives whose sounding is missing. */
  missing: number;
  depth_m: number;
}

function coverage({ truth, holes, missing, depth_m }: Plan, seed: number) {
  const root = randomStream(seed);
  const inside = { ours: 0, asked: 0, shallow: 0, shallowAsked: 0 };
  let width = 0;
  let square = 0;
  let uniform = 0;
  let top = 0;
  for (let h = 0; h < holes; h++) {
    const stream = root.split(h);
    const cells = Math.round(depth_m / CELL_M);
    const recovery = truth(cells, stream);
    const entered = new Float64Array(cells + 1);
    for (let k = 0; k < cells; k++) entered[k + 1] = entered[k]! + recovery[k]! * CELL_M;
    const registration: Registration[] = [];
    // the rig's count of the removed is off by this from each run's bottom on, on the true ruler
    const off: { at: number; measured: number; off: number }[] = [];
    let k = 0;
    let removed = 0;
    let error = 0;
    let pinError = 0;
    while (k < cells) {
      k = Math.min(cells, k + Math.max(5, Math.round((0.3 + 1.2 * stream.uniform()) / CELL_M)));
      if (stream.uniform() < missing && k < cells) continue;
      pinError = error + SOUNDING_M * stream.normal();
      registration.push({
        kind: 'pin',
        row_id: `p${k}`,
        penetration_m: k * CELL_M,
        entered_m: entered[k]! + pinError,
        sigma_m: SOUNDING_M,
        place_sigma_m: 0,
      });
      const plug = entered[k]! - removed;
      if (plug > 0.6 && k < cells) {
        removed += plug - 0.3;
        error = pinError + SOUNDING_M * stream.normal();
        registration.push({
          kind: 'run',
          row_id: `r${k}`,
          entered_bottom_m: removed + error,
          sigma_m: SOUNDING_M,
          from: 'soundings',
        });
        off.push({ at: removed, measured: removed + error, off: error });
      }
    }
    const input = { from_m: 0, penetration_m: cells * CELL_M, registration };
    const model = depthModel(input, stream.split('model'));
    const rivals = [uniformModel(input), allAtTopModel(input)];
    for (let q = 0; q < 8; q++) {
      const place = 1 + stream.integer(cells - 1);
      const x = entered[place]!;
      // as the rig would count it
      let before = { at: 0, off: 0 };
      let measured = Number.NaN;
      for (const o of off) {
        if (x <= o.at) {
          measured = x + before.off + ((x - before.at) / (o.at - before.at)) * (o.off - before.off);
          break;
        }
        before = o;
      }
      if (Number.isNaN(measured)) measured = x + before.off;
      const d = model.inSituDepth(measured);
      const z = place * CELL_M;
      const hit = z >= d.lower95 && z <= d.upper95 ? 1 : 0;
      inside.ours += hit;
      inside.asked++;
      if (z < 1.5) {
        inside.shallow += hit;
        inside.shallowAsked++;
      }
      width += d.upper95 - d.lower95;
      square += (d.value - z) ** 2;
      uniform += (rivals[0]!.inSituDepth(measured).value - z) ** 2;
      top += (rivals[1]!.inSituDepth(measured).value - z) ** 2;
    }
  }
  const n = inside.asked;
  return {
    covered: inside.ours / n,
    shallow: inside.shallow / inside.shallowAsked,
    width_m: width / n,
    rms_m: Math.sqrt(square / n),
    uniform_rms_m: Math.sqrt(uniform / n),
    top_rms_m: Math.sqrt(top / n),
    asked: n,
  };
}

const logistic = (x: number) => 1 / (1 + exp(-x));
const logit = (p: number) => log(p / (1 - p));

for (const [name, plan, seed] of [
  ['under the prior', { truth: fromPrior, holes: 500, missing: 0, depth_m: 8 }, 4231],
  [
    'under the prior, half the soundings missing',
    { truth: fromPrior, holes: 500, missing: 0.5, depth_m: 8 },
    4232,
  ],
  ['sharp layers', { truth: inLayers, holes: 500, missing: 0, depth_m: 8 }, 4233],
  [
    'sharp layers, half the soundings missing',
    { truth: inLayers, holes: 500, missing: 0.5, depth_m: 8 },
    4234,
  ],
] as const) {
  test(`coverage, ${name}: 93–97 % of true depths inside 95 % (seed ${seed})`, () => {
    const result = coverage(plan, seed);
    console.log(
      name,
      JSON.stringify(result, (_, v) => (typeof v === 'number' ? Number(v.toFixed(4)) : v)),
    );
    assert.ok(result.covered > 0.93 && result.covered < 0.97, `${result.covered}`);
    assert.ok(result.rms_m < result.uniform_rms_m && result.rms_m < result.top_rms_m);
  });
}
