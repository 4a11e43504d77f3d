import assert from 'node:assert/strict';
import { test } from 'node:test';
import {
  type CampaignDocument,
  DOCUMENT_VERSION,
  newDocument,
  parseCampaign,
  readFiles,
  withRows,
  writeFiles,
  writeZip,
} from '@stillstand/campaign/document';
import { migrate, openFiles, openZip, VERSION_STEPS, versionOf } from './versions.ts';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const filesOf = (files: Record<string, string>) =>
  new Map(Object.entries(files).map(([path, text]) => [path, bytes(text)]));

interface Package {
  title?: string;
  ours?: number;
  stillstand?: unknown;
  resources?: { path: string }[];
}

/** A document of each older version, to be migrated by the step that begins there. */
const OLDER: Readonly<Record<number, CampaignDocument[]>> = {
  0: [
    readFiles(filesOf({ 'holes.csv': 'hole,method\nH1,string\n' })).document,
    readFiles(
      filesOf({
        'datapackage.json':
          '{"title":"old","ours":1,"stillstand":{"crew":3},"resources":[{"name":"x","path":"x.bin"}]}',
        'holes.csv': 'hole,method\nH1,string\n',
      }),
    ).document,
  ],
  1: [
    readFiles(
      filesOf({
        'datapackage.json':
          '{"title":"old","stillstand":{"version":1},"resources":[{"name":"ground","path":"ground.csv"},{"name":"days","path":"days.csv"},{"name":"runs","path":"runs.csv"}]}',
        'ground.csv': 'hole,seq,ground_below_reference\nH1,1,0.30 m\n',
        'days.csv':
          'date,note\n2026-03-01,"gale; way: on foot, lowest +0.40 m, margin 0.30 m, takes 30 min"\n2026-03-02,way: over the hill\n',
        'runs.csv':
          'hole,seq,run,loss_at,note,amends,amend_kind\nH1,4,R1,top,"corrected: 1.22 m; soft top",r1,replace\n',
      }),
    ).document,
  ],
};

test('the steps lead without a gap from 0 to the version we write, and every one is exercised', () => {
  assert.deepEqual(
    VERSION_STEPS.map(({ from, to }) => [from, to]),
    Array.from({ length: DOCUMENT_VERSION }, (_, i) => [i, i + 1]),
  );
  for (const step of VERSION_STEPS) {
    const older = OLDER[step.from] ?? [];
    assert.ok(older.length > 0, `no document of version ${step.from}`);
    for (const document of older) {
      assert.equal(versionOf(document), step.from);
      const before = writeFiles(document);
      const after = step.apply(document);
      assert.equal(versionOf(after), step.to);
      assert.deepEqual(writeFiles(document), before, 'a step must not change the document it is given');
    }
  }
});

test('step 1 → 2 gives tables and columns their names of today, and facts in notes columns of their own', () => {
  const { document, problems } = migrate(OLDER[1]![0]!);
  assert.deepEqual(
    problems.map(({ severity, code, fix }) => [severity, code, fix]),
    [['note', 'older-names', 'No action needed: they are read as ground levels, field days.']],
  );
  const cells = (table: string, row: number): Record<string, string> => {
    const { columns, rows } = document.tables.get(table)!;
    return Object.fromEntries(columns.map((column, i) => [column, rows[row]!.cells[i] ?? '']));
  };
  assert.deepEqual([...document.tables.keys()], ['ground_levels', 'field_days', 'runs']);
  assert.equal(document.tables.get('ground_levels')!.path, 'ground_levels.csv');
  assert.deepEqual(cells('field_days', 0), {
    date: '2026-03-01',
    note: 'gale',
    access: 'foot',
    access_level_m: '0.40',
    access_margin_m: '0.30',
    access_minutes: '30',
  });
  // What it cannot read stays where it is.
  assert.equal(cells('field_days', 1)['note'], 'way: over the hill');
  const run = cells('runs', 0);
  assert.deepEqual(
    [run['loss_position'], run['amend_reason'], run['note']],
    ['top', 'corrected: 1.22 m', 'soft top'],
  );
  const { resources } = document.package as unknown as Package;
  assert.deepEqual(
    resources?.map(({ path }) => path),
    ['ground_levels.csv', 'field_days.csv', 'runs.csv'],
  );
});

test('what stands among the resources and is none of ours stays where it is', () => {
  const listed = '[null,3,"x",[],{"name":"ground","path":"ground.csv"}]';
  const files = filesOf({
    'datapackage.json': `{"stillstand":{"version":1},"resources":${listed}}`,
    'ground.csv': 'hole,seq,ground_below_reference\nH1,1,0.30 m\n',
  });
  const { resources } = openFiles(files).document.package as unknown as { resources: unknown[] };
  assert.deepEqual(resources.slice(0, 4), [null, 3, 'x', []]);
  assert.equal((resources[4] as { path: string }).path, 'ground_levels.csv');
});

test('step 0 → 1 states the version, lists the tables and keeps what was there', () => {
  const [bare, described] = OLDER[0]!.map((document) => migrate(document).document.package) as unknown as [
    Package,
    Package,
  ];
  assert.deepEqual(bare.stillstand, { version: 2 });
  assert.deepEqual(
    bare.resources?.map(({ path }) => path),
    ['holes.csv'],
  );
  assert.equal(described.title, 'old');
  assert.equal(described.ours, 1);
  assert.deepEqual(described.stillstand, { crew: 3, version: 2 });
  assert.deepEqual(
    described.resources?.map(({ path }) => path),
    ['x.bin', 'holes.csv'],
  );
});

test('a document of our version stays the very same object', () => {
  const document = newDocument('x');
  assert.equal(migrate(document).document, document);
  const opened = openZip(writeZip(document));
  assert.deepEqual(opened.problems, []);
  assert.equal(opened.read_only, false);
  assert.deepEqual(writeFiles(opened.document), writeFiles(document));
});

test('a newer document, or one whose version is none, is read as far as it goes and not written', () => {
  for (const [version, code] of [
    ['3', 'newer-version'],
    ['999', 'newer-version'],
    ['-1', 'unknown-version'],
    ['1.5', 'unknown-version'],
    ['"two"', 'unknown-version'],
    ['null', 'unknown-version'],
  ] as const) {
    const opened = openFiles(
      filesOf({
        'datapackage.json': `{"stillstand":{"version":${version}}}`,
        'holes.csv': 'hole,method,depth_of_everything\nH1,string,3\n',
      }),
    );
    assert.equal(opened.read_only, true);
    assert.deepEqual(
      opened.problems.map((p) => p.code),
      [code],
    );
    assert.ok(opened.problems[0]!.found.includes(version));
    assert.equal(parseCampaign(opened.document).campaign.rows.holes.length, 1);
  }
});

test('a package that cannot be read is never written over', () => {
  const opened = openFiles(filesOf({ 'datapackage.json': '{ torn', 'holes.csv': 'hole,method\n' }));
  assert.equal(opened.read_only, true);
  const edited = withRows(opened.document, 'holes', [{ hole: 'H1', method: 'string' }]);
  assert.deepEqual(writeFiles(edited).get('datapackage.json'), bytes('{ torn'));
});
