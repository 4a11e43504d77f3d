import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { countedTables, placeName, rowName, schemas, type TableName } from '@stillstand/campaign/tables';
import { dependents, type RowRef, type TypedTables, unresolved } from './dependents.ts';
import { type CampaignDocument, rowsOf, withRows } from './document.ts';
import { readFiles } from './files.ts';
import { parseCampaign } from './parse/parse.ts';

const DEMO = join(import.meta.dirname, '..', '..', 'demo', 'campaign');
const TABLES = Object.keys(schemas) as TableName[];
type Cells = Record<string, string>;

const demo = (): CampaignDocument =>
  readFiles(new Map(readdirSync(DEMO).map((name) => [name, new Uint8Array(readFileSync(join(DEMO, name)))])))
    .document;

const tablesOf = (all: Partial<Record<TableName, Cells[]>>): TypedTables => {
  const rows = new Map(
    TABLES.map((table) => [table, (all[table] ?? []).map((cells) => ({ row_id: cells['row_id']!, cells }))]),
  );
  return (table) => rows.get(table)!;
};

/** Texts that may name a row: nothing is set aside where they name none. */
const MAY_NAME = new Set([
  'levelling point',
  'holes reference_point',
  'correlations unit_a',
  'correlations unit_b',
  'checks date',
  'settings value',
]);
const isFirm = ({ table, column }: RowRef): boolean => !MAY_NAME.has(`${table} ${column}`);

test('of every row of the demo: what depends on it is what the parser cannot use without it', () => {
  const document = demo();
  const all = Object.fromEntries(TABLES.map((table) => [table, rowsOf(document, table)]));
  const tables = tablesOf(all);
  assert.deepEqual(unresolved(tables), []);
  const { rows } = parseCampaign(document).campaign;
  const used = new Set(TABLES.flatMap((table) => rows[table].map(({ row_id }) => row_id)));
  let needed = 0;
  for (const table of [
    'sites',
    'datums',
    'benchmarks',
    'gauges',
    'pipes',
    'samplers',
    'holes',
    'samples',
    'determinations',
    'points',
    'units',
  ] as const) {
    for (const row of all[table]!) {
      const { campaign, problems } = parseCampaign(
        withRows(
          document,
          table,
          all[table]!.filter((other) => other !== row),
        ),
      );
      const lost = problems.some(({ code }) => code === 'unknown-reference' || code === 'missing-table');
      const found = dependents(tables, table, row['row_id']!);
      const firm = found.filter(isFirm);
      assert.equal(firm.length > 0, lost, rowName(table, row));
      // What names it and is in force is set aside without it.
      const skipped = new Set(campaign.skipped_rows.map(({ row_id }) => row_id));
      for (const ref of firm) {
        const columns: Readonly<Record<string, { detail?: boolean }>> = schemas[ref.table].columns;
        if (used.has(ref.row_id) && columns[ref.column]?.detail !== true) {
          assert.ok(skipped.has(ref.row_id), `${ref.table} ${ref.row_id}`);
        }
      }
      if (found.length > 0) needed += 1;
    }
  }
  assert.ok(needed > 50, `${needed} rows of the demo are named`);
});

