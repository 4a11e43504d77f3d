/** The load of pulling against what is marked on each part, each by a sum done by hand. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { TableName } from '@stillstand/campaign/tables';
import { type Cells, campaignTold, drive, holeTold, joint, type Told } from './fixtures/told.ts';
import { exceededBy, pullLoads } from './pull-loads.ts';
import { ratedParts, withMarks } from './rated-parts.ts';
import { holeState } from './state.ts';

const near = (a: number | null | undefined, b: number) =>
  assert.ok(a != null && Math.abs(a - b) < 1e-6, `${a} is not ${b}`);

const holes: Cells[] = [
  { hole: 'H1', method: 'string', state: 'open', pipe: '3 in', row_id: 'h1' },
  { hole: 'H2', method: 'string', state: 'open', pipe: '3 in', row_id: 'h2' },
];
const pipes: Cells[] = [
  { pipe: '3 in', outside_diameter_mm: '88.9', wall_mm: '5.49', mass_kg_per_m: '11.29', row_id: 'p' },
];
function tables(parts: Record<string, string>, settings: Record<string, string> = {}) {
  const found: Partial<Record<TableName, Cells[]>> = { holes, pipes };
  const rated = Object.entries(parts).map(([part, marking]) => ({ part, marking, row_id: part }));
  const chosen = Object.entries(settings).map(([name, value]) => ({ name, value, row_id: name }));
  return {
    ...found,
    ...(rated.length > 0 ? { rated_gear: rated } : {}),
    ...(chosen.length > 0 ? { settings: chosen } : {}),
  };
}

const pull = (label: string, line_load_kn = '', more: Cells = {}): Told => [
  'string_items',
  '',
  { action: 'pull', item: 'joint', joint: label, line_load_kn, ...more },
];
/** Two joints without thread loss, driven to 4 m. */
const DRIVEN = [joint('A1', '3 m'), joint('A2', '3 m'), drive('6 m', '2 m')];
const TWO_PARTS = { line_parts: '2', line_bearing: 'roller' };

test('the load is that of this hole, as last read', () => {
  const told = [
    ...DRIVEN,
    joint('B1', '3 m', '', { hole: 'H2' }),
    pull('A9', '5'),
    pull('A2', '12'),
    pull('B1', '30', { hole: 'H2' }),
  ];
  const now = holeTold(told, tables({}));
  assert.equal(pullLoads(now).read!.line_kn, 12);
  // and at an earlier reading the one before
  assert.equal(pullLoads(holeState(campaignTold(told, tables({})), 'H1', 5)!).read!.line_kn, 5);
  assert.equal(pullLoads(holeState(campaignTold(told, tables({})), 'H1', 3)!).read, null);
});

test('a load as large as the mark is within it; a rated load is never shown larger than it is', () => {
  const rope = (kn: string) => pullLoads(holeTold([...DRIVEN, pull('A2', '12')], tables({ rope: kn })));
  assert.deepEqual(rope('12 kN').against, []);
  assert.equal(rope('11.9 kN').against[0]!.verdict, 'exceeds');
  // 17.9 ÷ 12 = 1.4917
  assert.ok(rope('17.9 kN').basis.some((b) => b.says === 'weakest: rope, rated 1.4 × the load read'));
});

test('of parts that a typed load exceeds, the one that bears the least of it is named', () => {
  const now = holeTold(DRIVEN, tables({ rope: '10 kN', shackle: '10 kN', winch: '30 kN' }, TWO_PARTS));
  // two parts on two roller sheaves: 12·(1.04² − 1)/(1.04²·0.04) = 22.6331 on the shackle
  const over = exceededBy(now, 12)!;
  assert.equal(over.part, 'shackle');
  near(over.load_kn, 22.633136);
  assert.equal(exceededBy(now, 5), null);
});

