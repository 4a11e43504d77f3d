/**
 * Random cells written into the demo campaign: nothing throws, hangs or is lost, and every problem says what came, what
 * was expected and how to fix it.
 */
import assert from 'node:assert/strict';
import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { test } from 'node:test';
import { type CampaignDocument, parseCampaign, withRows, writeFiles } from '@stillstand/campaign/document';
import { computeCampaign, type Memo } from '@stillstand/campaign/steps';
import { openFiles } from '@stillstand/campaign/versions';
import { loadCurve } from '@stillstand/published/curves';
import fc from 'fast-check';

const DEMO = join(import.meta.dirname, '../../demo/campaign');
const curves = { shcal20: await loadCurve('shcal20'), marine20: await loadCurve('marine20') };
const files = new Map<string, Uint8Array>();
for (const name of await readdir(DEMO)) files.set(name, await readFile(join(DEMO, name)));
const { document: sound } = openFiles(files);
const tables = [...sound.tables.keys()].filter((name) => sound.tables.get(name)!.rows.length > 0);
/** The same with a short curve: what is tested is that it comes through, not how well it mixes. */
const short = withRows(sound, 'settings', [
  { name: 'chains', value: '1' },
  { name: 'draws', value: '100' },
  { name: 'intervals', value: '8000-7000' },
]);
const memo: Memo = new Map();

type Cells = Record<string, string>;

/** What people and spreadsheets put into cells, and what nobody would. */
const cell = fc.oneof(
  fc.constantFrom(
    '',
    '0',
    '-1',
    '1e9',
    '1e-9',
    'NaN',
    'Infinity',
    '#REF!',
    '3-May',
    '12,5',
    '9 ft 11 1/2 in',
    '−3 m',
  ),
  fc.constantFrom(
    '3.05',
    '3.05 m',
    '305 cm',
    '10 kg',
    '2023-02-30',
    'true',
    'withdraw',
    'replace',
    'MHW+x',
    'T2',
    'R1',
  ),
  fc.double({ noNaN: false }).map(String),
  fc.string({ maxLength: 30 }),
  fc.string({ unit: 'binary', maxLength: 30 }),
);

const edit = fc.record({
  table: fc.constantFrom(...tables),
  row: fc.nat(),
  column: fc.nat(),
  value: cell,
  kind: fc.constantFrom('set', 'set', 'set', 'remove row', 'repeat row', 'blank column'),
});

type Edit = typeof edit extends fc.Arbitrary<infer E> ? E : never;

function apply(document: CampaignDocument, edits: readonly Edit[]) {
  let edited = document;
  for (const { table, row, column, value, kind } of edits) {
    const { columns, rows } = edited.tables.get(table)!;
    if (rows.length === 0) continue;
    const name = columns[column % columns.length]!;
    const at = row % rows.length;
    let cells: Cells[] = rows.map((r) => Object.fromEntries(columns.map((c, i) => [c, r.cells[i] ?? ''])));
    if (kind === 'set') cells[at] = { ...cells[at]!, [name]: value };
    else if (kind === 'remove row') cells = cells.filter((_, i) => i !== at);
    else if (kind === 'repeat row') cells = [...cells, cells[at]!];
    else cells = cells.map((r) => ({ ...r, [name]: '' }));
    edited = withRows(edited, table, cells);
  }
  return edited;
}

function holds(edits: readonly Edit[], withCurve: boolean): void {
  const document = apply(withCurve ? short : sound, edits);
  const written = writeFiles(document);
  const opened = openFiles(written);
  assert.deepEqual(writeFiles(opened.document), written, 'nothing typed is lost or changed');
  const { campaign, problems } = parseCampaign(opened.document);
  const { results } = computeCampaign(campaign, { curves }, [...opened.problems, ...problems], {
    withCurve,
    memo,
  });
  for (const p of results.problems) {
    assert.ok(p.expected !== '' && p.fix !== '' && p.code !== '', JSON.stringify(p));
    assert.ok(!/NaN|undefined|\[object/.test(`${p.expected} ${p.fix}`), JSON.stringify(p));
  }
  for (const point of results.points) assert.ok(Number.isFinite(point.rsl_m) && point.rsl_sigma_m >= 0);
  for (const date of results.dates) assert.ok(Number.isFinite(date.median_cal_bp));
}

test('up to eight random edits, without the curve, seed 20', () => {
  fc.assert(
    fc.property(fc.array(edit, { minLength: 1, maxLength: 8 }), (edits) => holds(edits, false)),
    { seed: 20, numRuns: 120 },
  );
});

test('random settings and points, curve and all, seed 21', () => {
  const curveEdit = edit.filter((e) =>
    ['settings', 'points', 'determinations', 'point_errors'].includes(e.table),
  );
  fc.assert(
    fc.property(fc.array(curveEdit, { minLength: 1, maxLength: 4 }), (edits) => holds(edits, true)),
    { seed: 21, numRuns: 4 },
  );
});
