/** Height factors against plain quadrature over the latent height, and draws against its moments. Seed 6. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { exp, randomStream } from '@stillstand/science/base';
import { drawHeight, EXACT, LOWERED, logHeight, MARINE, TERRESTRIAL, UNIFORM } from './height.ts';

const CENTRE = -1.2;

/** What the sample says of a latent height z, up to a constant of the kind. */
function weight(kind: number, width: number, z: number): number {
  const above = z - CENTRE;
  if (kind === TERRESTRIAL) return above <= 0 ? 1 : 0;
  if (kind === MARINE) return above >= 0 ? 1 : 0;
  if (kind === UNIFORM) return Math.abs(above) <= width ? 1 : 0;
  return above >= 0 ? 2 * Math.exp((-0.5 * above * above) / (width * width)) : 0;
}

/** Mass, mean and sd of z by the midpoint rule, its cells aligned with every edge. */
function quadrature(kind: number, width: number, mean: number, variance: number): number[] {
  const steps = 240_000;
  const from = CENTRE - 12;
  const dz = 24 / steps;
  const sums = [0, 0, 0];
  for (let k = 0; k < steps; k++) {
    const z = from + (k + 0.5) * dz;
    const p = weight(kind, width, z) * Math.exp((-0.5 * (z - mean) ** 2) / variance) * dz;
    for (let m = 0; m < 3; m++) sums[m]! += p * z ** m;
  }
  const [mass, first, second] = sums as [number, number, number];
  const centre = first / mass;
  return [mass / Math.sqrt(2 * Math.PI * variance), centre, Math.sqrt(second / mass - centre * centre)];
}

for (const [name, kind, width] of [
  ['terrestrial', TERRESTRIAL, 0],
  ['marine', MARINE, 0],
  ['uniform', UNIFORM, 0.4],
  ['lowered', LOWERED, 0.7],
] as const) {
  test(`${name}: factor and draws, from far below to far above (seed 6)`, (t) => {
    const stream = randomStream(6).split(name);
    // The constant of the kind: logHeight leaves out factors that depend on width alone.
    const constant = kind === LOWERED ? width : 1;
    let worst = 0;
    for (const offset of [-2, -0.6, 0, 0.3, 1.5]) {
      const mean = CENTRE + offset;
      const variance = 0.2;
      const [mass, centre, sd] = quadrature(kind, width, mean, variance) as [number, number, number];
      const found = exp(logHeight(kind, CENTRE, width, mean, variance));
      assert.ok(
        Math.abs(found * (kind === LOWERED ? 2 * constant : 1) - mass) < 2e-4 * mass,
        `${offset}: ${found}, ${mass}`,
      );
      const draws = Float64Array.from({ length: 20_000 }, () =>
        drawHeight(kind, CENTRE, width, mean, variance, stream),
      );
      const average = draws.reduce((sum, z) => sum + z, 0) / draws.length;
      const off = (Math.abs(average - centre) / sd) * Math.sqrt(draws.length);
      worst = Math.max(worst, off);
      // Five standard errors: twenty means fail once in 80,000 seeds.
      assert.ok(off < 5, `${offset}: ${off} standard errors off`);
      assert.ok(draws.every((z) => weight(kind, width, z) > 0));
    }
    t.diagnostic(`means at most ${worst.toFixed(1)} standard errors off`);
  });
}

test('an exact height is its own latent height; far tails stay finite', () => {
  assert.equal(drawHeight(EXACT, CENTRE, 0, 5, 1, randomStream(6)), CENTRE);
  for (const kind of [TERRESTRIAL, MARINE, UNIFORM, LOWERED])
    for (const mean of [-300, 300]) assert.ok(logHeight(kind, CENTRE, 0.5, mean, 0.01) > -Infinity);
});
