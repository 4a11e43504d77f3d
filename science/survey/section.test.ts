import assert from 'node:assert/strict';
import { test } from 'node:test';
import { shiftBetween } from './datum-shift.ts';
import { orthometric } from './height.ts';
import { sectionThrough } from './section.ts';

test('holes on a line: in order, 0 at the first along it, offsets to the right positive', () => {
  const places = sectionThrough([
    { latitude_deg: -40, longitude_deg: 100 },
    { latitude_deg: -40, longitude_deg: 100.001 },
    null,
    { latitude_deg: -40, longitude_deg: 100.004 },
  ]);
  assert.equal(places[2], null);
  assert.ok(Math.abs(places[0]!.along_m) < 1e-9);
  // 1° of longitude at 40° on WGS 84 is 85 393.8 m (radius of the parallel, closed form)
  assert.ok(Math.abs(places[1]!.along_m - 85.3938) < 1e-3);
  assert.ok(Math.abs(places[3]!.along_m - 4 * 85.3938) < 1e-3);
  for (const p of places) if (p !== null) assert.ok(Math.abs(p.offset_m) < 1e-3);
});

test('one hole, none, and holes at one place', () => {
  assert.deepEqual(sectionThrough([]), []);
  assert.deepEqual(sectionThrough([null]), [null]);
  const here = { latitude_deg: 1, longitude_deg: 2 };
  assert.equal(sectionThrough([here])[0]!.along_m, 0);
  for (const p of sectionThrough([here, here])) assert.equal(p!.along_m, 0);
  assert.equal(sectionThrough([{ latitude_deg: Number.NaN, longitude_deg: 0 }])[0], null);
});

test('shifts run both ways and along the fewest steps', () => {
  const shifts = [
    { row_id: 's1', from: 'chart', to: 'land', shift_m: -1.3, sigma_m: 0.03 },
    { row_id: 's2', from: 'mean', to: 'land', shift_m: 0.2, sigma_m: 0.04 },
  ];
  const path = shiftBetween(shifts, 'chart', 'mean')!;
  assert.ok(Math.abs(path.shift_m + 1.5) < 1e-12);
  assert.ok(Math.abs(path.sigma_m - 0.05) < 1e-12);
  assert.deepEqual(path.row_ids, ['s1', 's2']);
  assert.deepEqual(shiftBetween(shifts, 'land', 'land'), { shift_m: 0, sigma_m: 0, row_ids: [] });
  assert.equal(shiftBetween(shifts, 'land', 'elsewhere'), null);
});

test('H = h − N', () => {
  assert.deepEqual(orthometric({ value_m: 12, sigma_m: 0.03 }, { value_m: 9.5, sigma_m: 0.04 }), {
    value_m: 2.5,
    sigma_m: 0.05,
  });
});