test('the gravest comes first', () => {
  const { against } = pullLoads(holeTold(DRIVEN, tables({ hook: '10 kN', rope: '0.1 kN' }, TWO_PARTS)));
  assert.deepEqual(
    against.map((a) => [a.part, a.verdict]),
    [
      ['rope', 'exceeds'],
      ['hook', 'could exceed'],
    ],
  );
});

test('friction is on what is in the ground: no more than the string is long, and all of it while it is drawn', () => {
  const low = (told: readonly Told[]) => pullLoads(holeTold(told, tables({}))).estimate!.friction_kn.low;
  // π·0.0889·P²/2·0.15·4: 0.0837864·P²
  const friction = (m: number) => ((Math.PI * 0.0889 * m ** 2) / 2) * 0.6;
  near(low(DRIVEN), friction(4));
  // its height is not read while it comes out: 3 m are left of the string
  near(low([...DRIVEN, pull('A2')]), friction(3));
  // driven flush, and half a metre of sand came over the ground since
  const ground = (level: string): Told => ['ground_levels', '', { ground_below_reference: level }];
  const buried = [
    ground('0 m'),
    joint('A1', '3 m'),
    joint('A2', '3 m'),
    drive('6 m', '0 m'),
    ground('-0.5 m'),
  ];
  near(low(buried), friction(6));
});

test('what hangs on the hook is lifted too', () => {
  const air = (hanging_kg: string) =>
    pullLoads(holeTold(DRIVEN, tables({}, { hanging_kg }))).estimate!.weight_air_kn;
  // 100 kg × 9.80665 m/s²
  near(air('100') - air('0'), 0.980665);
});

test('sheaves that cannot be: the line is as read, of hook and mast nothing is known', () => {
  const { read, estimate } = pullLoads(
    holeTold([...DRIVEN, pull('A2', '12')], tables({ hook: '1 kN' }, { ...TWO_PARTS, line_sheaves: '2.5' })),
  );
  assert.deepEqual(read, { line_kn: 12, hook_kn: null, block_kn: null, head_kn: null });
  assert.equal(estimate, null);
});

const GEAR = holeTold([], tables({})).pulling;
const row = (part: string, rated_load_kn: number | null, marking: string | null) => ({
  part,
  rated_load_kn,
  marking,
  row_id: part,
  note: null,
});
const rated = (...rows: Parameters<typeof ratedParts>[0]) => ratedParts(rows, GEAR);

test('a marking and a typed load that differ: the smaller is used, whichever it is, and a doubt is said', () => {
  // 1 t = 9.80665 kN
  const [more, less, same] = [20, 5, 9.81].map((kn) => rated(row('rope', kn, 'WLL 1 t'))[0]!);
  near(more!.rated_kn, 9.80665);
  near(less!.rated_kn, 5);
  near(same!.rated_kn, 9.81);
  assert.deepEqual(
    [more, less, same].map((part) => part!.doubt !== null),
    [true, true, false],
  );
  // a typed 0 is no rating
  near(rated(row('rope', 0, 'WLL 1 t'))[0]!.rated_kn, 9.80665);
});

test('a part that nobody knows carries the largest load there is; a crown block stands on the mast', () => {
  const [strange, crown, ...others] = rated(row('thimble no. 4', 10, null), row('crown block', 10, null));
  assert.deepEqual([strange!.on, crown!.on], ['head', 'head']);
  assert.ok(others.some((p) => p.part === 'sheave block'));
  assert.ok(!others.some((p) => p.part === 'mast or tripod'));
});

test('a mark of one part takes the place of what was said of several together', () => {
  const old = { ...GEAR, rated_line_kn: 3 };
  assert.equal(ratedParts([], old)[0]!.part, 'line');
  const marked = withMarks([], old, [{ part: 'rope', marking: '2 t' }]);
  assert.deepEqual(
    marked.filter((p) => p.on === 'line').map((p) => [p.part, p.rated_kn?.toFixed(2) ?? null]),
    [
      ['rope', '19.61'],
      ['winch', null],
    ],
  );
});
