/**
 * What the app says of everything that can be wrong with a campaign: the demo with an edit of each column of each table
 * and values that people and spreadsheets leave in them. No text has the raw name of a table or a column, and every
 * problem of a row opens that row. Invented data, from demo/.
 */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import {
  type CampaignDocument,
  parseCampaign,
  problemWords,
  rowsOf,
  withRows,
} from '@stillstand/campaign/document';
import { rowsOfDocument } from '@stillstand/campaign/holes';
import type { Problem } from '@stillstand/campaign/problems';
import { computeCampaign, type Memo } from '@stillstand/campaign/steps';
import { type Column, labelColumn, schemas, type TableName } from '@stillstand/campaign/tables';
import { openFiles } from '@stillstand/campaign/versions';
import { loadCurve } from '@stillstand/published/curves';
import { placeOfProblem } from './places.ts';

const DEMO = join(import.meta.dirname, '../../../../demo/campaign');
const curves = { shcal20: await loadCurve('shcal20'), marine20: await loadCurve('marine20') };
const TABLES = Object.keys(schemas) as TableName[];

type Cells = Record<string, string>;

const { document: asRead } = openFiles(
  new Map(readdirSync(DEMO).map((name) => [name, readFileSync(join(DEMO, name))])),
);

/** Few draws; no table with fewer rows than can be edited at once, but copies under labels of their own. */
const demo = TABLES.reduce((document, table) => {
  const rows = rowsOf(document, table);
  if (table === 'settings') rows.push({ name: 'depth_draws', value: '100' });
  if (rows.length === 0) rows.push(neededCells(document, table));
  const label = labelColumn(table);
  const most = rows.length < 10 ? 24 : 0;
  for (let i = rows.length; i < most; i++) {
    const { row_id: _, seq, ...row } = rows[0]!;
    if (label !== null) row[label] = `${row[label]} ${i}`;
    rows.push(seq === undefined ? row : { ...row, seq: String(1000 + i) });
  }
  return withRows(document, table, rows);
}, asRead);

function neededCells(document: CampaignDocument, table: TableName): Cells {
  const row: Cells = {};
  for (const [name, column] of Object.entries<Column>(schemas[table].columns))
    if (column.required && name !== 'row_id') row[name] = ordinary(document, column);
  // Two columns at least, so that one can be given the heading of the other.
  row['note'] = 'x';
  return row;
}

function ordinary(document: CampaignDocument, column: Column): string {
  switch (column.kind) {
    case 'number':
      return String(Math.max(column.min, Math.min(column.max, 1)));
    case 'length':
      return '1 m';
    case 'choice':
      return column.choices[0]!;
    case 'reference':
      return Object.values(rowsOf(document, column.to)[0] ?? {})[0] ?? 'none';
    case 'date':
      return '2023-02-07';
    case 'time':
      return '2023-02-07T10:42+08:00';
    default:
      return 'x';
  }
}

/** What people and spreadsheets leave in a cell, and words that mean something elsewhere. */
const NASTY = ['', 'zzz', '-1', '1e9', '12,5', '305 cm', '#REF!', '2023-02-30', 'withdraw', 'T2'];

const memo: Memo = new Map();

function problemsOf(document: CampaignDocument, isComputed: boolean): readonly Problem[] {
  const { campaign, problems } = parseCampaign(document);
  if (!isComputed) return problems;
  return computeCampaign(campaign, { curves }, problems, { withCurve: false, memo }).results.problems;
}

/** Names of tables and columns that no one would say, and words of those who write programs. */
const NAMES = new Set(
  TABLES.flatMap((table) => [table, ...Object.keys(schemas[table].columns)]).filter((name) =>
    name.includes('_'),
  ),
);
const RAW = new RegExp(
  `\\b(?:${[...NAMES].join('|')}|seq|row_id|cells?|columns?|null|undefined|NaN|replaces)\\b|\`|\\[object`,
);

function check(problems: readonly Problem[], document: CampaignDocument): void {
  const { rows } = rowsOfDocument(document);
  const typed = new Set<string>();
  for (const { path, columns, rows } of document.tables.values())
    for (const cells of [[path], columns, [columns.join(', ')], ...rows.map((row) => row.cells)])
      for (const cell of cells) typed.add(cell.trim().slice(0, 79));
  for (const problem of problems) {
    const { place, found, expected, fix } = problemWords(problem, rows);
    const isTyped = typed.has(found.replace(/…$/, ''));
    for (const said of [place, isTyped ? '' : found, expected, fix])
      if (RAW.test(said)) assert.fail(`“${said}” in ${JSON.stringify({ ...problem, place })}`);
    const opened = placeOfProblem(problem, rows);
    if (problem.row_id !== null && opened?.row == null)
      assert.fail(`opens no row: ${JSON.stringify(problem)}`);
    if (problem.table !== 'datapackage' && opened === null)
      assert.fail(`opens nothing: ${JSON.stringify(problem)}`);
  }
}

for (const [at, table] of TABLES.entries()) {
  test(`an edit of each column of ${table}`, () => {
    const rows = rowsOf(demo, table);
    const columns = Object.keys(schemas[table].columns);
    // Each row has one cell edited; so many edits that each column has had each value. Every other one is computed.
    for (let pair = 0, edits = at; pair < columns.length * NASTY.length; pair += rows.length, edits++) {
      const edited = withRows(
        demo,
        table,
        rows.map((row, i) => {
          const value = NASTY[Math.floor((pair + i) / columns.length)];
          return value === undefined ? row : { ...row, [columns[(pair + i) % columns.length]!]: value };
        }),
      );
      check(problemsOf(edited, edits % 2 === 0), edited);
    }
  });
}

test('headings that are missing, misspelt, doubled or strange', () => {
  // three rows of each table say the same of its headings as all of them
  const few: CampaignDocument = {
    ...demo,
    tables: new Map(
      [...demo.tables].map(([name, table]) => [
        name,
        { ...table, rows: table.rows.slice(0, 3), source: null },
      ]),
    ),
  };
  for (const [name, table] of few.tables) {
    const { columns, rows } = table;
    const renamed = (at: number, heading: string): CampaignDocument => ({
      ...few,
      tables: new Map(few.tables).set(name, {
        ...table,
        columns: columns.map((column, i) => (i === at ? heading : column)),
        source: null,
      }),
    });
    const cut = {
      ...table,
      rows: rows.map((row) => ({ ...row, cells: row.cells.slice(0, -1) })),
      source: null,
    };
    const edited = [
      ...columns.map((column, at) => renamed(at, `${column}x`)),
      renamed(0, columns[1]!),
      {
        ...few,
        tables: new Map(few.tables).set(name, {
          ...table,
          columns: columns.map((_, i) => `${i}`),
          source: null,
        }),
      },
      { ...few, tables: new Map(few.tables).set(name, cut) },
      {
        ...few,
        tables: new Map([...few.tables].map(([each, its]) => [each === name ? `${name}x` : each, its])),
      },
    ];
    for (const document of edited) check(problemsOf(document, false), document);
  }
});
