import assert from 'node:assert/strict';
import { test } from 'node:test';
import { mean, randomStream, square } from '@stillstand/science/base';
import type { AgedColumn } from './column.ts';
import { edgeAlong } from './edge.ts';
import { column, type MadeLayer } from './hand-made.ts';

const land = (environment: string | null): boolean | null =>
  environment === null ? null : environment === 'land';
const stream = () => randomStream(17).split('edge');

/** A hole that was land until an age, marsh since; given more ages, land again, and so on. */
function turning(
  hole: string,
  along_m: number,
  turns: readonly number[],
  draws = 1,
  oldest = 2000,
): AgedColumn {
  const ends = [0, ...turns, oldest];
  const layers = ends.slice(1).map((base, i): MadeLayer => {
    const isLand = (turns.length - i) % 2 === 0;
    return {
      environment: isLand ? 'land' : 'marsh',
      depth_m: [i, i + 1],
      age_cal_bp: [ends[i]!, base],
    };
  });
  return column(hole, layers, { along_m, draws });
}

test('by hand, three holes: the edge goes from one to the next, and beyond both ends', () => {
  const holes = [turning('A', 0, [900]), turning('B', 100, [600]), turning('C', 300, [300])];
  const ages = [1000, 750, 450, 100];
  const edge = edgeAlong(holes, land, ages, stream())!;
  assert.equal(edge.innermost, 'C');
  assert.deepEqual(
    edge.passages.map(({ hole, toInner, age_cal_bp }) => [hole, toInner, age_cal_bp[0]]),
    [
      ['A', false, 900],
      ['B', false, 600],
      ['C', false, 300],
    ],
  );
  const [seaward, first, second, landward] = edge.along_m.map((draws) => draws[0]!);
  assert.equal(seaward, -Infinity);
  assert.ok(first! > 0 && first! < 100, `${first}`);
  assert.ok(second! > 100 && second! < 300, `${second}`);
  assert.equal(landward, Infinity);
});

test('the line may run the other way: the end that is inside for longer is the innermost', () => {
  const holes = [turning('C', 0, [300]), turning('B', 200, [600]), turning('A', 300, [900])];
  const edge = edgeAlong(holes, land, [1000, 750, 450, 100], stream())!;
  assert.equal(edge.innermost, 'C');
  const [seaward, first, second, landward] = edge.along_m.map((draws) => draws[0]!);
  assert.deepEqual([seaward, landward], [-Infinity, Infinity]);
  assert.ok(first! > 200 && first! < 300 && second! > 0 && second! < 200);
});

test('an edge that comes back to the hole it came from was anywhere between the two, even from draw to draw', () => {
  const draws = 4000;
  // It passes B landward, and seaward again, without reaching C.
  const holes = [
    turning('A', 0, [900], draws),
    turning('B', 100, [400, 600], draws),
    turning('C', 300, [], draws),
  ];
  const edge = edgeAlong(holes, land, [500, 450, 200], stream())!;
  const [at, later, since] = edge.along_m;
  // Uniform on 100 to 300: mean 200, variance 200²/12.
  assert.ok(Math.abs(mean([...at!]) - 200) < 4, `${mean([...at!])}`);
  assert.ok(Math.abs(mean([...at!].map((x) => square(x - 200))) - 40_000 / 12) < 160);
  // One draw stays where it is for the whole visit.
  assert.deepEqual([...at!], [...later!]);
  assert.ok(since!.every((x) => x >= 0 && x <= 100));
});

test('where a hole does not say its side the edge is not known, beyond it neither', () => {
  const unsaid = column(
    'B',
    [
      { environment: 'marsh', depth_m: [0, 1], age_cal_bp: [0, 400] },
      { environment: null, depth_m: [1, 2], age_cal_bp: [400, 700] },
    ],
    { along_m: 100 },
  );
  const holes = [turning('A', 0, [900]), unsaid, turning('C', 300, [300])];
  const [before, now] = edgeAlong(holes, land, [500, 350], stream())!.along_m.map((draws) => draws[0]!);
  // C is land, B is not known, so the edge is not.
  assert.ok(Number.isNaN(before));
  assert.ok(now! > 100 && now! < 300);
  assert.equal(edgeAlong([holes[0]!], land, [500], stream()), null);
  assert.equal(edgeAlong([], land, [500], stream()), null);
});

test('between layers of two sides with time missing it passed at an even age of that time', () => {
  const draws = 4000;
  const hole = column(
    'A',
    [
      { environment: 'marsh', depth_m: [0, 1], age_cal_bp: [0, 400] },
      { environment: 'land', depth_m: [1, 2], age_cal_bp: [1000, 1500] },
    ],
    { draws },
  );
  const edge = edgeAlong([hole, turning('C', 300, [300], draws)], land, [], stream())!;
  const passed = [...edge.passages[0]!.age_cal_bp];
  // Even on 400 to 1000: mean 700, sd of the mean 600/√12/√4000 = 2.7.
  assert.ok(Math.abs(mean(passed) - 700) < 11, `${mean(passed)}`);
  assert.ok(Math.min(...passed) >= 400 && Math.max(...passed) <= 1000);
});

/*
 * The share of a gamma process's whole that it has reached at a part f of its time is Beta(c f, c (1 − f)) where its shapes add
 * to c, which is 2 (closed form, any textbook): mean f, variance f (1 − f)/(c + 1).
 */
test('its way between two holes has the mean and the variance of the closed form, and does not turn back', () => {
  const draws = 8000;
  const holes = [turning('A', 0, [1000], draws), turning('B', 1, [0.0001], draws)];
  const parts = [0.1, 0.25, 0.5, 0.75];
  const ages = parts.map((part) => 1000 * (1 - part));
  const edge = edgeAlong(holes, land, ages, stream())!;
  for (const [i, part] of parts.entries()) {
    const at = [...edge.along_m[i]!];
    const variance = (part * (1 - part)) / 3;
    // Four standard errors of a mean, and of a variance of so flat a distribution (no more than that of a normal one).
    assert.ok(Math.abs(mean(at) - part) < 4 * Math.sqrt(variance / draws), `${part}: ${mean(at)}`);
    const found = mean(at.map((x) => square(x - part)));
    assert.ok(Math.abs(found / variance - 1) < 4 * Math.sqrt(5 / draws), `${part}: ${found}, ${variance}`);
  }
  // At half of the time it is anywhere between them: Beta(1, 1).
  for (const share of [0.1, 0.5, 0.9]) {
    const below = mean([...edge.along_m[2]!].map((x) => (x < share ? 1 : 0)));
    assert.ok(Math.abs(below - share) < 4 * Math.sqrt((share * (1 - share)) / draws), `${share}: ${below}`);
  }
  for (let k = 0; k < draws; k++)
    for (let i = 1; i < parts.length; i++) assert.ok(edge.along_m[i]![k]! >= edge.along_m[i - 1]![k]!);
});
