/** The engine on targets whose answer is known, and on chains that misbehave. Bounds are of the target, set before a run. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { diagnosis, type Quantity, quantity, summaryOf, unsettled } from '../quantity.ts';
import { type Plan, runChains } from './chains.ts';
import { type RandomStream, randomStream } from './random.ts';
import type { Sampler } from './sampler.ts';
import { ChainError, inProcess } from './work.ts';

interface Walk {
  x: number;
  stream: RandomStream;
  sweeps: number;
}
interface Draws {
  x: Float64Array;
  sweep: Float64Array;
}

/** x ← φx + √(1 − φ²)·ε + where the chain is centred: stationary N(centre, 1), autocorrelation φ^lag. */
interface Autoregression {
  phi: number;
  centres?: readonly number[];
  /** Chains that never move. */
  stuck?: readonly number[];
  /** The chain that fails, and at which of its sweeps. */
  fails?: { chain: number; sweep: number };
  /** Turns away draws below this. */
  least?: number;
}

const autoregression: Sampler<Autoregression, Walk & { c: number; of: Autoregression }, Draws> = {
  name: 'autoregression',
  start: (of, stream, c) => ({ x: 4 * stream.normal(), stream, sweeps: 0, c, of }),
  sweep(walk) {
    const { c, of, stream } = walk;
    walk.sweeps++;
    if (of.fails?.chain === c && of.fails.sweep === walk.sweeps) throw new RangeError('no such height');
    if (of.stuck?.includes(c) === true) {
      walk.x = 0.6;
      return;
    }
    const centre = of.centres?.[c] ?? 0;
    walk.x = centre + of.phi * (walk.x - centre) + Math.sqrt(1 - of.phi ** 2) * stream.normal();
  },
  endWarmUp: () => {},
  room: (_, draws) => ({ x: new Float64Array(draws), sweep: new Float64Array(draws) }),
  keep({ x, sweeps, of }, draws, at) {
    if (of.least !== undefined && x < of.least) return false;
    draws.x[at] = x;
    draws.sweep[at] = sweeps;
    return true;
  },
};

const plan: Plan<Draws, Quantity[]> = {
  chains: 4,
  warm_up: 100,
  draws: 1000,
  thin: 1,
  asked_at: [0.5, 0.75, 1],
  doublings: 4,
  report: (draws, kept) => [quantity('x', draws, kept, (d) => d.x)],
  unsettled,
};

const run = (of: Autoregression, seed: string | number, more: Partial<typeof plan> = {}) =>
  inProcess(runChains(autoregression, of, { ...plan, ...more }, randomStream(seed)));

test('a normal target: mean, sd and quantiles within five of their errors, the mean’s own error honest (seeds normal 0 to 39)', (t) => {
  const sets = 40;
  let z2 = 0;
  for (let k = 0; k < sets; k++) {
    const { all, kept } = run({ phi: 0.5 }, `normal ${k}`, { unsettled: () => null });
    const s = summaryOf(all[0]!);
    // Effective draws (1 − φ)/(1 + φ) of 2,000.
    const effective = (4 * kept) / 3;
    const slack = (density: number, p: number): number =>
      (5 * Math.sqrt((p * (1 - p)) / effective)) / density;
    assert.ok(Math.abs(s.mean) < 5 / Math.sqrt(effective), `mean ${s.mean}`);
    assert.ok(Math.abs(s.sd - 1) < 5 / Math.sqrt(2 * effective), `sd ${s.sd}`);
    // Densities of the normal at its quantiles.
    assert.ok(Math.abs(s.median) < slack(0.3989, 0.5), `median ${s.median}`);
    assert.ok(Math.abs(s.upper68 - 0.9945) < slack(0.2433, 0.84), `84 % ${s.upper68}`);
    assert.ok(Math.abs(s.upper95 - 1.95996) < slack(0.0584, 0.975), `97.5 % ${s.upper95}`);
    assert.ok(Math.abs(s.lower95 + 1.95996) < slack(0.0584, 0.975), `2.5 % ${s.lower95}`);
    z2 += (s.mean / s.mcse) ** 2 / sets;
  }
  t.diagnostic(`mean square of the standardised means ${z2.toFixed(2)}`);
  // Mean square of 40 standardised errors: 1 ± 3.3·√(2/40).
  assert.ok(Math.abs(z2 - 1) < 0.74, `${z2}`);
});

for (const [phi, thin] of [
  [0.5, 1],
  [0.9, 1],
  [0.9, 4],
] as const) {
  test(`effective draws of an autoregression of ${phi}, every sweep ${thin} kept: n(1 − φ^thin)/(1 + φ^thin) (seeds ar)`, (t) => {
    const sets = 40;
    const power = phi ** thin;
    const expected = (4 * plan.draws * (1 - power)) / (1 + power);
    let found = 0;
    for (let k = 0; k < sets; k++) {
      const { all } = run({ phi }, `ar ${phi} ${thin} ${k}`, { thin, asked_at: [1], doublings: 0 });
      found += summaryOf(all[0]!).ess_bulk / sets;
    }
    t.diagnostic(`${found.toFixed(0)} effective draws, expected ${expected.toFixed(0)}`);
    // A tenth, as for the diagnostics alone.
    assert.ok(Math.abs(found / expected - 1) < 0.1, `${found}, expected ${expected}`);
  });
}

