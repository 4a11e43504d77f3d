/** Ties and margins against every alignment of small columns; what a person and the ages say; names of sediments. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { type RandomStream, randomStream } from '@stillstand/science/base';
import { type CorrelatedColumn, type CorrelatedUnit, yearsApart } from './column.ts';
import { correlate, crossings } from './correlate.ts';
import { likeness } from './likeness.ts';
import { pairScores } from './score.ts';
import { correlationDefaults } from './settings.ts';

const unit = (
  sediment: string | null,
  top: number,
  base: number,
  more: Partial<CorrelatedUnit> = {},
): CorrelatedUnit => ({
  sediment,
  secondary_sediment: null,
  top_m: { value: top, sigma: 0.05 },
  base_m: { value: base, sigma: 0.05 },
  thickness_m: { value: top - base, sigma: 0.03 },
  isBaseSeen: true,
  properties: {},
  base_age: null,
  ...more,
});
const columnOf = (units: CorrelatedUnit[], hasElevations = true): CorrelatedColumn => ({
  units,
  hasElevations,
});

const NAMES = ['sand', 'silt', 'peat', 'clay'];
function randomColumn(stream: RandomStream, units: number): CorrelatedColumn {
  let top = stream.normal();
  return columnOf(
    Array.from({ length: units }, (_, i) => {
      const base = top - 0.1 - 2 * stream.uniform();
      const made = unit(NAMES[Math.floor(4 * stream.uniform())]!, top, base, { isBaseSeen: i < units - 1 });
      top = base;
      return made;
    }),
  );
}

/** Every way to pair some of n with some of m in order. */
function everyWay(n: number, m: number, i = 0, j = 0): [number, number][][] {
  if (i === n) return [[]];
  const ways = everyWay(n, m, i + 1, j);
  for (let l = j; l < m; l++) for (const way of everyWay(n, m, i + 1, l + 1)) ways.push([[i, l], ...way]);
  return ways;
}

test('ties and margins are those of every alignment tried under every rise', () => {
  const stream = randomStream(170).split('columns');
  let ties = 0;
  for (let round = 0; round < 40; round++) {
    const [a, b] = [1, 2].map(() => randomColumn(stream, 1 + Math.floor(5 * stream.uniform()))) as [
      CorrelatedColumn,
      CorrelatedColumn,
    ];
    const refused: [number, number][] = round % 2 === 0 ? [[0, 0]] : [];
    const settings = { ...correlationDefaults, dip: round % 3 === 0 ? 0 : 0.02 };
    const found = correlate({ a, b, distance_m: 60, forbidden: refused }, settings);
    const { steady, elevation } = pairScores(a, b, 60, settings);
    const sd = settings.dip * 60;
    // As the method says: rises to 3 sd on each side, half the relief apart.
    const steps = Math.ceil((3 * sd) / (0.5 * settings.relief_m));
    const rises = Array.from({ length: 2 * steps + 1 }, (_, k) =>
      steps === 0 ? 0 : (3 * sd * (k - steps)) / steps,
    );
    const end = (column: CorrelatedColumn): number => column.units.at(-1)!.base_m.value;
    const alone = ({ top_m, base_m }: CorrelatedUnit, other: number): number =>
      settings.missing * Math.min(1, Math.max(0, (top_m.value - other) / (top_m.value - base_m.value)));
    const ways = everyWay(a.units.length, b.units.length)
      .filter((way) => !way.some(([i, j]) => refused.some(([k, l]) => k === i && l === j)))
      .map((way) => {
        const without = [
          ...a.units.filter((_, i) => !way.some(([k]) => k === i)).map((each) => alone(each, end(b))),
          ...b.units.filter((_, j) => !way.some(([, l]) => l === j)).map((each) => alone(each, end(a))),
        ].reduce((sum, value) => sum + value, 0);
        const under = rises.map((rise) =>
          way.reduce(
            (sum, [i, j]) => {
              const { sediment, thickness, properties } = steady(i, j);
              return sum + sediment + thickness + properties + elevation(i, j, rise);
            },
            without - (sd === 0 ? 0 : 0.5 * (rise / sd) ** 2),
          ),
        );
        return { way, score: Math.max(...under) };
      });
    const best = Math.max(...ways.map(({ score }) => score));
    for (const tie of found.ties) {
      const others = ways.filter(({ way }) => !way.some(([i, j]) => i === tie.a && j === tie.b));
      const second = Math.max(...others.map(({ score }) => score));
      assert.ok(Math.abs(tie.margin - (best - second)) < 1e-9, `${tie.margin} for ${best - second}`);
      ties += 1;
    }
    const chosen = ways.find(
      ({ way }) =>
        way.length === found.ties.length &&
        way.every(([i, j], k) => found.ties[k]!.a === i && found.ties[k]!.b === j),
    );
    assert.ok(Math.abs(chosen!.score - best) < 1e-9);
  }
  assert.ok(ties > 50, `${ties} ties`);
});

