/** Noise, nonsense and half-right tables: nothing throws, nothing is lost. How long they take: `bench/document`. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import {
  newDocument,
  parseCampaign,
  readFiles,
  readZip,
  withRows,
  writeFiles,
} from '@stillstand/campaign/document';
import { labelColumn, schemas, type TableName } from '@stillstand/campaign/tables';
import { openFiles } from '@stillstand/campaign/versions';
import fc from 'fast-check';
import { NOISE_KINDS, noise } from './noise.ts';

const SEED = 20_240_304;
const TABLES = Object.keys(schemas) as TableName[];
const MEGABYTE = 2 ** 20;

for (const kind of NOISE_KINDS) {
  test(`10 MB of ${kind} as a table is a named problem and is written back whole`, () => {
    const bytes = noise(kind, 10 * MEGABYTE, SEED);
    const { document, problems } = openFiles(new Map([['soundings.csv', bytes]]));
    const parsed = parseCampaign(document);
    const all = [...problems, ...parsed.problems];
    assert.ok(all.some(({ table }) => table === 'soundings' || table === 'datapackage'));
    assert.ok(all.length < 2000);
    assert.deepEqual(parsed.campaign.rows.soundings, []);
    assert.equal(writeFiles(document).get('soundings.csv'), bytes);
  });
}

test('2 MB of noise under a right heading is so many problems at most', () => {
  const heading = new TextEncoder().encode('hole,seq,to_sediment\n');
  const rows = noise('lines', 2 * MEGABYTE, SEED);
  const bytes = new Uint8Array(heading.length + rows.length);
  bytes.set(heading);
  bytes.set(rows, heading.length);
  const parsed = parseCampaign(openFiles(new Map([['soundings.csv', bytes]])).document);
  assert.ok(parsed.problems.length > 0 && parsed.problems.length < 1000);
  assert.equal(parsed.campaign.rows.soundings.length, 0);
});

const anyText = fc.oneof(
  fc.string({ maxLength: 12, unit: 'grapheme' }),
  fc.string({ maxLength: 12, unit: 'binary' }),
  fc.constantFrom('__proto__', 'constructor', 'toString', 'hole', 'H1', '\ufeff', '=1+1', '-', '0', 'NaN'),
);
const tableNames = fc.oneof(fc.constantFrom(...TABLES), anyText);

test(`any files are read and written back byte for byte (seed ${SEED})`, () => {
  const path = fc.oneof(
    fc.constantFrom(
      'datapackage.json',
      'photos/a.jpg',
      '__proto__',
      'a.tsv',
      ...TABLES.map((name) => `${name}.csv`),
    ),
    tableNames.map((name) => `${name.replaceAll('/', '')}.csv`),
  );
  const content = fc.oneof(
    fc.uint8Array({ maxLength: 60 }),
    anyText.map((text) => new TextEncoder().encode(text)),
    fc.json().map((text) => new TextEncoder().encode(text)),
    fc
      .array(fc.array(anyText, { maxLength: 4 }), { maxLength: 4 })
      .map((rows) => new TextEncoder().encode(rows.map((row) => row.join(',')).join('\n'))),
  );
  fc.assert(
    fc.property(fc.array(fc.tuple(path, content), { maxLength: 6 }), (files) => {
      const given = new Map(files);
      const { document, problems } = readFiles(given);
      const refused = new Set(
        problems.filter(({ code }) => code === 'unsafe-path').map(({ found }) => found),
      );
      const kept = new Map([...given].filter(([name]) => !refused.has(name)));
      const written = writeFiles(document);
      assert.deepEqual(new Set(written.keys()), new Set(kept.keys()));
      for (const [name, bytes] of kept) assert.equal(written.get(name), bytes);
      parseCampaign(openFiles(given).document);
    }),
    { seed: SEED, numRuns: 1500 },
  );
});

test(`any bytes are no zip, or one that is read (seed ${SEED})`, () => {
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 300 }), (bytes) => {
      assert.ok(readZip(bytes).problems.length > 0);
    }),
    { seed: SEED, numRuns: 500 },
  );
});

/** Rows that are mostly right, so that every rule behind the cells is reached. */
const cell = fc.oneof(
  {
    weight: 8,
    arbitrary: fc.constantFrom('H1', 'H2', 'R1', '1', '2', '3', '1 m', '10 ft', 'radiocarbon', 'string'),
  },
  {
    weight: 4,
    arbitrary: fc.constantFrom(
      'run',
      'push',
      'entered',
      'add',
      'joint',
      'index',
      'MHW+0.1',
      'replace',
      'withdraw',
      'a',
      'b',
      'c',
    ),
  },
  { weight: 3, arbitrary: fc.constant('') },
  { weight: 1, arbitrary: anyText },
);
const rowsOf = (table: TableName) =>
  fc.array(
    fc
      .tuple(...Object.keys(schemas[table].columns).map(() => cell))
      .map((cells) =>
        Object.fromEntries(Object.keys(schemas[table].columns).map((column, i) => [column, cells[i]!])),
      ),
    { maxLength: 5 },
  );
