/** What is named as changed between two computations, held to what was changed. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { type CampaignDocument, parseCampaign } from '@stillstand/campaign/document';
import { computeCampaign } from '@stillstand/campaign/steps';
import { type Cells, documentOf, THREE_LEVELS } from '../steps/sea/fixtures/three-levels.ts';
import { type Comparison, type Computed, compareComputations } from './compare.ts';
import { numberChanges } from './number-changes.ts';
import { rowChanges } from './row-changes.ts';
import { effectsOfChanges } from './why.ts';

const QUICK: readonly Cells[] = [
  { name: 'datum', value: 'MSL' },
  { name: 'chains', value: '2' },
  { name: 'draws', value: '200' },
];
const quick = (changed: Partial<typeof THREE_LEVELS> = {}): CampaignDocument =>
  documentOf('Three', { ...THREE_LEVELS, settings: QUICK, ...changed });

const resultsOf = (document: CampaignDocument, withCurve = true) => {
  const { campaign, problems } = parseCampaign(document);
  return computeCampaign(campaign, { curves: {} }, problems, { withCurve });
};

function computed(document: CampaignDocument): Computed {
  const computation = resultsOf(document);
  return { results: computation.results, from: { document, ...parseCampaign(document), computation } };
}

/** The second date with another error; its rows are determinations0 to determinations2. */
const withError = (error: string): CampaignDocument =>
  quick({
    determinations: THREE_LEVELS['determinations']!.map((row, i) => (i === 1 ? { ...row, error } : row)),
  });

const old = computed(quick());
const now = computed(withError('90'));
const found = compareComputations(old, now);
const rowsNamed = ({ changes }: Comparison): string[] => [
  ...new Set(changes.flatMap(({ rows }) => rows.map(({ row_id }) => row_id))),
];

test('one error of one date: exactly that cell is named, and is under every number that changed', () => {
  assert.deepEqual(
    found.rows?.map(({ table, row_id, name, change }) => [table, row_id, name, change]),
    [['determinations', 'determinations1', 'date INV-2', 'changed']],
  );
  assert.deepEqual(found.rows![0]!.cells, [{ column: 'error', called: 'its 1 sd', old: '60', now: '90' }]);
  assert.deepEqual(rowsNamed(found), ['determinations1']);
  assert.ok(found.changes.every(({ cause }) => cause === 'rows'));
});

test('numbers that the date is not under are unchanged: other dates and points, every elevation', () => {
  const ofData = found.changes.filter(({ kind }) => kind !== 'rate' && kind !== 'level');
  assert.deepEqual(ofData.map(({ name }) => name).sort(), ['age of point P2', 'date INV-2']);
  const date = ofData.find(({ kind }) => kind === 'date')!;
  // By hand: a calendar age keeps its median of 2000; its sd goes from 60 to 90 yr, on a yearly grid.
  assert.ok(Math.abs(date.difference!) < 0.5 && Math.abs(date.sigma_difference! - 30) < 0.5);
  assert.ok(Math.abs(date.old!.sigma! - 60) < 0.5 && Math.abs(date.now!.sigma! - 90) < 0.5);
  assert.equal(found.campaigns, 'not stated');
});

test('the rates of the curve of the report are named first, then what moved by most sigmas', () => {
  const kinds = found.changes.map(({ kind }) => kind);
  assert.ok(kinds.lastIndexOf('rate') < kinds.findIndex((kind) => kind !== 'rate'));
  const weights = found.changes
    .filter(({ kind }) => kind !== 'rate')
    .map(({ in_sigma, sigma_difference, old, now }) => {
      const both = Math.sqrt((old!.sigma! ** 2 + now!.sigma! ** 2) / 2);
      return Math.max(Math.abs(in_sigma!), Math.abs(sigma_difference!) / both);
    });
  for (let i = 1; i < weights.length; i++) assert.ok(weights[i - 1]! >= weights[i]! - 1e-12);
});

test('a computation compared with itself has no change, and all of its numbers are the same', () => {
  for (const each of [old, now]) {
    const { changes, rows, same, compared, rounded, unlike } = compareComputations(each, each);
    assert.deepEqual([changes, rows, rounded], [[], [], 0]);
    assert.ok(same === compared && compared > 40);
    assert.deepEqual(unlike, { old: [], now: [] });
  }
});