const SIX = columnOf([
  unit('sand', 2, 1),
  unit('clay', 1, -0.5),
  unit('peat', -0.5, -0.8),
  unit('silt', -0.8, -2),
  unit('peat', -2, -2.2),
  unit('diamicton', -2.2, -3, { isBaseSeen: false }),
]);

test('a column is tied to itself unit by unit, and the lowest unit to no base', () => {
  const { ties } = correlate({ a: SIX, b: SIX, distance_m: 30 });
  assert.deepEqual(
    ties.map(({ a, b, areBasesSeen, isClear }) => [a, b, areBasesSeen, isClear]),
    [0, 1, 2, 3, 4, 5].map((i) => [i, i, i < 5, true]),
  );
});

test('a missing layer is left alone', () => {
  const without = columnOf(SIX.units.filter((_, i) => i !== 2));
  const { ties } = correlate({ a: SIX, b: without, distance_m: 30 });
  assert.deepEqual(
    ties.map(({ a, b }) => [a, b]),
    [
      [0, 0],
      [1, 1],
      [3, 2],
      [4, 3],
      [5, 4],
    ],
  );
});

test('of two beds that could be the one, the best is said with the other, and is not clear', () => {
  const two = columnOf([
    unit('sand', 2, 1),
    unit('peat', 1, 0.7),
    unit('sand', 0.7, 0.5),
    unit('peat', 0.5, 0.2),
  ]);
  const one = columnOf([unit('sand', 2, 0.85), unit('peat', 0.85, 0.55)]);
  const tie = correlate({ a: two, b: one, distance_m: 30 }).ties.find(({ b }) => b === 1)!;
  assert.deepEqual([tie.a, tie.otherwise.of_b, tie.otherwise.of_a, tie.isClear], [1, 3, null, false]);
});

test('what is accepted stays and is not crossed; what is refused is not proposed', () => {
  const fixed = correlate({ a: SIX, b: SIX, distance_m: 30, fixed: [[2, 4]] });
  assert.ok(fixed.ties.every(({ a, b }) => (a - 2) * (b - 4) > 0));
  assert.ok(fixed.ties.every(({ a }) => a !== 2));
  const refused = correlate({ a: SIX, b: SIX, distance_m: 30, forbidden: [[2, 2]] });
  assert.ok(!refused.ties.some(({ a, b }) => a === 2 && b === 2));
  assert.ok(refused.ties.some(({ a, b }) => a === 3 && b === 3));
  // One unit tied to two of the other hole: a layer split there. Crossing ones are named, and nothing is proposed.
  assert.deepEqual(
    crossings([
      [2, 2],
      [2, 3],
    ]),
    [],
  );
  const crossed = correlate({
    a: SIX,
    b: SIX,
    distance_m: 30,
    fixed: [
      [1, 3],
      [3, 1],
      [4, 4],
    ],
  });
  assert.deepEqual(
    [crossed.ties, crossed.crossing],
    [
      [],
      [
        [
          [1, 3],
          [3, 1],
        ],
      ],
    ],
  );
});

test('ages that cannot be one forbid a tie; bounds that contradict each other forbid none', () => {
  const dated = (youngest_cal_bp: number | null, oldest_cal_bp: number | null): CorrelatedColumn =>
    columnOf(
      SIX.units.map((each, i) =>
        i === 2 ? { ...each, base_age: { youngest_cal_bp, oldest_cal_bp } } : each,
      ),
    );
  const isTied = (a: CorrelatedColumn, b: CorrelatedColumn): boolean =>
    correlate({ a, b, distance_m: 30 }).ties.some((tie) => tie.a === 2 && tie.b === 2);
  assert.equal(isTied(dated(7000, null), dated(null, 6500)), false);
  assert.equal(isTied(dated(7000, null), dated(null, 7500)), true);
  assert.equal(isTied(dated(7000, null), dated(6900, 6500)), true);
});

