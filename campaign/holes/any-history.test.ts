/**
 * Whatever a crew enters, in whatever order and unit, amended, withdrawn, without a time, under a label that is used
 * already, after the end: nothing throws, every item of pipe is in one list, and no old number turns fresh by itself.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { type CampaignDocument, newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import type { TableName } from '@stillstand/campaign/tables';
import fc from 'fast-check';
import { agesOf, type HoleAges, type ReadingAge } from './ages.ts';
import { dayFacts } from './day/day-facts.ts';
import { handOverLines } from './day/hand-over.ts';
import type { Cells } from './fixtures/told.ts';
import { holeProblems } from './problems.ts';
import { pullLoads } from './pull-loads.ts';
import { reconcileCampaign, reconcileHole } from './reconcile.ts';
import { pipeDays, reconcileDay } from './reconcile-day.ts';
import { RIG_TABLES, type RigTable } from './rig-readings.ts';
import { rowsOfDocument } from './row-source.ts';
import { holeState } from './state.ts';
import { weighedHead } from './weighed-head.ts';

const SEED = 20_240_611;
const HOLES = ['H1', 'H2'] as const;
const of = <T>(...values: T[]) => fc.constantFrom(...values);

/** As it may be typed: sound, in feet, with a comma, without a unit, senseless, or not at all. */
const length = (...sound: string[]) =>
  fc.oneof(
    { weight: 12, arbitrary: of(...sound) },
    { weight: 1, arbitrary: of('', '3', '3,05 m', 'x', '-1 m', '0 m', '1000000 m', '9 ft 11 in', '2 kg') },
  );
const label = of('A1', 'A2', 'A3', 'A4', 'A5', 'a1 ', ' A2', 'S', '');
const CELLS: Record<RigTable, fc.Arbitrary<Cells>> = {
  ground_levels: fc.record({ ground_below_reference: length('0 m', '0.27 m', '1 ft') }),
  string_items: fc.record({
    action: of('add', 'add', 'add', 'add', 'add', 'pull', 'pull', 'remove', 'cut', 'left', 'lost', 'sold'),
    item: of('joint', 'joint', 'joint', 'joint', 'shoe', 'coupling', 'drive_head', 'drive_head'),
    joint: label,
    length: length('3 m', '10 ft', '15 cm'),
    tight: of('yes', 'no', ''),
    condition: of('', '', 'damaged', 'sound'),
    line_load_kn: of('', '12', '1e9'),
  }),
  drives: fc.record({
    stick_up_start: length('3 m', '2 m', '0.4 m'),
    stick_up_end: length('2 m', '0.4 m', '0.35 m'),
    duration_s: of('', '0', '60', '3', 'x'),
    ended_by: of('', 'length', 'refusal', 'obstruction'),
    obstruction_response: of('', 'lifted_and_retried', 'moved', 'ended'),
  }),
  soundings: fc.record({
    purpose: of('', 'after_drive', 'zero_check'),
    to_sediment: length('1 m', '2.5 m', '', ''),
    to_water_inside: length('0.1 m', '1 m', '', ''),
    water_outside: length('1 m', '1.65 m', '', ''),
    stick_up: length('', '0.35 m'),
  }),
  water_added: fc.record({
    volume: of('', '20 l', 'a bucket'),
    kind: of('', 'sea', 'fresh'),
    to_water_after: length('', '0.1 m'),
  }),
  runs: fc.record({
    run: of('R1', 'R2', 'R3', ''),
    start_mark: length('1 m', '2 m'),
    end_mark: length('', '2 m', '3.05 m', '9 m'),
    recovered: length('', '0.9 m', '5 m'),
    outcome: of('', 'full', 'stuck', 'sampler_lost'),
  }),
};

interface Entry {
  table: RigTable;
  cells: Cells;
  /** An earlier entry it amends, by its place counted back; 0: none. */
  back: number;
}

