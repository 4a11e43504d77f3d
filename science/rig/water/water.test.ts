import assert from 'node:assert/strict';
import { test } from 'node:test';
import fc from 'fast-check';
import { fastestLift_m_s, suctionOf } from './suction.ts';
import {
  boreVolume_l,
  exitGradient,
  levelForHead_m,
  pressureHead_m,
  runLowers_m,
  WATER_KG_M3,
  type WaterKind,
  waterToAdd_l,
} from './water.ts';

const near = (a: number, b: number, tolerance: number) =>
  assert.ok(Math.abs(a - b) <= tolerance, `${a} is not ${b}`);

const kinds = fc.constantFrom<WaterKind>('fresh', 'sea');

test('pressure head is the difference of two columns weighed metre by metre down to the shoe (seed 4252)', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 0, max: 3000 }),
      fc.integer({ min: 0, max: 3000 }),
      fc.integer({ min: 1, max: 20_000 }),
      fc.integer({ min: 0, max: 5000 }),
      kinds,
      kinds,
      (wi, wo, column, plug, inside, outside) => {
        const to_water_inside_m = wi / 1000;
        const to_sediment_m = to_water_inside_m + column / 1000;
        const shoe = to_sediment_m + plug / 1000;
        const columns = { to_sediment_m, to_water_inside_m, to_water_outside_m: wo / 1000, inside, outside };
        // kg on a square metre at the shoe; the plug's own water is outside water
        const within =
          WATER_KG_M3[inside] * (to_sediment_m - to_water_inside_m) +
          WATER_KG_M3[outside] * (shoe - to_sediment_m);
        const without = WATER_KG_M3[outside] * (shoe - wo / 1000);
        const head = pressureHead_m(columns);
        near(head, (within - without) / WATER_KG_M3[outside], 1e-9);
        near(levelForHead_m(columns, head), to_water_inside_m, 1e-9);
      },
    ),
    { seed: 4252, numRuns: 300 },
  );
});

test('fresh water level with the sea 20 m down pulls: 0.49 m short, and needs 0.50 m more', () => {
  const columns = { to_sediment_m: 20, to_water_outside_m: 0, inside: 'fresh', outside: 'sea' } as const;
  near(pressureHead_m({ ...columns, to_water_inside_m: 0 }), -0.4878, 1e-4);
  near(levelForHead_m(columns, 0), -0.5, 1e-9);
});

test('exit gradient: half a metre short over 1 m of plug', () => {
  assert.equal(exitGradient(0.1, 1).verdict, 'held');
  const sand = exitGradient(-0.5, 1, 'sand');
  near(sand.factor!, 2, 1e-9);
  assert.equal(sand.verdict, 'reversed');
  assert.equal(exitGradient(-0.5, 1).verdict, 'boils');
  assert.deepEqual([exitGradient(-0.5, 0).factor, exitGradient(-0.5, 0).gradient], [0, null]);
  assert.ok(sand.caution.length > 50);
});

test('volumes: 77.92 mm holds 4.77 L a metre; nothing to add where the water stands higher', () => {
  near(boreVolume_l(77.92, 1), 4.7686, 1e-3);
  near(waterToAdd_l(77.92, 3, 1), 9.537, 1e-3);
  assert.equal(waterToAdd_l(77.92, 1, 3), 0);
});

test('a run lowers the water by what it took, and by what it carried and spilled: every litre counted', () => {
  const sampler = { outside_mm: 60.3, bore_mm: 50, length_m: 1.62 };
  const litres = (mm: number, length: number) => boreVolume_l(mm, length);
  const removed = 0.5;
  // out of the pipe: sediment of the full bore, water above the core, and what the steel pushed over the collar
  const core = litres(77.92, removed);
  const above = litres(50, 1.62) - core;
  const steel = litres(60.3, 1.62) - litres(50, 1.62);
  near(runLowers_m(77.92, removed, sampler, true), (core + above + steel) / litres(77.92, 1), 1e-9);
  near(runLowers_m(77.92, removed, sampler, false), (core + above) / litres(77.92, 1), 1e-9);
  // a full sampler carries no water
  near(runLowers_m(77.92, 1.2, sampler, false), 1.2, 1e-9);
});

test('suction: slow and narrow it is flow between parallel walls, 12μVL/h²; fast it grows with V²', () => {
  const sampler = { outside_mm: 76, length_m: 1.6 };
  const slow = suctionOf(0.001, 78, sampler, 'fresh')!;
  const h = 0.001;
  const laminar = (12 * 1.31e-3 * slow.velocity_m_s * 1.6) / h ** 2 / (1000 * 9.80665);
  const ends = (1.5 * slow.velocity_m_s ** 2) / (2 * 9.80665);
  near(slow.head_m, laminar + ends, 1e-12);
  // continuity: what the sampler leaves runs past it
  near(slow.velocity_m_s - 0.001, (0.001 * 76 ** 2) / (78 ** 2 - 76 ** 2), 1e-12);
  assert.equal(suctionOf(0.5, 76, sampler), null);
  assert.equal(suctionOf(-1, 78, sampler), null);
  assert.equal(suctionOf(0, 78, sampler)!.head_m, 0);
});

test('suction grows with speed and with the width of the sampler; the fastest lift meets its head (seed 4253)', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 20, max: 74 }),
      fc.integer({ min: 1, max: 3000 }),
      fc.integer({ min: 1, max: 2000 }),
      (outside_mm, speed, head) => {
        const sampler = { outside_mm, length_m: 1.6 };
        const at = (mm_s: number, wider = 0) =>
          suctionOf(mm_s / 1000, 77.92, { ...sampler, outside_mm: outside_mm + wider })!.head_m;
        assert.ok(at(speed + 1) > at(speed));
        assert.ok(at(speed, 1) > at(speed));
        const lift = fastestLift_m_s(head / 1000, 77.92, sampler)!;
        if (lift < 5) near(suctionOf(lift, 77.92, sampler)!.head_m, head / 1000, 1e-9);
      },
    ),
    { seed: 4253, numRuns: 300 },
  );
  assert.equal(fastestLift_m_s(0, 77.92, { outside_mm: 60, length_m: 1.6 }), 0);
});
