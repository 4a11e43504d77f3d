/** The archive list: where each thing is, who has it, and what is late; days counted by hand. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import { archiveOf, type List, listCsv } from './index.ts';

function campaignOf() {
  let document = newDocument('archive');
  document = withRows(document, 'holes', [{ hole: 'T1', method: 'string' }]);
  document = withRows(document, 'runs', [
    { hole: 'T1', seq: '1', run: 'R1', start_mark: '1 m', end_mark: '2 m', recovered: '0.8 m' },
  ]);
  const at = { hole: 'T1', depth_basis: 'in_situ' };
  document = withRows(document, 'samples', [
    { sample: 'A', ...at, top: '1 m', material: 'peat', identifier: '10.58052/INVENTED1' },
    { sample: 'B', ...at, top: '2 m' },
    { sample: 'C', ...at, top: '3 m' },
  ]);
  document = withRows(document, 'laboratories', [
    { laboratory: 'Quay Laboratory' },
    { laboratory: 'Museum' },
  ]);
  document = withRows(document, 'custody', [
    {
      sample: 'A',
      seq: '1',
      action: 'stored',
      date: '2026-01-05',
      place: 'Cold room',
      shelf: '3',
      box: '12',
      condition: 'moist',
    },
    {
      sample: 'A',
      seq: '2',
      action: 'lent',
      date: '2026-02-01',
      laboratory: 'Museum',
      due: '2026-03-01',
      left: '4 g',
    },
    {
      sample: 'B',
      seq: '1',
      action: 'sent',
      date: '2026-03-01',
      laboratory: 'Quay Laboratory',
      submission: 'P1',
      due: '2026-05-01',
      cost: '310',
      currency: 'EUR',
    },
    {
      hole: 'T1',
      run: 'R1',
      seq: '3',
      action: 'stored',
      date: '2026-01-05',
      place: 'Core store',
      shelf: '=9',
    },
  ]);
  return parseCampaign(document).campaign;
}

const TODAY = '2026-03-11';
const cell = (list: List, label: string, heading: string): string =>
  list.rows.find(({ cells }) => cells[0] === label)!.cells[
    list.columns.findIndex((column) => column.heading === heading)
  ]!;

test('all samples and cores with their place, what is left, and a loan that is overdue', () => {
  const list = archiveOf(campaignOf(), TODAY);
  assert.deepEqual(
    list.rows.map(({ cells }) => cells[0]),
    ['A', 'B', 'C', 'T1 R1'],
  );
  assert.deepEqual(list.head.slice(2), [
    ['Listed', '4 samples and cores'],
    ['On loan', '1'],
    ['Overdue', '1'],
  ]);
  // 1 to 11 March.
  assert.equal(cell(list, 'A', 'overdue, days'), '10');
  assert.equal(cell(list, 'A', 'lent or sent to'), 'Museum');
  assert.equal(cell(list, 'A', 'shelf'), '3');
  assert.equal(cell(list, 'A', 'left'), '4 g');
  assert.equal(cell(list, 'B', 'parcel'), 'P1');
  assert.equal(cell(list, 'B', 'overdue, days'), '');
  assert.equal(cell(list, 'B', 'cost'), '310.00 EUR');
  assert.match(list.notes[0]!, /^Overdue: A, lent to Museum, .*due back 2026-03-01/);
  assert.match(list.notes[1]!, /^No place entered: C\.$/);
  assert.equal(list.rows[0]!.code, '10.58052/INVENTED1');
  assert.match(listCsv(list), /,'=9,/);
});

test('a result that is overdue of what was lent since is named by its parcel', () => {
  const custody = { sample: 'A', laboratory: 'Quay Laboratory', submission: 'P1', due: '2026-03-01' };
  let document = newDocument('archive');
  document = withRows(document, 'samples', [{ sample: 'A' }]);
  document = withRows(document, 'laboratories', [
    { laboratory: 'Quay Laboratory' },
    { laboratory: 'Museum' },
  ]);
  document = withRows(document, 'custody', [
    { ...custody, seq: '1', action: 'sent', date: '2026-01-05' },
    { sample: 'A', seq: '2', action: 'lent', date: '2026-02-01', laboratory: 'Museum', due: '2026-12-01' },
  ]);
  const list = archiveOf(parseCampaign(document).campaign, TODAY);
  assert.equal(list.overdue, 1);
  assert.deepEqual(
    ['lent or sent to', 'parcel', 'due', 'overdue, days'].map((heading) => cell(list, 'A', heading)),
    ['Quay Laboratory', 'P1', '2026-03-01', '10'],
  );
  assert.match(list.notes[0]!, /^Overdue: A, sent to Quay Laboratory, parcel P1, .*overdue by 10 days/);
});

test('those away, and loans alone; nothing is late on the day it is due', () => {
  const labels = (part: 'away' | 'loans'): string[] =>
    archiveOf(campaignOf(), TODAY, part).rows.map(({ cells }) => cells[0]!);
  assert.deepEqual(labels('away'), ['A', 'B']);
  assert.deepEqual(labels('loans'), ['A']);
  assert.equal(cell(archiveOf(campaignOf(), '2026-03-01'), 'A', 'overdue, days'), '');
});
