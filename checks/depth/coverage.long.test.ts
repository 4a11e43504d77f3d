/**
 * Simulated holes whose truth is known: the share of true depths inside the reported central 95 %, as a whole and by class:
 * how near a sounding, how wide the interval, how deep. Places are chosen on the core, half of them anywhere, half within 5 cm of a sounding; classes
 * are those of the answer, as a user sees it. 0.02 about 0.95 is what a user would not see; it is four binomial sds or more
 * of a class that is judged. The gate takes the first and the last, `STILLSTAND_SETS=all` all four.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { randomStream } from '@stillstand/science/base';
import { allAtTopModel, depthModel, inSituDepth, uniformModel } from '@stillstand/science/depth';
import { knownToFail } from '../bounds/known-to-fail.ts';
import { DEPTH_M, drill, invert, likeThePrior, sharpLayers, type Truth } from './simulated-hole.ts';

const HOLES = 6000;
/** A class is judged where its share is known to better than 0.01: 1 sigma 0.005, the places of a hole taken as apart. */
const JUDGED = 2000;

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

/**
 * Wide intervals of these truths hold more than they say: the ground is milder than the model must fear since it also knows
 * of by-passing and of contrasts far above and below this one. By seed and class.
 */
const TOO_WIDE: Record<number, Record<string, string>> = {
  4231: { 'interval below 0.3 m': '0.976', 'interval below any m': '0.985' },
  4232: { 'interval below 0.3 m': '0.973', 'interval below any m': '0.985' },
  4234: { 'interval below any m': '0.972' },
};

const isWhole = process.env['STILLSTAND_SETS'] === 'all';

for (const [name, truth, missing, seed] of [
  ['under the prior', likeThePrior, 0, 4231],
  ['under the prior, half the soundings missing', likeThePrior, 0.5, 4232],
  ['sharp layers', sharpLayers, 0, 4233],
  ['sharp layers, half the soundings missing', sharpLayers, 0.5, 4234],
] as const) {
  if (!isWhole && seed !== 4231 && seed !== 4234) continue;
  test(`coverage, ${name}: 93–97 % of true depths inside 95 %, in every class (seed ${seed})`, async (t) => {
    const { classes, ours, uniform, top } = coverage(truth, missing, seed);
    console.log(`${name}: rms ${ours.toFixed(4)} m, uniform ${uniform.toFixed(2)}, top ${top.toFixed(2)}`);
    const judged = [...classes].sort().flatMap(([what, { inside, asked }]) => {
      const share = inside / asked;
      console.log(`  ${what}: ${share.toFixed(3)} of ${asked}`);
      return asked < JUDGED ? [] : [{ what, share }];
    });
    for (const { what, share } of judged) {
      const stated = TOO_WIDE[seed]?.[what];
      assert.ok(share > 0.93, `${what}: ${share}`);
      if (stated === undefined) assert.ok(share < 0.97, `${what}: ${share}`);
      else {
        await knownToFail(t, {
          what: `depth, ${name}, ${what}, 6000 holes, seed ${seed}`,
          bound: { at_most: 0.97 },
          measured: share,
          stated,
          since: '2026-11-29',
          page: 'docs/methods/depth.md',
        });
      }
    }
    assert.ok(judged.length >= 14, `${judged.length} classes judged`);
    assert.ok(ours < uniform && ours < top);
  });
}