/** Edits of a campaign, each as tables in the place of those there. */
const EDITS: readonly (readonly [string, CampaignDocument])[] = [
  ['an error', withError('90')],
  ['a setting of the curve', quick({ settings: [...QUICK, { name: 'seed', value: '7' }] })],
  [
    'a tide level',
    quick({
      tide_levels: [
        ...THREE_LEVELS['tide_levels']!.map((r, i) => (i === 0 ? { ...r, elevation_m: '0.9' } : r)),
      ],
    }),
  ],
  [
    'a point rejected',
    quick({
      points: THREE_LEVELS['points']!.map((r, i) =>
        i === 2 ? { ...r, status: 'rejected', reason: 'reworked' } : r,
      ),
    }),
  ],
  ['a point less', quick({ points: THREE_LEVELS['points']!.slice(0, 2) })],
];

for (const [edit, document] of EDITS)
  test(`compared the other way round, old and new are exchanged: ${edit}`, () => {
    const other = computed(document);
    const there = compareComputations(old, other);
    const back = compareComputations(other, old);
    assert.ok(there.changes.length > 0);
    assert.deepEqual([there.compared, there.same, there.rounded], [back.compared, back.same, back.rounded]);
    const byKey = new Map(back.changes.map((each) => [each.key, each]));
    assert.equal(byKey.size, there.changes.length);
    for (const each of there.changes) {
      const mirrored = byKey.get(each.key)!;
      assert.deepEqual([mirrored.old, mirrored.now], [each.now, each.old]);
      if (each.difference !== null) assert.equal(mirrored.difference, 0 - each.difference);
      if (each.in_sigma !== null) assert.equal(mirrored.in_sigma, 0 - each.in_sigma);
      assert.equal(mirrored.within_monte_carlo, each.within_monte_carlo);
      assert.deepEqual(
        mirrored.rows.map(({ row_id }) => row_id).sort(),
        each.rows.map(({ row_id }) => row_id).sort(),
      );
    }
    const swapped = { added: 'removed', removed: 'added', changed: 'changed' } as const;
    assert.deepEqual(
      back.rows!.map(({ row_id, change }) => [row_id, change]).sort(),
      there.rows!.map(({ row_id, change }) => [row_id, swapped[change]]).sort(),
    );
  });

test('a setting of the curve is under its numbers alone; a rejected point keeps its height and says so', () => {
  const prior = computed(quick({ settings: [...QUICK, { name: 'prior_rate_sd_mm_yr', value: '2' }] }));
  const { changes, rows } = compareComputations(old, prior);
  assert.deepEqual(
    rows!.map(({ name, change }) => [name, change]),
    [['setting “prior rate sd”', 'added']],
  );
  assert.ok(
    changes.length > 0 &&
      changes.every(({ kind, cause }) => cause === 'rows' && (kind === 'rate' || kind === 'level')),
  );
  const rejected = compareComputations(old, computed(EDITS[3]![1])).changes.find(
    ({ key }) => key === 'point:P3/rsl rsl',
  )!;
  assert.deepEqual([rejected.difference, rejected.old!.status, rejected.now!.status], [0, null, 'rejected']);
});

test('the same campaign computed by another version: the program, not the data', () => {
  const results = structuredClone(old.results) as unknown as {
    computation: string;
    points: { rsl_m: number }[];
  };
  results.computation = 'older';
  results.points[0]!.rsl_m += 0.25;
  const before = { ...old, results: results as unknown as Computed['results'] };
  const { changes, rows, unlike } = compareComputations(before, old);
  assert.deepEqual(rows, []);
  assert.deepEqual(
    changes.map(({ key, cause }) => [key, cause]),
    [['point:P1/rsl rsl', 'program']],
  );
  // By hand: the height is now 0.25 m lower, of a sigma that is the same in both.
  assert.ok(Math.abs(changes[0]!.in_sigma! + 0.25 / old.results.points[0]!.rsl_sigma_m) < 1e-9);
  assert.deepEqual(
    unlike.old.map(({ key }) => key),
    ['point:P1/rsl rsl'],
  );
  assert.deepEqual(unlike.now, []);
});

