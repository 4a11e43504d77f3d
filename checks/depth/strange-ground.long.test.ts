/**
 * Ground that is not as the middle of our prior has it: layers of strongly different recovery, layers pushed aside,
 * friction of the plug that starts again at each run, recovery that falls with depth. The share of true depths inside the
 * reported central 95 %, with all soundings and with half of them. The bound, 0.92 to 0.98, was laid down before the first
 * run: 0.03 about 0.95 is five standard errors of a share of 600 holes with four places each, those of a hole together.
 * `STILLSTAND_HOLES=6000` asks more of them.
 *
 * Then trouble that no model knows: a void, a stretch that swells, a sounding wrong by 10 cm. What becomes of depths near
 * it is printed; those more than 1 m from it are to be held as any, and how often the rig warns of it is printed too.
 */
import assert from 'node:assert/strict';
import { type TestContext, test } from 'node:test';
import { randomStream } from '@stillstand/science/base';
import { depthModel, inSituDepth } from '@stillstand/science/depth';
import { type Registration, rigDefaults } from '@stillstand/science/rig';
import { knownToFail } from '../bounds/known-to-fail.ts';
import {
  byPassedLayers,
  DEPTH_M,
  drill,
  fallingRecovery,
  fromThePrior,
  invert,
  plugFriction,
  SOUNDING_M,
  strongLayers,
  type Truth,
  withStretch,
} from './simulated-hole.ts';

const HOLES = Number(process.env['STILLSTAND_HOLES'] ?? 600);
const PLACES = 4;
const [LEAST, MOST] = [0.92, 0.98];

function coverage(truth: Truth, missing: number, seed: number) {
  const root = randomStream(seed);
  const thirds = [0, 1, 2].map(() => ({ inside: 0, asked: 0 }));
  let inside = 0;
  let asked = 0;
  let squares = 0;
  let width = 0;
  for (let h = 0; h < HOLES; h++) {
    const stream = root.split(h);
    const hole = drill(truth, missing, stream);
    const model = depthModel(
      { from_m: 0, penetration_m: DEPTH_M, registration: hole.registration },
      stream.split('model'),
    );
    const end = hole.measured(hole.end_m);
    for (let q = 0; q < PLACES; q++) {
      const e = stream.uniform() * end;
      if (e <= 0 || e >= end) continue;
      const depth_m = hole.depthOf(invert(hole.measured, e, hole.end_m));
      const d = inSituDepth(model, e);
      const held = depth_m >= d.lower95 && depth_m <= d.upper95 ? 1 : 0;
      const third = thirds[Math.min(2, Math.floor((3 * d.value) / DEPTH_M))]!;
      third.inside += held;
      third.asked++;
      inside += held;
      asked++;
      squares += (d.value - depth_m) ** 2;
      width += d.upper95 - d.lower95;
    }
  }
  const shares = thirds.map((t) => (t.inside / t.asked).toFixed(3)).join(', ');
  return { share: inside / asked, asked, shares, rms: Math.sqrt(squares / asked), width: width / asked };
}

/** Shares outside the bound, by seed. */
const KNOWN: Record<number, string> = { 4257: '0.986', 4258: '0.995', 4262: '0.906', 4263: '0.907' };

async function judge(t: TestContext, what: string, share: number, stated: string | undefined) {
  // more holes were asked for: another figure, judged by the same bound
  if (stated === undefined || HOLES !== 600) {
    assert.ok(share > LEAST && share < MOST, `${share}`);
    return;
  }
  await knownToFail(t, {
    what: `depth, ${what}`,
    bound: Number(stated) > MOST ? { at_most: MOST } : { at_least: LEAST },
    measured: share,
    stated,
    since: '2026-11-29',
    page: 'docs/methods/depth.md',
  });
}

