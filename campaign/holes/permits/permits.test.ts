import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import { closingDemands, demandWords, permitConditions } from './demands.ts';
import { permitsOf } from './permits.ts';
import { closingOf, conditionsNow, permitsNow } from './typed-permits.ts';

type Cells = Record<string, string>;
const DAY = '2024-03-05';

function campaignOf(permits: Cells[], holes: Cells[] = [{ hole: 'H1', state: 'planned' }]) {
  const ids = (rows: Cells[], prefix: string) =>
    rows.map((r, i) => ({ row_id: `${prefix}${i}`, ...(prefix === 'h' ? { method: 'string' } : {}), ...r }));
  let document = withRows(newDocument('permits'), 'sites', ids([{ site: 'A' }, { site: 'B' }], 's'));
  document = withRows(document, 'holes', ids(holes, 'h'));
  if (permits.length > 0) document = withRows(document, 'permits', ids(permits, 'p'));
  return parseCampaign(document).campaign;
}

const granted = (more: Cells = {}): Cells => ({
  permit: 'Shore licence',
  kind: 'protected_ground',
  state: 'granted',
  ...more,
});
/** What is said of one permit on a day. */
const said = (permit: Cells, day = DAY): [string, string] => {
  const { level, words } = permitsOf(campaignOf([permit]), day).find((p) => p.row_id === 'p0')!;
  return [level, words];
};

test('the last day counts; the day after, it has expired', () => {
  const until = granted({ until: '2024-03-05' });
  assert.deepEqual(said(until), ['warn', 'granted, expires at the end of this day']);
  assert.deepEqual(said(until, '2024-03-06'), ['stop', 'expired 2024-03-05, 1 day before this day']);
  // 2024 is a leap year: 25 February to 5 March is 4 + 5 days.
  assert.deepEqual(said(granted({ until: '2024-02-25' })), [
    'stop',
    'expired 2024-02-25, 9 days before this day',
  ]);
  assert.deepEqual(said(granted({ until: '2024-03-19' })), [
    'warn',
    'granted, expires in 14 days, 2024-03-19',
  ]);
  assert.deepEqual(said(granted({ until: '2024-03-20' })), ['ok', 'granted until 2024-03-20']);
  assert.deepEqual(said(granted({ from: '2024-03-06' })), [
    'stop',
    'valid from 2024-03-06, 1 day after this day',
  ]);
  assert.deepEqual(said(granted()), ['ok', 'granted, no last day stated']);
});

test('an expired permit that was renewed stops nothing; one of another site, giver or kind renews nothing', () => {
  const old = granted({ until: '2024-03-01', site: 'A', issued_by: 'Coast office' });
  const of = (more: Cells): [string, string] => {
    const renewal = { ...old, permit: 'Licence 2024', until: '2024-12-31', ...more };
    const { level, words } = permitsOf(campaignOf([old, renewal]), DAY).find((p) => p.row_id === 'p0')!;
    return [level, words];
  };
  assert.deepEqual(of({}), ['ok', 'expired 2024-03-01; renewed by Licence 2024']);
  const expired = ['stop', 'expired 2024-03-01, 4 days before this day'];
  for (const other of [
    { site: 'B' },
    { issued_by: 'Harbour office' },
    { kind: 'heritage' },
    { state: 'asked' },
    { until: '2024-03-04' },
    { from: '2024-03-06' },
  ])
    assert.deepEqual(of(other), expired, JSON.stringify(other));
});

test('what cannot be read, or turns round, is never taken as valid', () => {
  assert.deepEqual(said(granted({ until: '31.12.2024' }))[0], 'stop');
  assert.match(said(granted({ until: '31.12.2024' }))[1], /“31\.12\.2024” is not a date/);
  assert.deepEqual(said(granted({ from: '2024-04-01', until: '2024-03-01' }))[0], 'stop');
  const noKind = permitsOf(campaignOf([{ permit: 'Letter', state: 'granted' }]), DAY);
  assert.deepEqual(
    noKind.filter((p) => p.row_id !== null).map((p) => [p.permit, p.level]),
    [['Letter', 'stop']],
  );
});