test('who names whom: by label in its scope, by basis, by a text; once renamed or doubled nobody', () => {
  const all: Partial<Record<TableName, Cells[]>> = {
    holes: [
      { row_id: 'h1', hole: 'H1', reference_point: 'BM' },
      { row_id: 'h2', hole: 'H2', replaces: 'H1' },
    ],
    benchmarks: [{ row_id: 'bm', benchmark: 'BM' }],
    levelling: [{ row_id: 'l1', loop: 'L', point: 'BM' }],
    runs: [
      { row_id: 'r1', hole: 'H1', run: 'R1', amends: '', amend_kind: '' },
      { row_id: 'r2', hole: 'H2', run: 'R1', amends: '', amend_kind: '' },
    ],
    pieces: [{ row_id: 'p1', hole: 'H1', run: 'R1', amends: '', amend_kind: '' }],
    units: [{ row_id: 'u1', hole: 'H1', depth_basis: 'run', run: 'R1', unit: '1' }],
    correlations: [{ row_id: 'c1', hole_a: 'H1', unit_a: '1', hole_b: 'H2', unit_b: '1' }],
    field_days: [{ row_id: 'd1', date: '2024-03-05' }],
    checks: [{ row_id: 'k1', date: '2024-03-05', question: 'permits' }],
    datums: [{ row_id: 'msl', datum: 'MSL' }],
    settings: [
      { row_id: 's1', name: 'datum', value: 'MSL' },
      { row_id: 's2', name: 'name', value: 'MSL' },
    ],
  };
  const who = (table: TableName, row_id: string, more: typeof all = {}): string[] =>
    dependents(tablesOf({ ...all, ...more }), table, row_id).map((ref) => `${ref.row_id}.${ref.column}`);
  assert.deepEqual(who('holes', 'h1'), ['h2.replaces', 'r1.hole', 'p1.hole', 'u1.hole', 'c1.hole_a']);
  assert.deepEqual(who('runs', 'r1'), ['p1.run', 'u1.run']);
  assert.deepEqual(who('runs', 'r2'), []);
  assert.deepEqual(who('benchmarks', 'bm'), ['l1.point', 'h1.reference_point']);
  assert.deepEqual(who('units', 'u1'), ['c1.unit_a']);
  const byRow = { correlations: [{ ...all.correlations![0]!, unit_a: 'u1' }] };
  assert.deepEqual(who('units', 'u1', byRow), ['c1.unit_a']);
  // A second row of the label carries a tie by label; by its row_id the very row is meant.
  const twice = { units: [...all.units!, { ...all.units![0]!, row_id: 'u9' }] };
  assert.deepEqual(who('units', 'u1', twice), []);
  assert.deepEqual(who('units', 'u1', { ...twice, ...byRow }), ['c1.unit_a']);
  assert.deepEqual(who('field_days', 'd1'), ['k1.date']);
  assert.deepEqual(who('datums', 'msl'), ['s1.value']);
  assert.deepEqual(who('sites', 'none'), []);
  // Another row of the label carries what names it.
  assert.deepEqual(who('holes', 'h1', { holes: [...all.holes!, { row_id: 'h3', hole: ' H1 ' }] }), []);
  // What a reading named once it names for good; a piece follows the run that is in force.
  const moved = { row_id: 'r3', hole: 'H2', run: 'R9', amends: 'r1', amend_kind: 'replace' };
  const amended = { runs: [...all.runs!, moved], pieces: [], units: [] };
  assert.deepEqual(who('holes', 'h1', amended), ['h2.replaces', 'r1.hole', 'c1.hole_a']);
  assert.deepEqual(
    unresolved(tablesOf({ ...all, runs: [...all.runs!, moved] })).map((ref) => `${ref.row_id}.${ref.column}`),
    ['p1.run', 'u1.run'],
  );
});

test('rows in words', () => {
  assert.equal(rowName('holes', { hole: 'H3' }), 'hole H3');
  assert.equal(rowName('runs', { hole: 'H3', run: 'R7' }), 'run R7 of H3');
  assert.equal(rowName('units', { hole: 'T1', unit: '4' }), 'unit 4 of T1');
  assert.equal(rowName('datum_shifts', { from: 'CD', to: 'MSL' }), 'datum shift CD to MSL');
  assert.equal(
    rowName('correlations', { hole_a: 'A', unit_a: '1', hole_b: 'B', unit_b: '2' }),
    'correlation between A and B',
  );
  assert.equal(rowName('settings', { name: 'clearance_margin_m' }), 'setting “clearance margin”');
  assert.equal(
    countedTables(['drives', 'units', 'runs', 'units', 'samples']),
    '2 readings, 2 units and 1 sample',
  );
  assert.equal(countedTables(['checks']), '1 reading');
  assert.equal(countedTables([]), '');
});

test('a reading is known by its clock, by its date and number only where that is not enough', () => {
  const drive = { hole: 'T2', seq: '19', time: '2024-03-05T10:42+08:00' };
  const later = { ...drive, seq: '24', time: '2024-03-05T11:10+08:00' };
  assert.equal(rowName('drives', drive), 'drive at 10:42 of T2');
  assert.equal(placeName('drives', drive, [drive, later]), 'hole T2, drive at 10:42');
  const nextDay = { ...later, time: '2024-03-06T10:42+08:00' };
  assert.equal(placeName('drives', drive, [drive, nextDay]), 'hole T2, drive at 10:42 on 2024-03-05');
  const twin = { ...drive, seq: '20' };
  assert.equal(placeName('drives', drive, [drive, twin]), 'hole T2, drive number 19 at 10:42');
  // What happened at another hole distinguishes nothing.
  assert.equal(placeName('drives', drive, [drive, { ...twin, hole: 'T3' }]), 'hole T2, drive at 10:42');
  assert.equal(placeName('drives', { ...drive, time: '' }), 'hole T2, drive number 19');
  assert.equal(placeName('string_items', { hole: 'T2', joint: 'A1', seq: '3' }), 'hole T2, string item A1');
  assert.equal(placeName('runs', { hole: 'T2', run: 'R7' }), 'hole T2, run R7');
  assert.equal(placeName('levelling', { loop: 'L1', point: 'peg', seq: '2' }), 'loop L1, sight peg');
  assert.equal(placeName('holes', {}), 'hole');
});