const halfRight = fc
  .constantFrom<TableName[]>(
    ['holes', 'runs', 'pieces', 'units'],
    ['holes', 'soundings', 'string_items', 'ground_levels'],
    ['samples', 'determinations', 'points', 'point_errors'],
    ['holes', 'pushes', 'sections', 'photos'],
    ['sites', 'datums', 'datum_shifts', 'tide_levels', 'gauges', 'settings'],
  )
  .chain((names) => fc.tuple(...names.map((name) => rowsOf(name).map((rows) => ({ name, rows })))));

test(`every row of any tables is used, amended, a copy, or set aside with a reason (seed ${SEED})`, () => {
  fc.assert(
    fc.property(halfRight, (tables) => {
      let document = newDocument('x');
      for (const { name, rows } of tables) document = withRows(document, name, rows);
      const { campaign, problems } = parseCampaign(document);
      const used = new Set(TABLES.flatMap((name) => campaign.rows[name].map(({ row_id }) => row_id)));
      const skipped = new Set(campaign.skipped_rows.map(({ row_id }) => row_id));
      const amending = new Set(campaign.amendments.flatMap(({ row_id, by_row_id }) => [row_id, by_row_id]));
      const reasons = new Set(
        problems.filter(({ severity }) => severity === 'error').map(({ row_id }) => row_id),
      );
      for (const row_id of campaign.lines.keys()) {
        const isNamed =
          used.has(row_id) || skipped.has(row_id) || amending.has(row_id) || reasons.has(row_id);
        assert.ok(isNamed || isAmendment(document, campaign.lines.get(row_id)!), row_id);
      }
      for (const row_id of skipped) assert.ok(!used.has(row_id));
      if (skipped.size > 0) assert.ok(problems.some(({ severity }) => severity === 'error'));
      for (const p of problems) assert.ok(p.code !== '' && p.expected !== '' && p.fix !== '');
      checkReferencesByHand(campaign);
    }),
    { seed: SEED, numRuns: 1500 },
  );
});

test(`the order of lines changes nothing but the order of equals (seed ${SEED})`, () => {
  fc.assert(
    fc.property(halfRight, (tables) => {
      const ids = (reversed: boolean): string[] => {
        let document = newDocument('x');
        for (const { name, rows } of tables) {
          document = withRows(document, name, reversed ? [...rows].reverse() : rows);
        }
        const { campaign } = parseCampaign(document);
        return TABLES.flatMap((name) => campaign.rows[name].map(({ row_id }) => `${name} ${row_id}`)).sort();
      };
      assert.deepEqual(ids(true), ids(false));
    }),
    { seed: SEED, numRuns: 500 },
  );
});

/** A row of that line, in some table, amends another: it need not stand on its own. */
function isAmendment(document: ReturnType<typeof newDocument>, line: number): boolean {
  return [...document.tables.values()].some(({ columns, rows }) => {
    const amends = columns.indexOf('amends');
    return rows.some((row) => row.line === line && (row.cells[amends] ?? '').trim() !== '');
  });
}

/** The slow way: every reference of every usable row is looked for among the usable rows. */
function checkReferencesByHand(campaign: ReturnType<typeof parseCampaign>['campaign']): void {
  for (const table of TABLES) {
    for (const row of campaign.rows[table] as readonly Record<string, unknown>[]) {
      for (const [column, description] of Object.entries(schemas[table].columns)) {
        if (description.kind !== 'reference' || row[column] === null) continue;
        const to = description.to as TableName;
        const found = (campaign.rows[to] as readonly Record<string, unknown>[]).filter(
          (target) =>
            target[labelColumn(to)!] === row[column] &&
            schemas[to].scope.every((scope) => target[scope] === row[scope]),
        );
        assert.equal(found.length, 1, `${table}.${column} ${String(row[column])}`);
      }
    }
  }
}
