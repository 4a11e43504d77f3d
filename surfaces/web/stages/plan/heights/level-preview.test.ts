/** What the grid shows while a loop is typed is what the computation has once it is recorded, to the last digit. */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import {
  type CampaignDocument,
  newDocument,
  parseCampaign,
  readFiles,
  rowsOf,
  withRows,
} from '@stillstand/campaign/document';
import { traceId } from '@stillstand/campaign/results';
import { computeCampaign } from '@stillstand/campaign/steps';
import {
  BLANK,
  type BookDraft,
  type LineCells,
  linesOf,
  NO_DRAFT,
  readingsOfLoop,
  typed,
} from './level-lines.ts';
import { previewOf } from './level-preview.ts';

const folder = join(import.meta.dirname, '..', '..', '..', '..', '..', 'demo', 'campaign');
const demo = readFiles(
  new Map(
    readdirSync(folder)
      .filter((name) => /\.(csv|json)$/.test(name))
      .map((name) => [name, new Uint8Array(readFileSync(join(folder, name)))]),
  ),
).document;

const elevations = (document: CampaignDocument) => {
  const { campaign, problems } = parseCampaign(document);
  const { trace } = computeCampaign(campaign, { curves: {} }, problems, { withCurve: false });
  return (point: string): unknown => trace.node(trace.find(traceId.levelled(point))).value;
};
const campaignOf = (document: CampaignDocument) => parseCampaign(document).campaign;

/** Lines typed one after another, as the hand does. */
const draftOf = (lines: readonly Partial<LineCells>[]): BookDraft =>
  lines.reduce<BookDraft>(
    (draft, cells, i) => typed(draft, { key: `n${i}`, row_id: null, at: i }, null, { ...BLANK, ...cells }),
    NO_DRAFT,
  );
const shown = (document: CampaignDocument, draft: BookDraft) =>
  previewOf(campaignOf(document), document, 'new', linesOf([], draft, 'blank'), null);

test('each loop of the demo, typed again line by line, has the heights of the computation', () => {
  const all = rowsOf(demo, 'levelling');
  const of = elevations(demo);
  let compared = 0;
  for (const loop of ['marsh', 'spit']) {
    const lines = all.filter((row) => row['loop'] === loop) as unknown as LineCells[];
    const draft = draftOf(
      lines.map(({ point, backsight_m, intermediate_m, foresight_m, distance_m }) => ({
        point,
        backsight_m,
        intermediate_m,
        foresight_m,
        distance_m,
      })),
    );
    const { loop: reduced } = shown(withRows(demo, 'levelling', []), draft);
    for (const { point, elevation_m } of reduced!.points) {
      if (point === 'TBM 1') continue;
      assert.equal(elevation_m, of(point), point);
      compared += 1;
    }
  }
  assert.equal(compared, 25);
});

test('a change of a recorded reading shows what its amendment will give', () => {
  const rows = rowsOf(demo, 'levelling').map((cells) => ({ row_id: cells['row_id']!, cells }));
  const readings = readingsOfLoop(rows, 'marsh');
  const { row_id } = rows.find(({ cells }) => cells['point'] === 'M3 peg')!;
  const written = linesOf(readings, NO_DRAFT, 'blank').find(({ key }) => key === row_id)!;
  const draft = typed(NO_DRAFT, written, written.cells, { foresight_m: '2.079' });
  const preview = previewOf(campaignOf(demo), demo, 'marsh', linesOf(readings, draft, 'blank'), null);
  const amended = withRows(demo, 'levelling', [
    ...rowsOf(demo, 'levelling'),
    {
      ...rows.find((row) => row.row_id === row_id)!.cells,
      row_id: 'later',
      foresight_m: '2.079',
      amends: row_id,
      amend_kind: 'replace',
    },
  ]);
  const of = elevations(amended);
  for (const point of ['M1 peg', 'M2 peg', 'M3 peg'])
    assert.equal(preview.loop!.points.find((each) => each.point === point)!.elevation_m, of(point), point);
  assert.notEqual(of('M3 peg'), elevations(demo)('M3 peg'));
  // Typed back as it was, nothing is to be recorded.
  assert.deepEqual(typed(draft, written, written.cells, { foresight_m: '2.077' }), NO_DRAFT);
});

const small = withRows(newDocument('small'), 'benchmarks', [{ benchmark: 'BM', elevation_m: '2.000' }]);
const OPEN = [
  { point: 'BM', backsight_m: '1.500' },
  { point: 'A', foresight_m: '1.200', backsight_m: '1.000' },
  { point: 'B', intermediate_m: '0.900' },
];

test('cells that cannot be read are named with what was meant, and heights end before them', () => {
  const typedWith = (patch: Partial<LineCells>) => {
    const { says, endsAt, lines } = shown(small, draftOf([OPEN[0]!, { ...OPEN[1], ...patch }, OPEN[2]!]));
    const words = [...(says.get('n1') ?? [])].map(([entry, { severity, meant }]) => [entry, severity, meant]);
    return { words, endsAt, heights: lines.size };
  };
  assert.deepEqual(typedWith({}), { words: [], endsAt: null, heights: 3 });
  assert.deepEqual(typedWith({ foresight_m: 'wet' }), {
    words: [['foresight_m', 'error', null]],
    endsAt: 'n1',
    heights: 1,
  });
  assert.deepEqual(typedWith({ foresight_m: '1,200' }).words, [['foresight_m', 'error', null]]);
  assert.deepEqual(typedWith({ foresight_m: '14.82' }).words, [['foresight_m', 'error', '1.482']]);
  assert.deepEqual(typedWith({ foresight_m: '7.2' }), {
    words: [['foresight_m', 'question', '0.720']],
    endsAt: null,
    heights: 3,
  });
  assert.deepEqual(typedWith({ foresight_m: '-1.2' }), {
    words: [['foresight_m', 'note', null]],
    endsAt: null,
    heights: 3,
  });
  // No station: the line would be set aside.
  assert.deepEqual(typedWith({ point: '' }).endsAt, 'n1');
});

test('upside down: the point is the reading above the line of sight', () => {
  const { lines } = shown(small, draftOf([OPEN[0]!, { point: 'beam', intermediate_m: '−1.200' }]));
  // 2.000 + 1.500 + 1.200.
  assert.equal(lines.get('n1')!.reduced_m!.toFixed(3), '4.700');
});

test('a table that writes 1,482 is typed either way', () => {
  const comma = readFiles(
    new Map([
      [
        'levelling.csv',
        new TextEncoder().encode('loop;point;backsight_m;foresight_m;seq\nL;BM;1,500;;1\nL;A;;1,250;2\n'),
      ],
    ]),
  ).document;
  for (const [back, fore] of [
    ['1.500', '1.200'],
    ['1,500', '1,200'],
  ]) {
    const { says, loop } = shown(
      comma,
      draftOf([
        { point: 'BM', backsight_m: back! },
        { point: 'A', foresight_m: fore! },
      ]),
    );
    assert.equal(says.size, 0);
    assert.equal(loop!.check.rises_m.toFixed(3), '0.300');
  }
});
