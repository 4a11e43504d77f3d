/**
 * The files of a whole campaign against outside readers: a general-purpose JSON Schema validator (ajv, 2020-12) on the
 * published schema, and a spreadsheet's rule that every row of a table is as long as its heading.
 */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { before, test } from 'node:test';
import { parseCampaign } from '@stillstand/campaign/document';
import { type Results, readResults, writeResults } from '@stillstand/campaign/results';
import { computeCampaign } from '@stillstand/campaign/steps';
import { openFiles } from '@stillstand/campaign/versions';
import { DEMO_SEED, demoCampaign } from '@stillstand/demo';
import { headline, reportHtml, resultTables } from '@stillstand/output/report';
import { loadCurve } from '@stillstand/published/curves';
import { Ajv2020 } from 'ajv/dist/2020.js';

const SCHEMA = join(import.meta.dirname, '../../campaign/results/results.schema.json');

const setting = (name: string, value: string) => ({ row_id: name, note: null, name, value });

let results: Results;
before(async () => {
  const curves = { shcal20: await loadCurve('shcal20'), marine20: await loadCurve('marine20') };
  const { document } = openFiles(demoCampaign(DEMO_SEED, curves).files);
  const { campaign, problems } = parseCampaign(document);
  // A short chain: the files are tested here, not the curve.
  const short = [...campaign.rows.settings, setting('chains', '1'), setting('draws', '100')];
  const quick = { ...campaign, rows: { ...campaign.rows, settings: short } };
  results = computeCampaign(quick, { curves }, problems, { withCurve: true }).results;
});

test('the results of a whole campaign follow the published schema and come back to the last bit', () => {
  const files = writeResults(results);
  const validate = new Ajv2020({ strict: true, allowUnionTypes: true }).compile(
    JSON.parse(readFileSync(SCHEMA, 'utf8')) as object,
  );
  assert.ok(validate(JSON.parse(files.json)), JSON.stringify(validate.errors?.slice(0, 5)));
  const back = readResults(files.json, files.arrays);
  assert.ok(back.ok, back.ok ? '' : JSON.stringify(back.problem));
  assert.deepEqual(back.results, results);
  const again = writeResults(back.results);
  assert.equal(again.json, files.json);
  assert.deepEqual(again.arrays, files.arrays);
});

test('a whole campaign gives every table, a headline and a report without a number that is none', () => {
  const tables = resultTables(results);
  for (const name of ['holes', 'dates', 'points', 'curve', 'intervals', 'account']) {
    const lines = tables.get(`${name}.csv`)!.split('\n');
    assert.ok(lines.length > 4, `${name} has ${lines.length} lines`);
  }
  const page = reportHtml(results, [], { fontCss: '' });
  for (const text of [...tables.values(), page, ...headline(results)]) {
    const none = /.{0,40}\b(NaN|Infinity|undefined)\b/.exec(text);
    assert.equal(none, null, none?.[0]);
  }
  for (const point of results.points) assert.ok(page.includes(point.point), point.point);
  for (const date of results.dates) assert.ok(page.includes(date.lab_code), date.lab_code);
});