test('chains that agree stop at the first asking; slow ones go on until they have draws enough, those in between are dropped', () => {
  const soon = run({ phi: 0 }, 'soon');
  assert.equal(soon.kept, 500);
  assert.equal(soon.sweeps, 600);
  assert.ok(diagnosis(soon.all).converged);
  const slow = run({ phi: 0.95 }, 'slow');
  assert.ok(diagnosis(slow.all).converged);
  assert.ok(slow.sweeps > 1100, `${slow.sweeps}`);
  // Every kept draw is as many sweeps after the one before, the first as many after the warm-up.
  const thin = (slow.sweeps - plan.warm_up) / slow.kept;
  assert.ok([2, 4, 8, 16].includes(thin), `${thin} sweeps between draws`);
  for (const { sweep } of slow.draws)
    for (let k = 0; k < slow.kept; k++) assert.equal(sweep[k], plan.warm_up + thin * (k + 1));
});

test('chains that never agree use all their sweeps and are named, the numbers are given all the same', () => {
  const { all, kept, sweeps } = run({ phi: 0.5, centres: [0, 0, 0, 3] }, 'apart');
  assert.equal(kept, plan.draws);
  assert.equal(sweeps, plan.warm_up + 16 * plan.draws);
  const { converged, remarks, rhat_max } = diagnosis(all);
  assert.equal(converged, false);
  assert.ok(rhat_max > 1.3);
  assert.match(remarks[0]!, /^x did not converge: R-hat 1\.\d+ \(below 1\.01 wanted\), \d+ effective draws/);
  assert.ok(Number.isFinite(summaryOf(all[0]!).mean));
});

test('a chain that never moves is named, among 4 and among 64, where R-hat alone would let it pass', () => {
  for (const chains of [4, 64]) {
    const { all, kept } = run({ phi: 0, stuck: [2] }, 'stuck', { chains, doublings: 0 });
    assert.equal(kept, plan.draws, 'the others do not end the run');
    const { converged, remarks } = diagnosis(all);
    assert.equal(converged, false, `${chains} chains`);
    assert.equal(remarks[0], `chain 3 of ${chains} did not converge: none of its numbers ever moved.`);
    if (chains === 64) assert.ok(summaryOf(all[0]!).rhat < 1.01, 'the case this rule is for');
  }
});

test('draws that are turned away are swept on and asked again; for ever, and the chain is given up', () => {
  const { draws, kept } = run({ phi: 0, least: 0.5 }, 'half', { doublings: 0 });
  for (const { x, sweep } of draws)
    for (let k = 0; k < kept; k++) {
      assert.ok(x[k]! >= 0.5);
      assert.ok(k === 0 || sweep[k]! > sweep[k - 1]!);
    }
  assert.throws(
    () => run({ phi: 0, least: 50 }, 'never'),
    /chain 1 of autoregression failed .* turned away 10001 times/,
  );
});

test('what a sampler throws is reported with its chain and its sweep', () => {
  assert.throws(
    () => run({ phi: 0, fails: { chain: 2, sweep: 250 } }, 'fails'),
    (error) =>
      error instanceof ChainError &&
      error.chain === 2 &&
      error.message === 'chain 3 of autoregression failed after 249 sweeps: no such height' &&
      error.cause instanceof RangeError,
  );
});

test('progress never runs backwards, is never more than planned, and ends with all; giving up passes as it is', () => {
  const heard: [number, number][] = [];
  const work = runChains(autoregression, { phi: 0.97 }, plan, randomStream('progress'));
  const { sweeps } = inProcess(work, (done, of) => heard.push([done, of]));
  assert.ok(heard.length > 100);
  for (const [k, [done, of]] of heard.entries()) {
    assert.ok(done <= of);
    if (k > 0) assert.ok(done > heard[k - 1]![0]);
  }
  assert.deepEqual(heard.at(-1), [4 * sweeps, 4 * sweeps]);
  const enough = new Error('enough');
  const giveUp = (): never => {
    throw enough;
  };
  assert.throws(
    () => inProcess(runChains(autoregression, { phi: 0 }, plan, randomStream(1)), giveUp),
    (error) => error === enough,
  );
});

test('a plan that is none is an error of the program', () => {
  for (const wrong of [
    { chains: 0 },
    { draws: 1 },
    { thin: 0.5 },
    { asked_at: [0.5] },
    { asked_at: [1, 0.5] },
    { warm_up: -1 },
  ])
    assert.throws(() => run({ phi: 0 }, 1, wrong), RangeError, JSON.stringify(wrong));
});
