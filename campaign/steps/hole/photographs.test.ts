/** Photographs of cores: where their slices lay, against units described at the same lengths; and marks that do not fit. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { traceId } from '@stillstand/campaign/results';
import { computeCampaign } from '../compute.ts';
import { type Cells, campaignOf } from '../fixtures/campaign-of.ts';

/** A string driven twice, 1.5 m each, of which 0.8 m and 1.1 m entered; run R1 took 0.75 m, its upper 0.05 m fallen in. */
const at = (seq: number, cells: Cells): Cells => ({ hole: 'A', seq: String(seq), ...cells });
const STRING = {
  ground: [at(0, { ground_below_reference: '0 m' })],
  joints: [1, 6].map((seq) =>
    at(seq, { action: 'add', item: 'joint', joint: `J${seq}`, length: '1.5 m', tight: 'yes' }),
  ),
  drives: [2, 7].map((seq) => at(seq, { stick_up_start: '1.5 m', stick_up_end: '0 m' })),
  soundings: [
    at(3, { purpose: 'before_run', to_sediment: '0.7 m' }),
    at(5, { purpose: 'after_run', to_sediment: '1.45 m' }),
    at(8, { purpose: 'after_drive', to_sediment: '1.85 m' }),
  ],
  runs: [at(4, { run: 'R1', recovered: '0.7 m', fall_in: '0.05 m', loss_position: 'base' })],
};

const MARKS = {
  mark_1: '0 m',
  mark_1_x_px: '100',
  mark_1_y_px: '200',
  mark_2: '70 cm',
  mark_2_x_px: '2100',
  mark_2_y_px: '260',
  strip_width: '70 mm',
};

function computed(photos: Cells[], units: Cells[] = []) {
  const tables = {
    holes: [
      { hole: 'A', method: 'string' },
      { hole: 'H', method: 'hand' },
    ],
    settings: [{ name: 'depth_draws', value: '300' }],
    ...STRING,
    units: units.map((cells, i) => ({ hole: 'A', unit: String(i), sediment: 'peat', ...cells })),
    photos: photos.map((cells, i) => ({ row_id: `p${i}`, hole: 'A', file: `photos/${i}.jpg`, ...cells })),
  };
  const { campaign, problems } = campaignOf('photographed', tables);
  const { results, trace } = computeCampaign(campaign, { curves: {} }, problems, { withCurve: false });
  return { ...results, trace, said: results.problems.filter(({ table }) => table === 'photos') };
}

const near = (found: number, expected: number, within: number) =>
  assert.ok(Math.abs(found - expected) <= within, `${found}, expected ${expected}`);

test('depths measured in the ground need no correction: one slice, from end to end', () => {
  const { photographs, said } = computed([
    { hole: 'H', depth_basis: 'in_situ', top: '1 m', bottom: '2 m', ...MARKS, strip_offset: '-80 mm' },
  ]);
  assert.deepEqual(said, []);
  assert.deepEqual(photographs[0]!.slices, [{ from_m: 1, to_m: 2, depth_from_m: 1, depth_to_m: 2 }]);
  assert.deepEqual(photographs[0]!.strip, {
    top_m: 1,
    bottom_m: 2,
    mark_1: { x_px: 100, y_px: 200, at_m: 0 },
    mark_2: { x_px: 2100, y_px: 260, at_m: 0.7 },
    width_m: 0.07,
    offset_m: -0.08,
  });
});

