/** What a hole looks like when it is done, from typed readings: where runs lost core, the pace of drives, alternative_models. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import { computeCampaign } from '../compute.ts';

const METRE = 1e-9;
type Cells = Record<string, string>;

/** Five drives of 1.5 m, each sounded before and after, and a run after each but the last; nothing settles. */
function drilled() {
  const joints: Cells[] = [];
  const drives: Cells[] = [];
  const soundings: Cells[] = [];
  const runs: Cells[] = [];
  let seq = 0;
  const reading = (): Cells => ({ hole: 'A', seq: String(++seq) });
  const entered = [0.8, 1.9, 3.2, 4.6, 6.05];
  const rates = [90, 90, 90, 100, 400];
  const lossAt = ['top', 'spread', '', 'base'];
  let removed = 0;
  let penetration = 0;
  for (const [i, total] of entered.entries()) {
    joints.push({
      ...reading(),
      action: 'add',
      item: 'joint',
      joint: `J${i}`,
      length: '1.5 m',
      tight: 'yes',
    });
    const length = 1.5 * (i + 1);
    drives.push({
      ...reading(),
      stick_up_start: `${length - penetration} m`,
      stick_up_end: `${length - penetration - 1.5} m`,
      duration_s: String(rates[i]),
      ended_by: i === 4 ? 'slowing' : 'length',
      frequency_hz: '170',
    });
    penetration += 1.5;
    const sounded = (purpose: string): void => {
      soundings.push({ ...reading(), purpose, to_sediment: `${(length - (total - removed)).toFixed(3)} m` });
    };
    sounded('before_run');
    if (i === 4) continue;
    runs.push({ ...reading(), run: `R${i + 1}`, recovered: '0.6 m', loss_position: lossAt[i]! });
    removed += 0.75;
    sounded('after_run');
  }
  let document = newDocument('holes');
  const tables = {
    sites: [{ site: 'S', name: 'The Spit' }],
    holes: [{ hole: 'A', site: 'S', method: 'string', state: 'finished' }],
    ground: [{ hole: 'A', seq: '0', ground_below_reference: '0 m' }],
    units: [{ hole: 'A', unit: '1', basis: 'entered', top: '1 m', bottom: '2 m', sediment: 'peat' }],
    settings: [{ name: 'depth_draws', value: '200' }],
    joints,
    drives,
    soundings,
    runs,
  };
  for (const [table, rows] of Object.entries(tables)) document = withRows(document, table, rows);
  const { campaign, problems } = parseCampaign(document);
  const { results } = computeCampaign(campaign, { curves: {} }, problems, { withCurve: false });
  return results.holes[0]!;
}

test('a run says where it lost core; one of which nobody said has it unknown', () => {
  const hole = drilled();
  assert.equal(hole.site_name, 'The Spit');
  assert.deepEqual(
    hole.runs.map((r) => r.loss_position),
    ['top', 'spread', 'unknown', 'base'],
  );
});

test('drives carry the rate usual before them, and their trend passes through what it was made from', () => {
  const { drives, pace_trend: trend } = drilled();
  assert.deepEqual(
    drives.map((d) => d.pace),
    [null, 'steady', 'steady', 'steady', 'slowing'],
  );
  for (const d of drives) assert.equal(d.frequency_hz, 170);
  assert.ok(Math.abs(drives[4]!.usual_m_per_min! - 1) < METRE);
  assert.equal(trend!.drives, 5);
  // The line is straight in the logarithm, with the slope stated, over all that was driven.
  const [first, last] = [trend!.line[0]!, trend!.line.at(-1)!];
  assert.ok(Math.abs(first.depth_m) < METRE && Math.abs(last.depth_m - 7.5) < METRE);
  for (const { depth_m, rate_m_per_min } of trend!.line) {
    const expected = first.rate_m_per_min * Math.exp(trend!.slope_per_m * depth_m);
    assert.ok(Math.abs(rate_m_per_min - expected) < METRE);
  }
});

test('alternative_models: one factor from the last sounding, or all that is missing off the top, each with its misfit', () => {
  const { alternative_models, penetration_m, entered_m } = drilled();
  const [uniform, allAtTop] = alternative_models;
  assert.ok(Math.abs(entered_m! - 6.05) < METRE && Math.abs(penetration_m! - 7.5) < METRE);
  assert.deepEqual(
    alternative_models.map((r) => r.model),
    ['uniform', 'all_at_top'],
  );
  const near = (a: number, b: number): void => assert.ok(Math.abs(a - b) < 1e-6, `${a}, not ${b}`);
  near(uniform!.units[0]!.depth_top_m, 7.5 / 6.05);
  near(uniform!.units[0]!.depth_bottom_m, (2 * 7.5) / 6.05);
  near(allAtTop!.units[0]!.depth_top_m, 1 + 1.45);
  near(allAtTop!.units[0]!.depth_bottom_m, 2 + 1.45);
  // Straight lines from the ground to the last sounding; the second falls straight while nothing enters.
  assert.deepEqual(
    uniform!.line.map((p) => [p.entered_m, p.depth_m].map((x) => Math.round(x * 1e6) / 1e6)),
    [
      [0, 0],
      [6.05, 7.5],
    ],
  );
  assert.deepEqual(
    allAtTop!.line.map((p) => [p.entered_m, p.depth_m].map((x) => Math.round(x * 1e6) / 1e6)),
    [
      [0, 0],
      [0, 1.45],
      [6.05, 7.5],
    ],
  );
  // Worst for uniform at the second drive: 1.9 m entered where it has 3.0 × 6.05 ÷ 7.5.
  near(uniform!.worst_m, (3 * 6.05) / 7.5 - 1.9);
  near(allAtTop!.worst_m, 0.8 - (1.5 - 1.45));
  assert.ok(uniform!.rejected_sd > 2 && allAtTop!.rejected_sd > 2);
});
