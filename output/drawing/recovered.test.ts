import assert from 'node:assert/strict';
import { test } from 'node:test';
import fc from 'fast-check';
import { lossUnknown, recoveredBar } from './recovered.ts';

/** Square points of paper: coordinates are rounded to 0.01. */
const AREA = 1;

const run = (
  removed_m: number,
  recovered_m: number,
  loss_position: Parameters<typeof recoveredBar>[0]['loss_position'],
) => ({
  removed_m,
  recovered_m,
  fall_in_m: 0,
  entered_top_m: 0,
  entered_bottom_m: removed_m,
  loss_position,
});

/** Corners of the one polygon of a path of M, L, H, V, Z. */
function corners(d: string): [number, number][] {
  let x = 0;
  let y = 0;
  return [...d.matchAll(/([MLHV])(-?[\d.]+)(?: (-?[\d.]+))?/g)].map(([, command, a, b]) => {
    if (command === 'V') y = Number(a);
    else x = Number(a);
    if (b !== undefined) y = Number(b);
    return [x, y];
  });
}

function area(d: string): number {
  const points = corners(d);
  return Math.abs(
    points.reduce((sum, [x, y], i) => {
      const [nextX, nextY] = points[(i + 1) % points.length]!;
      return sum + (x * nextY - nextX * y) / 2;
    }, 0),
  );
}

test('wherever it was lost, what is black is what came up (seed 20261125)', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0.2, max: 2, noNaN: true }),
      fc.double({ min: 0, max: 1.1, noNaN: true }),
      fc.constantFrom('top' as const, 'base' as const, 'spread' as const, 'unknown' as const, null),
      (removed, share, loss_position) => {
        const { solid, lost } = recoveredBar(run(removed, removed * share, loss_position), 10, 18, 50, 150);
        const whole = 8 * 100;
        // Less than 0.4 points at either end is not drawn.
        assert.ok(Math.abs(area(solid) - whole * Math.min(1, share)) <= 0.4 * 8 + AREA);
        assert.equal(lost === '', (1 - share) * 100 <= 0.4);
      },
    ),
    { seed: 20261125 },
  );
});

test('what is lost is crossed where it was lost', () => {
  const bar = (loss_position: 'top' | 'base' | 'spread' | 'unknown') =>
    recoveredBar(run(1, 0.75, loss_position), 0, 8, 0, 40);
  assert.deepEqual(bar('base'), { solid: 'M0 0H8V30H0Z', lost: 'M0 30H8V40H0ZM0 30L8 40M0 40L8 30' });
  assert.deepEqual(bar('top'), { solid: 'M0 10H8V40H0Z', lost: 'M0 0H8V10H0ZM0 0L8 10M0 10L8 0' });
  assert.deepEqual(bar('spread').solid, 'M0 0H6V40H0Z');
  assert.deepEqual(bar('unknown'), { solid: 'M0 10L8 0L8 30L0 40Z', lost: 'M0 0H8V40H0Z' });
});

test('fall-in did not come up in its place', () => {
  const fallen = { ...run(1, 0.9, 'base'), fall_in_m: 0.4 };
  assert.equal(recoveredBar(fallen, 0, 8, 0, 40).solid, 'M0 0H8V20H0Z');
});

test('nothing is slanted where nothing or everything is missing', () => {
  assert.ok(lossUnknown(run(1, 0.8, 'unknown')));
  for (const same of [run(1, 1, 'unknown'), run(1, 0, 'unknown'), run(1, 0.8, 'top')])
    assert.ok(!lossUnknown(same));
});