test('a whole run is sliced below its fall-in, and its contacts lie where the units have them', () => {
  const described = [
    { depth_basis: 'run', run: 'R1', top: '0.05 m', bottom: '0.33 m' },
    { depth_basis: 'run', run: 'R1', top: '0.33 m', bottom: '0.7 m', sediment: 'clay' },
  ];
  const { photographs, holes, said, trace } = computed(
    [{ depth_basis: 'run', run: 'R1', ...MARKS }],
    described,
  );
  assert.deepEqual(said, []);
  const { slices, strip } = photographs[0]!;
  assert.deepEqual([strip!.top_m, strip!.bottom_m], [0, 0.7]);
  const { units } = holes.find(({ hole }) => hole === 'A')!;
  const depthAt = (at_m: number): number => {
    const { from_m, to_m, depth_from_m, depth_to_m } = slices.find((each) => at_m <= each.to_m)!;
    return depth_from_m + ((at_m - from_m) / (to_m - from_m)) * (depth_to_m - depth_from_m);
  };
  assert.equal(slices[0]!.from_m, 0.05);
  assert.equal(slices.at(-1)!.to_m, 0.7);
  near(depthAt(0.05), units[0]!.depth_top_m.value, 1e-9);
  near(depthAt(0.33), units[0]!.depth_bottom_m.value, 0.0006);
  near(depthAt(0.7), units[1]!.depth_bottom_m.value, 1e-9);
  // Shortened in the pipe: 0.65 m of core was more in the ground, and it was taken in the first 1.5 m.
  assert.ok(slices.at(-1)!.depth_to_m - slices[0]!.depth_from_m > 0.8);
  for (const [i, slice] of slices.entries()) {
    assert.ok(slice.depth_to_m >= slice.depth_from_m && slice.to_m > slice.from_m);
    if (i > 0) assert.deepEqual(slice.from_m, slices[i - 1]!.to_m);
  }
  const parts = trace.parts(trace.find(traceId.photograph('p0'))).map((part) => trace.node(part).id);
  assert.deepEqual(parts, ['photos/p0', 'run:A/R1', 'hole:A/depth']);
});

test('a picture without marks has its place and no strip, and nothing is said; one of no core has neither', () => {
  const { photographs, said } = computed([
    { depth_basis: 'run', run: 'R1' },
    {},
    { hole: 'H', depth_basis: 'entered' },
  ]);
  assert.deepEqual(said, []);
  assert.equal(photographs[0]!.strip, null);
  assert.ok(photographs[0]!.slices.length > 0);
  for (const { strip, slices } of photographs.slice(1)) assert.deepEqual([strip, slices], [null, []]);
});

test('what fixes no scale, or has no place, says where, what came, what was expected and what to do', () => {
  const inRun = { depth_basis: 'run', run: 'R1', ...MARKS };
  const { photographs, said } = computed([
    { ...inRun, strip_width: '' },
    { ...inRun, mark_2: '0 m' },
    { ...inRun, mark_2_x_px: '100', mark_2_y_px: '200' },
    { ...inRun, bottom: '0.7 m', mark_2: '100 m' },
    { ...inRun, run: 'R9' },
    { ...inRun, top: '0.5 m', bottom: '0.2 m' },
    { ...inRun, bottom: '0.9 m' },
    { ...inRun, depth_basis: '' },
  ]);
  const lines = said.map(({ row_id, severity, code, column, found }) => [
    row_id,
    severity,
    code,
    column,
    found,
  ]);
  assert.deepEqual(lines.sort(), [
    ['p0', 'warning', 'photo-without-scale', 'strip_width', 'strip_width empty'],
    ['p1', 'warning', 'photo-without-scale', 'mark_2', 'both marks at 0 m'],
    ['p2', 'warning', 'photo-without-scale', 'mark_2_x_px', 'both marks at 100, 200 px'],
    ['p3', 'warning', 'photo-without-scale', 'mark_2', '2001 px for 100 m of core'],
    ['p4', 'error', 'unknown-reference', 'run', 'R9'],
    ['p4', 'warning', 'photo-not-placed', 'run', ''],
    ['p5', 'error', 'top-below-bottom', 'bottom', 'top 0.5 m, bottom 0.2 m'],
    ['p6', 'warning', 'deeper-than-its-core', 'bottom', '0.9 m in run R1'],
    ['p7', 'warning', 'photo-not-placed', 'depth_basis', ''],
  ]);
  for (const { expected, fix } of said) assert.ok(expected !== '' && fix !== '');
  const drawn = photographs.map(({ row_id, strip, slices }) => [row_id, strip !== null, slices.length > 0]);
  assert.deepEqual(drawn, [
    ['p0', false, true],
    ['p1', false, true],
    ['p2', false, true],
    ['p3', true, true],
    ['p4', true, false],
    ['p6', true, true],
    ['p7', true, false],
  ]);
});
