/**
 * One sample from the plan to the date: planned, labelled, taken from the core that holds it, described, sent, its result
 * imported by the code on the label, and traced to the readings it was cut by.
 */
import assert from 'node:assert/strict';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';
import {
  coresOf,
  custodyOf,
  custodyWords,
  cutOf,
  cutWords,
  plannedSamples,
  takenCells,
  thingCells,
  thingOfCode,
} from '@stillstand/campaign/chain';
import { type CampaignDocument, newDocument, withRows, writeFiles } from '@stillstand/campaign/document';
import { rowsOfDocument } from '@stillstand/campaign/holes';
import type { TableName } from '@stillstand/campaign/tables';
import { computeOpened, openCampaign } from './campaign-folder.ts';
import { said } from './fixtures/said.ts';

const folder = mkdtempSync(join(tmpdir(), 'stillstand-cli-chain-'));
after(() => rmSync(folder, { recursive: true, force: true }));
const at = join(folder, 'campaign');

function write(document: CampaignDocument): void {
  mkdirSync(at, { recursive: true });
  for (const [path, bytes] of writeFiles(document)) writeFileSync(join(at, path), bytes);
}

/** What a person writes into a table with the app or a spreadsheet. */
async function add(table: TableName, ...rows: Record<string, string>[]): Promise<void> {
  const { document } = await openCampaign(at);
  const before = rowsOfDocument(document)
    .rows(table)
    .map(({ row_id, cells }) => ({ row_id, ...cells }));
  write(withRows(document, table, [...before, ...rows]));
}

const chain = async (name: string, today: string) =>
  custodyOf((await openCampaign(at)).campaign, today).find((of) => of.name === name)!;
const state = async () => plannedSamples((await openCampaign(at)).campaign).map(({ state: is }) => is);

test('planned, labelled, taken, described, sent, received, dated, traced', async () => {
  let document = newDocument('chain');
  document = withRows(document, 'holes', [
    { hole: 'C1', method: 'hand', reference_elevation_m: '1.25', reference_sigma_m: '0.01' },
  ]);
  document = withRows(document, 'laboratories', [{ laboratory: 'Quay', weeks: '6' }]);
  document = withRows(document, 'planned_samples', [
    { sample: 'C1-S3', hole: 'C1', top: '1.60 m', bottom: '1.62 m', material: 'rhizomes' },
  ]);
  write(document);

  // Labelled before anything is drilled; the code is the one the sample will have.
  const label = join(folder, 'labels.html');
  const printed = await said('labels', at, '--of', 'planned', '--out', label);
  assert.equal(printed.code, 0, printed.err);
  const [, code] = /aria-label="([^"]+)"/.exec(readFileSync(label, 'utf8'))!;
  const planned = await openCampaign(at);
  const scanned = thingOfCode(planned.campaign, code!);
  assert.ok(scanned.ok && scanned.thing === null && scanned.planned.sample === 'C1-S3');

  // Pushed and recovered whole: 1.60 m below ground are 0.60 m from the top of the second push.
  await add(
    'pushes',
    {
      hole: 'C1',
      seq: '1',
      push: 'P1',
      from: '0 m',
      to: '1 m',
      recovered: '1 m',
      time: '2026-03-01T09:00:00Z',
    },
    {
      hole: 'C1',
      seq: '2',
      push: 'P2',
      from: '1 m',
      to: '2 m',
      recovered: '1 m',
      time: '2026-03-01T10:00:00Z',
    },
  );
  const drilled = await openCampaign(at);
  const { results } = await computeOpened(drilled, { withCurve: false });
  const [{ row, state: before }] = plannedSamples(drilled.campaign) as [
    ReturnType<typeof plannedSamples>[number],
  ];
  assert.equal(before, 'planned');
  const cut = cutOf(row, coresOf(results.holes[0]!));
  assert.equal(cut === null ? null : cutWords(cut, 'm'), 'push P2, 0.60–0.62 m');
  await add('samples', takenCells(row, cut, 'm'));
  assert.deepEqual(await state(), ['taken']);
  await add('units', {
    ...{ hole: 'C1', unit: '2', depth_basis: 'push', run: 'P2', top: '0.5 m', bottom: '1 m' },
    sediment: 'peat',
  });
  const taken = thingOfCode((await openCampaign(at)).campaign, code!);
  assert.ok(taken.ok && taken.thing?.kind === 'sample');

  await add('custody', {
    ...{ ...thingCells(taken.thing), seq: '1', action: 'sent', date: '2026-03-10' },
    ...{ laboratory: 'Quay', submission: 'P1' },
  });
  assert.equal(
    custodyWords(await chain('C1-S3', '2026-03-20')),
    'sent to Quay, parcel P1, on 2026-03-10, waiting 10 days, due about 2026-04-21',
  );

  // The laboratory answers by the code it read off the label.
  const answer = join(folder, 'answer.csv');
  writeFileSync(answer, `Lab code,Sample,14C age BP,Error\nQ-1,${code},3120,30\n`);
  const imported = await said(
    ...['import', at, answer, '--as', 'dates', '--set', 'calibration_curve=intcal20', '--write'],
  );
  assert.equal(imported.code, 0, imported.err);
  const dated = await chain('C1-S3', '2026-06-01');
  assert.deepEqual([dated.state, dated.waiting, dated.results.lab_codes], ['result', null, ['Q-1']]);
  const checked = await said('check', at);
  assert.equal(checked.code, 0, checked.out);

  // 1.25 − 1.61 = −0.36 m as planned; the shortening of the push is known to ±0.05 m (2 sigma), and moves it within that.
  const traced = await said('trace', at, 'sample:C1-S3/elevation');
  assert.equal(traced.code, 0, traced.err);
  const [, elevation] = /^Elevation of C1-S3 −(0\.\d\d) ± 0\.05 m/.exec(traced.out)!;
  assert.ok(Math.abs(Number(elevation) - 0.36) <= 0.05, traced.out);
  for (const reading of [
    /sample C1-S3 {2}samples line 2/,
    /push P2 {2}pushes line 3/,
    /hole C1 {2}holes line 2/,
  ])
    assert.match(traced.out, reading);
  const date = await said('trace', at, 'date:Q-1');
  assert.match(date.out, /Q-1/);
  assert.match(date.out, /3,?120/);
});