test('a contact may be younger upslope, by so many years a metre, and not downslope', () => {
  const contact = (
    youngest_cal_bp: number | null,
    oldest_cal_bp: number | null,
    elevation_m: number | null,
  ) => ({
    age: { youngest_cal_bp, oldest_cal_bp },
    elevation_m,
  });
  const low = contact(7000, 8000, -3);
  assert.equal(yearsApart(low, contact(null, 6400, null), 500), 600);
  assert.equal(yearsApart(low, contact(null, 6400, -2), 500), 100);
  assert.equal(yearsApart(contact(null, 6400, -2), low, 500), 100);
  assert.equal(yearsApart(low, contact(null, 6400, -1), 500), 0);
  assert.equal(yearsApart(low, contact(null, 6400, -4), 500), 600);
  assert.equal(yearsApart(low, contact(null, 7500, -4), 500), 0);
  assert.equal(yearsApart({ age: null, elevation_m: 0 }, low, 500), 0);
});

test('what all units have in common says nothing, and no column is too small', () => {
  const sand = columnOf(SIX.units.map((each) => ({ ...each, sediment: 'sand' })));
  for (const { parts } of correlate({ a: sand, b: sand, distance_m: 30 }).ties)
    assert.ok(Math.abs(parts.sediment) < 0.2, String(parts.sediment));
  const nothing = columnOf([]);
  assert.deepEqual(correlate({ a: nothing, b: SIX, distance_m: null }).ties, []);
  assert.deepEqual(correlate({ a: nothing, b: nothing, distance_m: null }).ties, []);
  const bare = columnOf(
    [unit(null, 0, 0, { top_m: { value: 0, sigma: 0 }, base_m: { value: 0, sigma: 0 } })],
    false,
  );
  for (const { margin } of correlate({ a: bare, b: bare, distance_m: null }).ties) assert.ok(margin >= 0);
});

test('a measured property tells beds apart that nothing else does, with its errors', () => {
  const bed = (top: number, loss: number, sigma: number): CorrelatedUnit =>
    unit('silt', top, top - 1, { properties: { loss: { value: loss, sigma } } });
  const of = (losses: number[], sigma: number): CorrelatedColumn =>
    columnOf(
      losses.map((loss, i) => bed(-i, loss, sigma)),
      false,
    );
  const pairs = (sigma: number) =>
    correlate({ a: of([5, 20, 60], sigma), b: of([20, 60, 90], sigma), distance_m: null }).ties;
  assert.deepEqual(
    pairs(1).map(({ a, b }) => [a, b]),
    [
      [1, 0],
      [2, 1],
    ],
  );
  // With errors as large as their spread the values decide nothing.
  for (const { parts } of pairs(60)) assert.equal(parts.properties, 0);
});

test('sediments are the same, akin or different by their names', () => {
  const of = (a: string, b: string, secondary: string | null = null) =>
    likeness({ sediment: a, secondary_sediment: secondary }, { sediment: b, secondary_sediment: null });
  assert.deepEqual(
    [of('Fine sand', 'fine  sand'), of('fine sand', 'medium sand'), of('sand', 'silt'), of('sand', 'clay')],
    ['same', 'akin', 'akin', 'different'],
  );
  assert.deepEqual(
    [of('peat', 'organic mud'), of('rooted clay', 'clay'), of('peat', 'sand'), of('silty clay', 'silt')],
    ['akin', 'akin', 'different', 'akin'],
  );
  assert.equal(of('clay', 'sand', 'sand'), 'akin');
  assert.deepEqual(
    [of('unknown', 'sand'), of('', 'sand'), of('beachrock', 'beachrock')],
    [null, null, 'same'],
  );
  assert.equal(of('beachrock', 'sand'), 'different');
});

test('very long columns are compared with fewer rises, and beyond all measure not at all', () => {
  const long = (units: number): CorrelatedColumn =>
    columnOf(Array.from({ length: units }, (_, i) => unit(NAMES[i % 4]!, -0.1 * i, -0.1 * (i + 1))));
  assert.equal(correlate({ a: long(400), b: long(400), distance_m: 100 }).ties.length, 400);
  assert.deepEqual(correlate({ a: long(2000), b: long(2000), distance_m: 100 }).ties, []);
});