for (const [name, truth, missing, seed] of [
  ['strongly different layers', strongLayers, 0, 4251],
  ['strongly different layers, half the soundings missing', strongLayers, 0.5, 4252],
  ['by-passed layers', byPassedLayers, 0, 4253],
  ['by-passed layers, half the soundings missing', byPassedLayers, 0.5, 4254],
  ['friction of the plug', plugFriction, 0, 4255],
  ['friction of the plug, half the soundings missing', plugFriction, 0.5, 4256],
  ['recovery that falls with depth', fallingRecovery, 0, 4257],
  ['recovery that falls with depth, half the soundings missing', fallingRecovery, 0.5, 4258],
  ['our whole prior', fromThePrior, 0, 4259],
  ['our whole prior, half the soundings missing', fromThePrior, 0.5, 4260],
] as const) {
  test(`coverage, ${name}: 92–98 % of true depths inside 95 % (seed ${seed})`, async (t) => {
    const { share, asked, shares, rms, width } = coverage(truth, missing, seed);
    console.log(
      `${name}: ${share.toFixed(3)} of ${asked} (thirds from the top ${shares}); rms ${rms.toFixed(4)} m, 95 % wide ${width.toFixed(4)} m`,
    );
    await judge(t, `${name}, 600 holes, seed ${seed}`, share, KNOWN[seed]);
  });
}

/** The rule by which a sounding after a drive is warned of (science/rig): too much entered, or less than before. */
function isWarned(registration: readonly Registration[]): boolean {
  const { change_sigmas, stick_up_sigma_m } = rigDefaults;
  const change = change_sigmas * Math.sqrt(2 * SOUNDING_M ** 2 + 2 * stick_up_sigma_m ** 2);
  let at = 0;
  let entered = 0;
  for (const r of registration) {
    if (r.kind === 'run') continue;
    const gain = r.entered_m - entered;
    if (gain > r.penetration_m - at + change || gain < -change) return true;
    at = r.penetration_m;
    entered = r.entered_m;
  }
  return false;
}

const TROUBLED = Math.round(HOLES / 2);

for (const [name, truth, blunder_m, seed] of [
  ['a void of 0.5 m', withStretch(0.5, 0), 0, 4261],
  ['1 m that swells to 1.2 m', withStretch(1, 1.2), 0, 4262],
  ['a sounding 10 cm too much', withStretch(0, 0), 0.1, 4263],
  ['a sounding 10 cm too little', withStretch(0, 0), -0.1, 4264],
] as const) {
  test(`outside every model, ${name}: more than 1 m from it 92–98 % are held (seed ${seed})`, async (t) => {
    const root = randomStream(seed);
    const near = { inside: 0, asked: 0, squares: 0 };
    const far = { inside: 0, asked: 0, squares: 0 };
    let warned = 0;
    for (let h = 0; h < TROUBLED; h++) {
      const stream = root.split(h);
      const hole = drill(truth, 0, stream, blunder_m);
      const { registration, trouble_m } = hole;
      if (trouble_m === null) continue;
      if (isWarned(registration)) warned++;
      const input = { from_m: 0, penetration_m: DEPTH_M, registration };
      const model = depthModel(input, stream.split('model'));
      const end = hole.measured(hole.end_m);
      for (let q = 0; q < 2 * PLACES; q++) {
        const e = stream.uniform() * end;
        if (e <= 0 || e >= end) continue;
        const depth_m = hole.depthOf(invert(hole.measured, e, hole.end_m));
        const d = inSituDepth(model, e);
        const away = Math.max(trouble_m[0] - depth_m, depth_m - trouble_m[1]) > 1;
        const count = away ? far : near;
        count.asked++;
        if (depth_m >= d.lower95 && depth_m <= d.upper95) count.inside++;
        count.squares += (d.value - depth_m) ** 2;
      }
    }
    const said = ({ inside, asked, squares }: typeof near) =>
      `${(inside / asked).toFixed(3)} of ${asked}, rms ${Math.sqrt(squares / asked).toFixed(3)} m`;
    console.log(
      `${name}: within 1 m ${said(near)}; farther ${said(far)}; ${warned} of ${TROUBLED} holes warned`,
    );
    const share = far.inside / far.asked;
    await judge(t, `more than 1 m from ${name}, 300 holes, seed ${seed}`, share, KNOWN[seed]);
  });
}