const entry: fc.Arbitrary<Entry> = of(
  ...RIG_TABLES,
  'string_items',
  'string_items',
  'string_items',
  'drives',
).chain((table) =>
  fc
    .record({
      cells: CELLS[table as RigTable],
      hole: of('H1', 'H1', 'H1', 'H1', 'H1', 'H1', 'H2', 'H2', ''),
      time: of('', '12T08:00', '11T23:50', '12T00:10', '13T07:00', '10T12:00', 'morning'),
      withdraws: fc.boolean(),
      back: of(...Array<number>(12).fill(0), 1, 2, 5),
      isRepeated: of(false, false, false, false, false, true),
    })
    .map(({ cells, hole, time, withdraws, back, isRepeated }) => ({
      table: table as RigTable,
      back,
      cells: {
        ...cells,
        hole,
        time: /^\d/.test(time) ? `2024-06-${time}:00+02:00` : time,
        amend_kind: back === 0 ? '' : withdraws ? 'withdraw' : 'replace',
        seq: isRepeated ? 'again' : '',
      },
    })),
);
const history = fc.record({
  entries: fc.array(entry, { maxLength: 25, size: 'max' }),
  states: fc.tuple(of('open', 'finished', 'lost', ''), of('open', 'planned', 'refused')),
});

/** An entry that amends takes the table, the hole and the place of the one it amends, as the app writes it. */
function documentOf({
  entries,
  states,
}: {
  entries: readonly Entry[];
  states: readonly string[];
}): CampaignDocument {
  const written: { table: RigTable; cells: Cells }[] = [];
  for (const [i, { table, cells, back }] of entries.entries()) {
    const amended = back === 0 ? undefined : written.at(-back);
    const row_id = `r${i}`;
    const seq = cells['seq'] === 'again' ? (written.at(-1)?.cells['seq'] ?? '1') : `${i + 1}`;
    if (amended === undefined) written.push({ table, cells: { ...cells, row_id, seq, amend_kind: '' } });
    else
      written.push({
        table: amended.table,
        cells: {
          ...amended.cells,
          ...(amended.table === table ? cells : {}),
          row_id,
          hole: amended.cells['hole'] ?? '',
          seq: amended.cells['seq'] ?? '',
          amends: amended.cells['row_id'] ?? '',
          amend_kind: cells['amend_kind'] ?? '',
        },
      });
  }
  const tables: Partial<Record<TableName, Cells[]>> = {
    holes: HOLES.map((hole, i) => ({ row_id: hole, hole, method: 'string', pipe: 'P', state: states[i]! })),
    pipes: [{ row_id: 'p', pipe: 'P', makeup_loss: '3 cm', outside_diameter_mm: '88.9', wall_mm: '5.49' }],
    pipe_stock: [{ row_id: 's', stock_item: 'A1', item: 'joint', length: '3 m', condition: 'damaged' }],
    samplers: [{ row_id: 'v', sampler: 'V1', outside_mm: '60', length: '1.6 m' }],
  };
  let document = newDocument('any');
  for (const [table, rows] of Object.entries(tables)) document = withRows(document, table as TableName, rows);
  for (const [table, rows] of Map.groupBy(written, (w) => w.table))
    document = withRows(
      document,
      table,
      rows.map(({ cells }) => cells),
    );
  return document;
}

const AT = Date.parse('2024-06-12T09:00:00+02:00');
const RANK: Record<ReadingAge['weight'], number> = { fresh: 0, old: 1, 'not read': 2 };
const check = (runs: number, property: fc.IProperty<unknown>) =>
  fc.assert(property as never, { seed: SEED, numRuns: runs });

