import assert from 'node:assert/strict';
import { test } from 'node:test';
import fc from 'fast-check';
import { column, elevationOf } from './index.ts';

test('units typed in any order come out from the top down, with what nobody described', () => {
  const { order, flaws, described_m } = column([
    { top_m: 2, bottom_m: 3 },
    { top_m: 0, bottom_m: 1.5 },
    { top_m: 2.8, bottom_m: 4 },
  ]);
  assert.deepEqual(order, [1, 0, 2]);
  assert.deepEqual(flaws, [
    { kind: 'gap', upper: 1, lower: 0, top_m: 1.5, bottom_m: 2 },
    { kind: 'overlap', upper: 0, lower: 2, top_m: 2.8, bottom_m: 3 },
  ]);
  assert.ok(Math.abs(described_m - 3.5) < 1e-12);
});

test('a thin unit within a thick one does not hide what lies below', () => {
  const { flaws } = column([
    { top_m: 0, bottom_m: 2 },
    { top_m: 0.5, bottom_m: 0.6 },
    { top_m: 1.9, bottom_m: 3 },
    { top_m: 3, bottom_m: 4 },
  ]);
  assert.deepEqual(
    flaws.map((f) => [f.kind, f.upper, f.lower, f.top_m, f.bottom_m]),
    [
      ['overlap', 0, 1, 0.5, 0.6],
      ['overlap', 0, 2, 1.9, 2],
    ],
  );
});

test('a unit upside down is named and left out', () => {
  const { order, flaws } = column([{ top_m: 2, bottom_m: 1 }]);
  assert.deepEqual(order, []);
  assert.equal(flaws[0]?.kind, 'reversed');
});

test('described length and gaps agree with a count of millimetres (seed 51)', () => {
  // Twin: paint every millimetre a unit covers. Units on whole millimetres, so the two are the same to rounding.
  const unit = fc
    .tuple(fc.integer({ min: 0, max: 300 }), fc.integer({ min: 0, max: 100 }))
    .map(([top, thickness]) => ({ top, bottom: top + thickness }));
  fc.assert(
    fc.property(fc.array(unit, { minLength: 1, maxLength: 8 }), (units) => {
      const painted = new Uint8Array(500);
      for (const u of units) painted.fill(1, u.top, u.bottom);
      const first = Math.min(...units.map((u) => u.top));
      const last = Math.max(...units.map((u) => u.bottom));
      const covered = painted.reduce((sum, cell) => sum + cell, 0);
      const { described_m, flaws } = column(
        units.map((u) => ({ top_m: u.top / 1000, bottom_m: u.bottom / 1000 })),
        1e-6,
      );
      const gaps = flaws
        .filter((f) => f.kind === 'gap')
        .reduce((sum, f) => sum + (f.bottom_m - f.top_m) * 1000, 0);
      assert.ok(Math.abs(described_m * 1000 - covered) < 1e-6);
      assert.ok(Math.abs(gaps - (last - first - covered)) < 1e-6);
    }),
    { seed: 51, numRuns: 500 },
  );
});

test('elevation is ground less depth, its skewed interval turned over and widened by the ground', () => {
  const depth = { value: 3, sigma: 0.1, lower95: 2.9, upper95: 3.3 };
  const sharp = elevationOf(depth, { value: 1.5, sigma: 0 });
  assert.deepEqual(
    [sharp.value, sharp.sigma, sharp.lower95, sharp.upper95].map((x) => Number(x.toFixed(12))),
    [-1.5, 0.1, -1.8, -1.4],
  );
  const blunt = elevationOf(depth, { value: 1.5, sigma: 0.2 });
  assert.ok(Math.abs(blunt.sigma - Math.sqrt(0.05)) < 1e-12);
  assert.ok(blunt.lower95 < sharp.lower95 && blunt.upper95 > sharp.upper95);
});
