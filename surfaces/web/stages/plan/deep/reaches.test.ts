/** How deep to go for what is expected. Invented numbers; sums by hand. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { ExpectationResult } from '@stillstand/campaign/results';
import { parseLength } from '@stillstand/campaign/tables';
import { reachedWith, reachesOf } from './reaches.ts';

type Contact = ExpectationResult['contacts'][number];

const contact = (id: string, of: Partial<Contact>): Contact => ({
  horizon: null,
  sediment: 'peat',
  environment: null,
  units: [{ hole: 'A', unit: '3', unit_row_id: id }],
  before: 0.9,
  present: 0.9,
  elevation_m: { median: -4, lower95: -5, upper95: -3 },
  with_80_m: -4.41,
  with_95_m: -4.8,
  age_cal_bp: null,
  met: null,
  ...of,
});

const expectation = (ground_m: number | null, contacts: Contact[]): ExpectationResult => ({
  hole_row_id: 'p',
  hole: 'P',
  ground_m,
  described_m: ground_m,
  asked: [{ hole: 'A', distance_m: 10 }],
  ties: 0,
  proposed_ties: 0,
  contacts,
});

test('depths are the ground less the elevations, rounded up to the next 0.1 m, in the unit of the crew', () => {
  const of = expectation(2, [contact('a', { horizon: 'lower peat' })]);
  const [metres] = reachesOf(of, 'm');
  assert.equal(metres!.name, 'lower peat');
  assert.equal(metres!.as, 'base of peat, as in A');
  // 2 + 4.41 = 6.41, to 6.5; 2 + 4.8 = 6.8, which is 6.8 already
  assert.equal(metres!.with80.typed, '6.5 m');
  assert.equal(metres!.with95.typed, '6.8 m');
  assert.equal(reachesOf(of, 'cm')[0]!.with80.typed, '650 cm');
  for (const unit of ['m', 'cm', 'ft'] as const)
    for (const reach of [reachesOf(of, unit)[0]!.with80, reachesOf(of, unit)[0]!.with95]) {
      const read = parseLength(reach.typed!);
      assert.ok(read.ok && read.metres >= reach.m - 1e-9 && read.metres < reach.m + 0.11, reach.typed!);
    }
});

test('without a levelled ground it is an elevation, and no target', () => {
  const [only] = reachesOf(expectation(null, [contact('a', {})]), 'm');
  assert.deepEqual(only!.with80, { m: -4.41, typed: null });
});

test('what is above the ground or deeper than any target is accepted is no target either', () => {
  const [high, deep] = reachesOf(
    expectation(-5, [
      contact('a', {}),
      contact('b', {
        elevation_m: { median: -150, lower95: -400, upper95: -100 },
        with_80_m: -300,
        with_95_m: -350,
      }),
    ]),
    'm',
  );
  assert.equal(high!.with80.typed, null);
  assert.equal(deep!.with80.typed, null);
});

test('named horizons and what is no less probable than not, from the shallowest down; never what was met', () => {
  const at = (median: number) => ({ median, lower95: median - 1, upper95: median + 1 });
  const found = reachesOf(
    expectation(2, [
      contact('deep', { elevation_m: at(-6), present: 0.5 }),
      contact('improbable', { elevation_m: at(-1), present: 0.49 }),
      contact('named', { elevation_m: at(-3), present: 0.1, horizon: 'shell bed' }),
      contact('met', {
        horizon: 'top',
        met: { unit: '1', unit_row_id: 'u', elevation_m: 1, improbable: 0.5 },
      }),
    ]),
    'm',
  );
  assert.deepEqual(
    found.map(({ key }) => key),
    ['named', 'deep'],
  );
});

test('a depth that is typed lies between the median, 80 and 95 %', () => {
  const [of] = reachesOf(expectation(2, [contact('a', {})]), 'm');
  const words = [5.99, 6, 6.4, 6.42, 6.79, 6.81].map((m) => reachedWith(m, of!));
  assert.deepEqual(words, [
    'less than even',
    '50 to 80 %',
    '50 to 80 %',
    '80 to 95 %',
    '80 to 95 %',
    'more than 95 %',
  ]);
});
