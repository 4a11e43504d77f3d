/**
 * Warm equals cold in random campaigns: some holes of the demo, some of their rows, random choices, then edits one upon
 * the other through one memo. The gate takes 160 of them, six with their curve; `STILLSTAND_SETS=12` takes 320 and so
 * many with it. Invented data, from demo/; seeds in the tests' names.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Memo } from '@stillstand/campaign/steps';
import { type Column, schemas, type TableName } from '@stillstand/campaign/tables';
import { type RandomStream, randomStream } from '@stillstand/science/base';
import { type CampaignText, computed, demoText, edited, onlyHoles, told } from './campaign-text.ts';
import { firstDifference } from './first-difference.ts';
import { newRow, otherCell } from './other-cell.ts';
import { twoGauges } from './two-gauges.ts';

const asked = process.env['STILLSTAND_SETS'];
const CAMPAIGNS = asked === undefined ? 160 : 320;
const EDITS = 3;
/** So many of them with their curve. */
const WITH_CURVE = Number(asked ?? 6);

const HOLES = (demoText['holes'] ?? []).map(({ hole }) => hole!);
const TABLES = Object.keys(schemas) as TableName[];
const pick = <T>(from: readonly T[], stream: RandomStream): T => from[stream.integer(from.length)]!;

function randomCampaign(stream: RandomStream): CampaignText {
  const holes = new Set([pick(HOLES, stream), pick(HOLES, stream)]);
  const some = onlyHoles(demoText, holes);
  const text = Object.fromEntries(
    Object.entries(some).map(([table, rows]) => [
      table,
      // Rows that others name are kept mostly; readings and results go now and then.
      rows.filter(() => stream.uniform() > 0.03),
    ]),
  );
  const choices = [
    { name: 'seed', value: String(stream.integer(5)) },
    { name: 'inclination_percent', value: String(1 + stream.integer(3)) },
  ].map((cells, i) => ({ row_id: `choice${i}`, ...cells }));
  const settings = (text['settings'] ?? []).filter(({ name }) => name !== 'seed');
  return { ...text, settings: [...settings, ...choices] };
}

function randomEdit(
  text: CampaignText,
  stream: RandomStream,
  tables: readonly TableName[] = TABLES,
): { what: string; text: CampaignText } {
  const table = pick(tables, stream);
  const rows = text[table] ?? [];
  const turn = stream.uniform();
  if (rows.length === 0 || turn < 0.1) {
    const row = newRow(text, table, rows.length);
    return { what: `a new row of ${table}`, text: { ...text, [table]: [...rows, row] } };
  }
  const index = stream.integer(rows.length);
  if (turn < 0.25) {
    return {
      what: `row ${index} of ${table} deleted`,
      text: { ...text, [table]: rows.filter((_, i) => i !== index) },
    };
  }
  const columns = Object.entries(schemas[table].columns) as [string, Column][];
  const [column, kind] = pick(columns, stream);
  const typed = rows[index]![column] ?? '';
  const cell = turn < 0.35 ? '' : turn < 0.4 ? '?!' : otherCell(text, kind, typed);
  return {
    what: `${table}.${column} of row ${index}: ${cell}`,
    text: edited(text, table, index, { [column]: cell }),
  };
}

test(`warm equals cold in ${CAMPAIGNS} random campaigns and ${EDITS} edits of each, ${WITH_CURVE} with their curve (seeds 1–${CAMPAIGNS})`, () => {
  for (let seed = 1; seed <= CAMPAIGNS; seed++) {
    const stream = randomStream(seed).split('memo');
    const withCurve = seed <= WITH_CURVE;
    const memo: Memo = new Map();
    let text = randomCampaign(stream);
    computed(text, { withCurve, memo });
    const said = [`seed ${seed}`];
    for (let k = 0; k < EDITS; k++) {
      const edit = randomEdit(text, stream);
      text = edit.text;
      said.push(edit.what);
      const warm = told(computed(text, { withCurve, memo }));
      const cold = told(computed(text, { withCurve }));
      assert.equal(firstDifference(warm, cold), null, said.join('; '));
    }
  }
});

/** What levels that are computed from a gauge depend on. */
const OF_TIDES: readonly TableName[] = [
  'tide_reductions',
  'constituents',
  'gauges',
  'gauge_readings',
  'tide_levels',
  'datum_shifts',
  'datums',
];

test('warm equals cold of tide levels that are computed from gauges, in 60 edits of what they depend on (seed 1)', () => {
  const stream = randomStream(1).split('tides');
  const memo: Memo = new Map();
  let text: CampaignText = twoGauges;
  computed(text, { withCurve: false, memo });
  const said: string[] = [];
  let without = 0;
  for (let k = 0; k < 60; k++) {
    const edit = randomEdit(text, stream, OF_TIDES);
    said.push(edit.what);
    const warm = computed(edit.text, { withCurve: false, memo });
    const cold = computed(edit.text, { withCurve: false });
    assert.equal(firstDifference(told(warm), told(cold)), null, said.join('; '));
    // Once an edit has left nothing to compute, the next starts from the whole campaign.
    const isThere = cold.results.points.length === 2;
    if (!isThere) without++;
    text = isThere ? edit.text : twoGauges;
  }
  assert.ok(without < 30, `${without} of 60 left nothing to compare`);
});