test('another seed alone, of a curve that has converged: nine in ten numbers move within Monte-Carlo error', () => {
  const seeds = ['1', '2', '3', '4', '5'].map(
    (value) => resultsOf(quick({ settings: [QUICK[0]!, { name: 'seed', value }] })).results,
  );
  const changes = seeds.flatMap((one, i) =>
    seeds.slice(0, i).flatMap((other) => numberChanges(one, other).changes),
  );
  const within = changes.filter(({ within_monte_carlo }) => within_monte_carlo);
  assert.ok(changes.length > 200);
  // 95 % of a normal law; the numbers of one curve move together, so that few seeds scatter about it.
  assert.ok(within.length > 0.9 * changes.length, `${within.length} of ${changes.length}`);
});

test('a lone change has the whole of the effect, and nothing is left over', async () => {
  const compute = async (document: CampaignDocument) => resultsOf(document).results;
  const side = ({ results, from }: Computed) => ({ results, document: from!.document });
  const { rates, groups } = await effectsOfChanges(side(old), side(now), found.rows!, compute);
  assert.deepEqual(
    groups.map(({ name }) => name),
    ['date INV-2'],
  );
  for (const [i, { old: a, now: b, program, remainder }] of rates.entries()) {
    assert.ok(Math.abs(groups[0]!.effects[i]!.moved! - (b - a)) < 1e-12);
    assert.equal(program, 0);
    assert.ok(Math.abs(remainder!) < 1e-12);
  }
});

test('two changes: each alone, and their effects with the remainder are the whole; a new date stays with its sample', async () => {
  const both = quick({
    settings: [...QUICK, { name: 'prior_rate_sd_mm_yr', value: '2' }],
    samples: [
      ...THREE_LEVELS['samples']!,
      { ...THREE_LEVELS['samples']![0]!, sample: 'S4', elevation_m: '-3' },
    ],
    determinations: [
      ...THREE_LEVELS['determinations']!,
      { ...THREE_LEVELS['determinations']![0]!, lab_code: 'INV-4', sample: 'S4', value: '4000' },
    ],
    points: [...THREE_LEVELS['points']!, { ...THREE_LEVELS['points']![0]!, point: 'P4', sample: 'S4' }],
  });
  const other = computed(both);
  const { rows } = compareComputations(old, other);
  const tried: number[] = [];
  const { rates, groups } = await effectsOfChanges(
    { results: old.results, document: old.from!.document },
    { results: other.results, document: both },
    rows!,
    async (document) => {
      tried.push(document.tables.get('points')!.rows.length);
      return resultsOf(document).results;
    },
  );
  // Old, new, the setting alone, the point with its sample and date.
  assert.deepEqual(tried.sort(), [3, 3, 4, 4]);
  assert.deepEqual(groups.map(({ rows: of }) => of.length).sort(), [1, 3]);
  assert.ok(rates.length >= 3);
  for (const [i, { old: a, now: b, remainder }] of rates.entries()) {
    const sum = groups.reduce((total, { effects }) => total + effects[i]!.moved!, 0);
    assert.ok(Math.abs(sum + remainder! - (b - a)) < 1e-9);
  }
});

test('nine changed rows are tried table by table', async () => {
  const each = (table: string, column: string, cell: string): Cells[] =>
    THREE_LEVELS[table]!.map((row) => ({ ...row, [column]: cell }));
  const many = quick({
    settings: [...QUICK, { name: 'prior_rate_sd_mm_yr', value: '2' }],
    determinations: each('determinations', 'error', '70'),
    samples: each('samples', 'elevation_sigma_m', '0.2'),
    tide_levels: each('tide_levels', 'sigma_m', '0.1'),
  });
  const changes = rowChanges(quick(), many);
  assert.equal(changes.length, 9);
  const tried: CampaignDocument[] = [];
  const { groups } = await effectsOfChanges(
    { results: old.results, document: quick() },
    { results: old.results, document: many },
    changes,
    async (document) => {
      tried.push(document);
      return old.results;
    },
  );
  assert.deepEqual(
    groups.map(({ name }) => name),
    [
      'tide level MHW of A, tide level HAT of A',
      'sample S1, sample S2, sample S3',
      'date INV-1, date INV-2, date INV-3',
      'setting “prior rate sd” added',
    ],
  );
  // Each has its own change and no other.
  for (const [i, { rows }] of groups.entries())
    assert.deepEqual(
      rowChanges(quick(), tried[i + 2]!).map(({ row_id }) => row_id),
      rows.map(({ row_id }) => row_id),
    );
});
