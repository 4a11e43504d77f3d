/** Ages against depth of holes whose dates share an error: one computation of these holes, of no others. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { traceId } from '@stillstand/campaign/results';
import { computeCampaign } from '../compute.ts';
import { type Cells, campaignOf } from '../fixtures/campaign-of.ts';
import { doLongJob, holesOfAges } from '../long-jobs.ts';
import type { Memo } from '../runner/runner.ts';
import type { LongJob } from '../runner/step.ts';

interface Said {
  /** By code: what is stated instead of the true age. */
  value?: Record<string, number>;
  rejected?: string;
  /** The dates of the group, all of A and B if not said. */
  sharing?: readonly string[];
  /** Dates with a second one of their sample, ±10 yr and as it is. */
  twice?: readonly string[];
}

const AGES = [1000, 2000, 3000, 4000];
const codesOf = (hole: string): string[] => AGES.map((_, i) => `${hole}${i + 1}`);
const OF_GROUP = [...codesOf('A'), ...codesOf('B')];

/** Three exposures of steady 1 mm/yr; those of A and B were measured together, ±60 yr of their ±75 as one. */
function tablesOf({ value = {}, rejected, sharing = OF_GROUP, twice = [] }: Said): Record<string, Cells[]> {
  const codes = ['A', 'B', 'C'].flatMap((hole) =>
    AGES.map((age, i) => ({ hole, age, code: `${hole}${i + 1}` })),
  );
  return {
    datums: [{ datum: 'MSL', kind: 'mean_sea_level' }],
    holes: ['A', 'B', 'C'].map((hole) => ({
      hole,
      method: 'exposure',
      reference_elevation_m: '2',
      reference_datum: 'MSL',
    })),
    samples: codes.map(({ hole, age, code }) => ({
      sample: `S${code}`,
      hole,
      basis: 'in_situ',
      top: `${age / 1000 - 0.005} m`,
      bottom: `${age / 1000 + 0.005} m`,
    })),
    determinations: [
      ...codes.map(
        ({ age, code }): Cells => ({
          lab_code: code,
          sample: `S${code}`,
          method: 'luminescence',
          value: String(value[code] ?? age),
          error: '75',
          ...(sharing.includes(code) ? { systematic_error: '60', systematic_group: 'lamp' } : {}),
          ...(code === rejected ? { status: 'rejected', reason: 'burrow' } : {}),
        }),
      ),
      ...codes
        .filter(({ code }) => twice.includes(code))
        .map(({ age, code }) => ({
          lab_code: `${code} again`,
          sample: `S${code}`,
          method: 'u_series',
          value: String(age),
          error: '10',
        })),
    ],
    settings: [{ name: 'age_depth', value: 'A; C; B' }],
  };
}

function computed(said: Said, memo: Memo = new Map(), later?: LongJob[]) {
  const { campaign, problems } = campaignOf('ages', tablesOf(said));
  return computeCampaign(campaign, { curves: {} }, problems, { withCurve: true, later, memo });
}

/** The jobs that a state asks for, done. */
function asked(said: Said, memo: Memo): (readonly string[] | null)[] {
  const later: LongJob[] = [];
  computed(said, memo, later);
  for (const job of later) memo.set(job.key, doLongJob(job));
  return later.map(holesOfAges);
}

test('holes of one error are one job, and stay apart from others; a date rejected in one is computed with both', () => {
  const memo: Memo = new Map();
  assert.deepEqual(asked({}, memo), [['A', 'B'], ['C']]);
  const { results, trace } = computed({}, memo);
  assert.deepEqual(
    results.histories.map(({ hole, shared }) => [
      hole,
      shared.map(({ group, dates, holes }) => [group, dates, holes]),
    ]),
    [
      ['A', [['dose:lamp', ['A1', 'A2', 'A3', 'A4'], ['B']]]],
      ['C', []],
      ['B', [['dose:lamp', ['B1', 'B2', 'B3', 'B4'], ['A']]]],
    ],
  );
  const [{ shared }] = results.histories as [(typeof results.histories)[number]];
  const [{ sigma_yr, shift_yr }] = shared as [(typeof shared)[number]];
  assert.equal(sigma_yr, 60);
  // Nothing but dates that all share it could tell.
  assert.ok(Math.abs(shift_yr.sd / 60 - 1) < 0.15, `${shift_yr.sd}`);
  const node = trace.node(trace.find(traceId.hole('B').ageDepth));
  assert.match(node.how, /4 dates; 4 have the systematic error of the dates lamp$/);
  const together = trace.node(trace.find(traceId.agesTogether(['A', 'B'])));
  assert.ok(node.parts.includes(together.id));
  assert.ok(together.parts.includes(traceId.date('A1')) && together.parts.includes(traceId.date('B4')));
  assert.deepEqual(asked({ rejected: 'C2' }, memo), [['C']]);
  assert.deepEqual(asked({ rejected: 'B2' }, memo), [['A', 'B']]);
});

test('an error shared with no other date is that date’s own: each hole by itself, to the last digit', () => {
  const ofC = (said: Said) => computed(said).results.histories.find(({ hole }) => hole === 'C');
  assert.deepEqual(ofC({ sharing: [] }), ofC({}));
  assert.deepEqual(asked({ sharing: ['A1'] }, new Map()), [['A'], ['C'], ['B']]);
});

test('what another clock says of the error reaches both holes, and is a problem where it is much', () => {
  const value = Object.fromEntries(OF_GROUP.map((code) => [code, 1000 * Number(code[1]) + 150]));
  const { results } = computed({ value, twice: ['B2', 'B4'] });
  const [a] = results.histories as [(typeof results.histories)[number]];
  const { shift_yr } = a.shared[0]!;
  // Two differences of 150 yr, each ±46 yr, of an error of ±60: 116 ± 29.
  assert.ok(Math.abs(shift_yr.mean - 116) < 20, `${shift_yr.mean}`);
  assert.ok(Math.abs(shift_yr.sd - 29) < 6, `${shift_yr.sd}`);
  // The ages of A follow.
  for (const [i, { age_cal_bp }] of a.clocks.entries())
    assert.ok(Math.abs(age_cal_bp.mean - AGES[i]! - 34) < 40, `${age_cal_bp.mean}`);
  const found = results.problems.filter(({ code }) => code === 'shared-error-moved');
  assert.deepEqual(
    found.map(({ label }) => label),
    ['lamp'],
  );
  assert.match(found[0]!.found, /^\+\d+ ± \d+ yr \(1 sigma\) from the dates of A, B$/);
  assert.match(found[0]!.expected, /^at most the 60 yr \(1 sigma\) stated of this systematic error$/);
});
