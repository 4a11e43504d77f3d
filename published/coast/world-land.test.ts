import assert from 'node:assert/strict';
import { test } from 'node:test';
import { worldLand } from './index.ts';

/** Whether a place lies on one of the pieces of land, by crossings of its parallel (even and odd). */
function isLand(land: Awaited<ReturnType<typeof worldLand>>, longitude: number, latitude: number): boolean {
  const crossings = land.flat().flatMap((ring) =>
    ring.slice(1).filter(([x2, y2], i) => {
      const [x1, y1] = ring[i]!;
      return y1 > latitude !== y2 > latitude && longitude < x1 + ((latitude - y1) / (y2 - y1)) * (x2 - x1);
    }),
  );
  return crossings.length % 2 === 1;
}

test('continents are land and the middles of oceans are not, in degrees', async () => {
  const land = await worldLand();
  for (const [longitude, latitude] of [
    [20, 0],
    [100, 60],
    [-100, 45],
    [-60, -10],
    [135, -25],
  ] as const)
    assert.ok(isLand(land, longitude, latitude), `${longitude} ${latitude}`);
  for (const [longitude, latitude] of [
    [-30, 0],
    [-150, 30],
    [80, -30],
    [-121.3, -46.4],
  ] as const)
    assert.ok(!isLand(land, longitude, latitude), `${longitude} ${latitude}`);
  // All of it is 29 % of the Earth: by the sum of (1 + sin of latitude) dx over the rings, also round a pole.
  const area = land.flat().reduce((sum, ring) => {
    const part = ring.slice(1).reduce((s, [x2, y2], i) => {
      const [x1, y1] = ring[i]!;
      const dx = x2 - x1 - 360 * Math.round((x2 - x1) / 360);
      return s + (dx * (2 + Math.sin((y1 * Math.PI) / 180) + Math.sin((y2 * Math.PI) / 180))) / 2;
    }, 0);
    return sum + part / 720;
  }, 0);
  assert.ok(Math.abs(Math.abs(area) - 0.29) < 0.02, `${area}`);
});
