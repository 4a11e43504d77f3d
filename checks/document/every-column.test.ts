/**
 * Nothing that is read is lost: every column is used, or said to be a record or not used yet. What is "used" is judged by
 * its name being in code that names its table, or that takes its rows whole: enough to catch a column that nobody uses,
 * no proof of what becomes of it.
 */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { parseCampaign, readFiles } from '@stillstand/campaign/document';
import {
  isColumnForLater,
  isRecordOnly,
  isTableForLater,
  schemas,
  type TableName,
} from '@stillstand/campaign/tables';
import { tablesPage } from '../../scripts/tables-page.ts';

const ROOT = join(import.meta.dirname, '..', '..');
/** What computes, draws, prints or shows; not what only reads, writes or asks for cells. */
const USING = [
  'campaign/holes',
  'campaign/chain',
  'campaign/steps',
  'output',
  'surfaces/cli',
  'surfaces/web/stages',
  'surfaces/web/holes',
];
const TABLES = Object.keys(schemas) as TableName[];
const OF_EVERY_TABLE = new Set([
  'row_id',
  'note',
  'seq',
  'time',
  'by',
  'device',
  'amends',
  'amend_kind',
  'amend_reason',
]);

/** Code without its comments and sentences. */
function code(folder: string): string[] {
  return readdirSync(join(ROOT, folder), { withFileTypes: true }).flatMap((entry) => {
    const path = `${folder}/${entry.name}`;
    if (entry.isDirectory())
      return ['fixtures', 'node_modules', 'browser'].includes(entry.name) ? [] : code(path);
    if (!/\.tsx?$/.test(path) || /\.test\.tsx?$/.test(path)) return [];
    return [readFileSync(join(ROOT, path), 'utf8').replace(/\/\*[\s\S]*?\*\/|(?:^|\s)\/\/.*$/gm, ' ')];
  });
}
const using = USING.flatMap(code);
const named = (word: string) => new RegExp(`\\b${word}(?:_m)?\\b`);

/** Rows that are taken whole, and where their columns are then used. */
const WHOLE: Partial<Record<TableName, string>> = {
  levelling: 'science/survey',
  constituents: 'science/tide',
  field_days: 'surfaces/web/days',
};

test('every column is used, or listed as a record or as not used yet', () => {
  const lost = TABLES.filter((table) => !isTableForLater(table)).flatMap((table) => {
    const files = using.filter((text) => named(table).test(text));
    const whole = WHOLE[table];
    if (whole !== undefined) files.push(...code(whole));
    return Object.keys(schemas[table].columns)
      .filter((column) => !OF_EVERY_TABLE.has(column))
      .filter((column) => !isColumnForLater(table, column) && !isRecordOnly(table, column))
      .filter((column) => !files.some((text) => named(column).test(text)))
      .map((column) => `${table}.${column}`);
  });
  assert.deepEqual(lost, []);
});

/** A cell that its column takes. */
const CELLS: Record<string, string> = {
  text: 'x',
  label: 'x',
  number: '1',
  length: '1 m',
  reference: 'x',
  boolean: 'yes',
};
const bytes = (text: string) => new TextEncoder().encode(text);

for (const table of TABLES) {
  const columns = Object.keys(schemas[table].columns).filter((column) => isColumnForLater(table, column));
  if (isTableForLater(table)) {
    test(`${table}: filled in, one note says that it is not used yet`, () => {
      const [column = ''] = Object.keys(schemas[table].columns);
      assert.deepEqual(unusedIn(table, `${column}\nx\n`), [null]);
      assert.deepEqual(unusedIn(table, `${column}\n`), []);
    });
    continue;
  }
  for (const column of columns) {
    test(`${table}.${column}: filled in, one note names it`, () => {
      const described: { kind: string; choices?: readonly string[] } = (schemas[table].columns as never)[
        column
      ];
      const cell = described.choices?.[0] ?? CELLS[described.kind] ?? 'x';
      assert.deepEqual(unusedIn(table, `${column}\n${cell}\n`), [column]);
      assert.deepEqual(unusedIn(table, `${column}\n \n`), []);
    });
  }
}

function unusedIn(table: TableName, text: string): (string | null)[] {
  const { document } = readFiles(new Map([[`${table}.csv`, bytes(text)]]));
  return parseCampaign(document)
    .problems.filter(({ code }) => code === 'not-used-yet')
    .map(({ column }) => column);
}

test('the page of tables says of each which it is', () => {
  const sections = tablesPage().split(/^## /m);
  for (const table of TABLES) {
    const section = sections.find((each) => each.startsWith(`${table}\n`))!;
    assert.equal(section.includes('*Not used yet.*'), isTableForLater(table), table);
    if (isTableForLater(table)) continue;
    for (const column of Object.keys(schemas[table].columns)) {
      const line = section.split('\n').find((each) => each.startsWith(`| \`${column}\` |`));
      if (line === undefined) continue;
      assert.equal(line.includes('; not used yet |'), isColumnForLater(table, column), `${table}.${column}`);
      assert.equal(line.includes('; a record, used'), isRecordOnly(table, column), `${table}.${column}`);
    }
  }
});