test('nothing throws; every item is in one list, and the lists are all that ever went in', () => {
  check(
    200,
    fc.property(history, (told) => {
      const document = documentOf(told);
      const typed = rowsOfDocument(document);
      const { campaign } = parseCampaign(document);
      for (const hole of HOLES) {
        const now = holeState({ ...campaign, typed }, hole)!;
        handOverLines(now, typed);
        holeProblems(campaign, now.row, now.entries, now.findings);
        pullLoads(now);
        weighedHead(now);
        for (const age of Object.values(agesOf(now, AT)) as HoleAges[keyof HoleAges][])
          assert.ok(age === null || age.age_min === null || age.age_min >= 0);
        const refused = now.findings.filter(
          ({ code, kind }) => code === 'joint-twice' || (code === 'not-a-number' && kind === 'joint'),
        );
        const added = now.readings.filter((r) => r.kind === 'joint' && r.action === 'add');
        assert.equal(now.fold.account.length, added.length - refused.length);
        for (const isEnding of [false, true]) {
          const { into, samplers: _, gear: __, ...lists } = reconcileHole(now, isEnding);
          const each = Object.values(lists).flat();
          assert.deepEqual(each.map((i) => i.row_id).sort(), into.map((i) => i.row_id).sort());
          assert.equal(into.length, now.fold.account.length);
          if (isEnding || now.ended) assert.deepEqual(lists.inString, []);
          else assert.deepEqual(lists.unaccounted, []);
        }
      }
      const { items, totals } = reconcileCampaign(campaign);
      assert.equal(
        totals.reduce((sum, t) => sum + t.items, 0),
        items.length,
      );
      assert.equal(new Set(items.map((i) => `${i.item} ${i.label.trim().toUpperCase()}`)).size, items.length);
      for (const date of [...pipeDays(campaign), '2024-06-12']) {
        const { wentIn: _, date: __, undated, ...lists } = reconcileDay(campaign, date);
        const each = Object.values(lists).flat();
        assert.equal(new Set(each.map((i) => i.row_id)).size, each.length);
        assert.equal(new Set(undated.map((i) => i.row_id)).size, undated.length);
      }
      dayFacts(campaign, typed, '2024-06-12');
    }),
  );
});

test('an old head, plug or clearance turns fresh by no reading that is not of it', () => {
  const other = entry.filter(
    ({ table, cells, back }) =>
      back === 0 &&
      table !== 'runs' &&
      (table !== 'soundings' || (cells['to_sediment'] === '' && cells['water_outside'] === '')) &&
      cells['to_water_inside'] !== 'x',
  );
  check(
    200,
    fc.property(history, other, (told, next) => {
      const ofHead = ['to_water_inside', 'water_outside', 'to_water_after'];
      const cells = Object.fromEntries(
        Object.entries(next.cells).map(([column, cell]) => [column, ofHead.includes(column) ? '' : cell]),
      );
      const ages = (entries: readonly Entry[]) =>
        agesOf(holeState(parseCampaign(documentOf({ ...told, entries })).campaign, 'H1')!, AT);
      const before = ages(told.entries);
      const after = ages([...told.entries, { ...next, cells: { ...cells, seq: '', hole: 'H1' } }]);
      for (const number of ['head', 'sediment', 'cable'] as const) {
        const [was, is] = [before[number], after[number]];
        if (was !== null && is !== null) assert.ok(RANK[is.weight] >= RANK[was.weight], number);
        if (was === null) assert.equal(is, null, number);
      }
    }),
  );
});

test('the state after a reading does not depend on what was read after it', () => {
  check(
    150,
    fc.property(history, fc.array(entry, { minLength: 1, maxLength: 8 }), (told, later) => {
      // a label of a run that is given twice is no label: both wait until it is corrected
      const more = later.map(({ table, cells }, i) => ({
        table,
        back: 0,
        cells: { ...cells, amend_kind: '', seq: '', ...(table === 'runs' ? { run: `L${i}` } : {}) },
      }));
      const then = (entries: readonly Entry[]) => {
        const now = holeState(
          parseCampaign(documentOf({ ...told, entries })).campaign,
          'H1',
          told.entries.length,
        )!;
        const { fold, water, sediment, run, tip_m, clearance, string, findings, conflicts, settings } = now;
        return {
          fold,
          water,
          sediment,
          run,
          tip_m,
          clearance,
          string,
          findings,
          conflicts,
          settings,
          ages: agesOf(now, AT),
          pull: pullLoads(now),
        };
      };
      assert.deepEqual(then([...told.entries, ...more]), then(told.entries));
    }),
  );
});