test('refused, not asked for and asked for are distinguished', () => {
  const state = (word: string, kind = 'heritage') => said(granted({ state: word, kind }));
  assert.deepEqual(state('refused'), ['stop', 'refused']);
  assert.deepEqual(state('to_ask'), ['warn', 'not asked for']);
  assert.deepEqual(state('asked'), ['warn', 'asked for, not granted']);
  assert.deepEqual(state(''), ['warn', 'state not entered']);
  assert.deepEqual(state('not_needed'), ['ok', 'not needed']);
  // What lies in the ground is known, or nothing is driven.
  assert.deepEqual(state('asked', 'buried_services'), [
    'stop',
    'Find out before drilling: buried services (asked for, not granted)',
  ]);
});

test('what is not recorded is to be found out, at each site where a hole goes on', () => {
  const missing = (permits: Cells[], holes?: Cells[]) =>
    permitsOf(campaignOf(permits, holes), DAY)
      .filter((p) => p.row_id === null)
      .map(({ level, words }) => `${level} ${words}`);
  assert.deepEqual(missing([]), [
    'stop Find out before drilling: buried services',
    'stop Find out before drilling: unexploded ordnance',
    'warn Find out before drilling: landowner',
  ]);
  const known = ['buried_services', 'unexploded_ordnance', 'landowner'].map((kind) =>
    granted({ permit: kind, kind }),
  );
  assert.deepEqual(missing(known), []);
  const two = [
    { hole: 'H1', site: 'A', state: 'planned' },
    { hole: 'H2', site: 'B', state: 'open' },
  ];
  assert.deepEqual(missing([{ ...known[0]!, site: 'A' }, ...known.slice(1)], two), [
    'stop Find out before drilling: buried services at B',
  ]);
  // A site whose holes have ended needs nothing more.
  assert.deepEqual(
    missing([{ ...known[0]!, site: 'A' }, ...known.slice(1)], [two[0]!, { ...two[1]!, state: 'finished' }]),
    [],
  );
  assert.deepEqual(missing([], [{ hole: 'H1', state: 'finished' }]), []);
});

test('conditions and closing demands are those of the site, and of no refused permit', () => {
  const { rows } = campaignOf([
    granted({
      conditions: 'No vehicle on the dune.',
      closing_seal: 'bentonite to 1 m',
      closing_report: 'the coast office',
      report_due: '2024-06-30',
    }),
    granted({ permit: 'At B', site: 'B', closing_pipe: 'none may stay' }),
    granted({ permit: 'No', state: 'refused', closing_pipe: 'all', conditions: 'never' }),
  ]);
  assert.deepEqual(permitConditions(rows.permits), [
    { permit: 'Shore licence', words: 'No vehicle on the dune.' },
  ]);
  assert.equal(
    demandWords(closingDemands(rows.permits, 'A')),
    'Shore licence: seal: bentonite to 1 m; report to the coast office by 2024-06-30.',
  );
  assert.deepEqual(
    closingDemands(rows.permits, 'B').map((d) => d.permit),
    ['Shore licence', 'At B'],
  );
  // A hole without a site is under all of them.
  assert.equal(closingDemands(rows.permits, null).length, 2);
});

test('as typed: a hole’s demands go by its site, whatever else is wrong with it', () => {
  const rows: Record<string, { row_id: string; cells: Cells }[]> = {
    sites: [{ row_id: 's', cells: { site: 'B' } }],
    holes: [{ row_id: 'h', cells: { hole: 'H1', site: 'B', method: 'nonsense' } }],
    permits: [
      { row_id: 'p', cells: { ...granted({ site: 'B', closing_seal: 'clay', conditions: 'no noise' }) } },
    ],
  };
  const source = { rows: (table: string) => rows[table] ?? [] };
  assert.deepEqual(closingOf(source, 'H1'), [{ permit: 'Shore licence', words: 'seal: clay' }]);
  assert.deepEqual(conditionsNow(source), [{ permit: 'Shore licence (B)', words: 'no noise' }]);
  assert.deepEqual(
    permitsNow(source, DAY).map((p) => p.level),
    ['stop', 'stop', 'warn', 'ok'],
  );
});
