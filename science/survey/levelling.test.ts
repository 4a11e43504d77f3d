import assert from 'node:assert/strict';
import { test } from 'node:test';
import fc from 'fast-check';
import type { LevelSight } from './level-book.ts';
import { levelDefaults, reduceLoop } from './levelling.ts';

const sight = (
  point: string,
  backsight_m: number | null,
  intermediate_m: number | null,
  foresight_m: number | null,
  distance_m: number | null = null,
): LevelSight => ({ row_id: `row ${point}`, point, backsight_m, intermediate_m, foresight_m, distance_m });

const MM = 1e-9;

test('a loop with a misclosure of 4 mm gives it back by distance', () => {
  const loop = reduceLoop(
    [
      sight('BM', 1.5, null, null),
      sight('T1', 1.2, null, 0.5, 100),
      sight('H1', null, 1.0, null),
      sight('BM', null, null, 2.204, 300),
    ],
    [{ point: 'BM', elevation_m: 10, sigma_m: 0.02 }],
  );
  assert.ok(Math.abs(loop.closures[0]!.misclosure_m + 0.004) < MM);
  assert.ok(Math.abs(loop.closures[0]!.allowed_m - 0.012 * Math.sqrt(0.4)) < MM);
  assert.equal(loop.closures[0]!.within, true);
  const at = new Map(loop.points.map((p) => [p.point, p]));
  assert.ok(Math.abs(at.get('T1')!.elevation_m - 11.001) < MM);
  assert.ok(Math.abs(at.get('H1')!.elevation_m - 11.201) < MM);
  assert.ok(Math.abs(at.get('BM')!.elevation_m - 10) < MM);
  // σ here is the misclosure's: 0.004/√0.4; d(1 − d/D) = 0.1 × 0.75
  assert.ok(Math.abs(at.get('T1')!.sigma_m - (0.004 / Math.sqrt(0.4)) * Math.sqrt(0.075)) < MM);
  assert.deepEqual(at.get('H1')!.shared, [{ point: 'BM', weight: 1, sigma_m: 0.02 }]);
  assert.equal(loop.check.agrees, true);
});

test('between two bench marks the error of both is shared by distance', () => {
  const loop = reduceLoop(
    [sight('A', 1.0, null, null), sight('T', 1.0, null, 1.0, 250), sight('B', null, null, 1.0, 750)],
    [
      { point: 'A', elevation_m: 5, sigma_m: 0.01 },
      { point: 'B', elevation_m: 5.008, sigma_m: 0.03 },
    ],
  );
  const t = loop.points[1]!;
  assert.ok(Math.abs(t.elevation_m - 5.002) < MM);
  assert.deepEqual(
    t.shared.map((s) => [s.point, s.weight]),
    [
      ['A', 0.75],
      ['B', 0.25],
    ],
  );
});

test('faulty lines are named and the rest stands', () => {
  const codes = (sights: LevelSight[]) =>
    reduceLoop(sights, [{ point: 'BM', elevation_m: 0, sigma_m: 0 }]).findings.map((f) => f.code);
  assert.deepEqual(codes([]), []);
  assert.ok(codes([sight('X', null, 1, null)]).includes('level-sight-unused'));
  assert.ok(codes([sight('BM', 1, null, null), sight('Y', null, null, 1)]).includes('level-not-closed'));
  assert.ok(codes([sight('BM', 1, null, null), sight('Y', null, 1, null)]).includes('level-sight-missing'));
  assert.ok(codes([sight('Q', 1, null, null), sight('Y', null, null, 1)]).includes('level-no-fixed-point'));
  assert.ok(
    codes([sight('BM', 1, null, null), sight('BM', null, null, 1.05, 40)]).includes('level-misclosure'),
  );
});

test('closed loops of any shape: three equal sums, fixed points stay, true heights come back (seed 4201)', () => {
  fc.assert(
    fc.property(
      fc.array(
        fc.tuple(fc.integer({ min: -1500, max: 1500 }), fc.integer({ min: 10, max: 120 }), fc.boolean()),
        {
          minLength: 1,
          maxLength: 30,
        },
      ),
      (steps) => {
        const sights = [sight('BM', 2, null, null)];
        const truth: [string, number][] = [];
        let height = 0;
        steps.forEach(([rise, distance, between], i) => {
          if (between) {
            truth.push([`I${i}`, height + (2 - 1.234)]);
            sights.push(sight(`I${i}`, null, 1.234, null));
          }
          height += rise / 1000;
          truth.push([`T${i}`, height]);
          sights.push(sight(`T${i}`, 2, null, 2 - rise / 1000, distance));
        });
        sights.push(sight('BM', null, null, 2 + height, 50));
        const loop = reduceLoop(sights, [{ point: 'BM', elevation_m: 0, sigma_m: 0 }], levelDefaults);
        assert.equal(loop.check.agrees, true);
        const at = new Map(loop.points.map((p) => [p.point, p.elevation_m]));
        for (const [point, value] of truth) assert.ok(Math.abs(at.get(point)! - value) < 1e-9);
      },
    ),
    { seed: 4201, numRuns: 100 },
  );
});
