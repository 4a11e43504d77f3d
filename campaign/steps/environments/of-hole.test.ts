/** Whether a marsh kept up with the sea, of one metre laid down in a thousand years. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { HoleHistory } from '@stillstand/campaign/results';
import { environmentsOfHole } from './of-hole.ts';

/** The marsh from 1,000 cal BP on; every draw is the same. */
const history = {
  diagnostics: { converged: true },
  levels: [0, 1].map((share) => ({ unit: '1', unit_row_id: 'u1', share })),
  draws: { level_depth_m: Float64Array.of(0, 1), level_age_cal_bp: Float64Array.of(0, 1000) },
} as unknown as HoleHistory;

const against = (rise_m: number, inside: readonly string[] = []) =>
  environmentsOfHole
    .compute(
      {
        hole: {
          hole: 'A',
          along_m: 0,
          ground: { value: 1, sigma: 0 },
          layers: [{ unit_row_id: 'u1', environment: 'high marsh', isAtOnce: false }],
        },
        history,
        words: [{ unit: '1', unit_row_id: 'u1', sediment: 'peat' }],
        ages_cal_bp: [500],
        inside,
        sea: { ages_cal_bp: Float64Array.of(0, 2000), level_m: Float64Array.of(0, -2 * rise_m) },
      },
      { onProgress: undefined },
    )!
    .spells.find(({ kind }) => kind === 'environment')!.against_sea;

test('it kept up where it grew at least as much as the sea rose, and is not asked inside of the edge', () => {
  const [slow, fast] = [against(0.5)!, against(2)!];
  assert.deepEqual([slow.kept_up, fast.kept_up, against(1)!.kept_up], [1, 0, 1]);
  assert.deepEqual(
    [slow.accretion_mm_yr.median, slow.rise_mm_yr.median, fast.rise_mm_yr.median],
    [1, 0.5, 2],
  );
  // From the sea half a metre below today's, with its base at 0 m, to today's with its top at 1 m.
  assert.deepEqual([slow.began_m.median, slow.ended_m.median], [0.5, 1]);
  assert.equal(against(0.5, ['High marsh']), null);
});
