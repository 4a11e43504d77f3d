/** The account of dates against sums by hand. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import { DEFAULT_DATE_PLAN } from '@stillstand/science/curve';
import { dateAccount, heldSamples, withinFunds } from './index.ts';

type Cells = Record<string, string>;

const SENT = {
  action: 'sent',
  date: '2026-03-01',
  laboratory: 'Quay',
  submission: 'P1',
  request: 'radiocarbon',
};

/** A and B dated, C sent for a date, D sent for grain size, E lent, F discarded, G at hand. */
function campaignOf(custody: readonly Cells[], laboratory: Cells = {}) {
  let document = newDocument('budget');
  document = withRows(document, 'holes', [{ hole: 'T1', method: 'hand' }]);
  document = withRows(
    document,
    'samples',
    [...'ABCDEFG'].map((sample, i) => ({ sample, hole: 'T1', depth_basis: 'in_situ', top: `${i + 1} m` })),
  );
  document = withRows(document, 'laboratories', [{ laboratory: 'Quay', ...laboratory }]);
  const method = { method: 'radiocarbon', value: '4000', error: '30' };
  document = withRows(document, 'determinations', [
    { lab_code: 'L1', sample: 'A', ...method },
    { lab_code: 'L2', sample: 'B', ...method, status: 'rejected', reason: 'roots' },
    { lab_code: 'L3', sample: 'B', ...method },
    { lab_code: 'year', sample: 'G', method: 'historic', value: '20', error: '1' },
  ]);
  document = withRows(
    document,
    'custody',
    custody.map((cells, i) => ({ seq: String(i + 1), ...cells })),
  );
  return parseCampaign(document).campaign;
}

const AWAY: readonly Cells[] = [
  { sample: 'C', ...SENT },
  { sample: 'D', ...SENT, request: 'grain size' },
  { sample: 'E', action: 'lent', date: '2026-03-01', laboratory: 'Quay' },
  { sample: 'F', action: 'discarded', date: '2026-03-01' },
];
const settings = (given: Cells) => Object.entries(given).map(([name, value]) => ({ name, value }));

test('dates counted: three made, one rejected among them, one waiting, six of ten left', () => {
  assert.deepEqual(dateAccount(campaignOf(AWAY), settings({ date_funds: '10' })), {
    ...{ funds: 10, made: 3, waiting: 1, spent: 3, committed: 1, unpriced: 0, currencies: [], left: 6 },
  });
  assert.equal(dateAccount(campaignOf([]), []).left, null);
});

test('money: costs as entered, the laboratory’s price for what waits, the price of a date for the rest', () => {
  const costed = [{ sample: 'A', ...SENT, cost: '420', currency: 'EUR' }, ...AWAY];
  const of = (laboratory: Cells) =>
    dateAccount(campaignOf(costed, laboratory), settings({ date_price: '400', date_funds: '3000' }));
  // A 420; B two dates of 400; C at the laboratory's 450: 3000 − 420 − 800 − 450.
  assert.deepEqual(of({ price: '450', currency: 'eur' }), {
    ...{ funds: 3000, made: 3, waiting: 1, spent: 1220, committed: 450, unpriced: 2, currencies: ['EUR'] },
    left: 1330,
  });
  // No price of the laboratory: C at 400.
  assert.deepEqual([of({}).committed, of({}).unpriced, of({}).left], [400, 3, 1380]);
});

test('money: each date at its own cost; what else was asked of a sample is no cost of a date', () => {
  const of = (...custody: Cells[]) => {
    const { spent, committed, unpriced, left } = dateAccount(
      campaignOf(custody),
      settings({ date_price: '400', date_funds: '3000' }),
    );
    return [spent, committed, unpriced, left];
  };
  // A 400, B two of 400.
  assert.deepEqual(of(), [1200, 0, 3, 1800]);
  // A's first date is paid, its second on its way, without a cost and with one.
  const paid = { sample: 'A', ...SENT, cost: '420' };
  const again = { ...SENT, sample: 'A', date: '2026-05-01' };
  assert.deepEqual(of(paid, again), [1220, 400, 3, 1380]);
  assert.deepEqual(of(paid, { ...again, cost: '450' }), [1220, 450, 2, 1330]);
  // A's date came before its parcels were kept, so the first sending takes it for its answer; the second waits.
  assert.deepEqual(of({ sample: 'A', ...SENT }, { ...again, cost: '450' }), [1200, 450, 3, 1350]);
  // Grain size of A for 50, with its result: the date of A still counts 400.
  const size = { sample: 'A', ...SENT, request: 'grain size', cost: '50' };
  const found = { sample: 'A', action: 'result', date: '2026-04-01', cost: '5' };
  assert.deepEqual(of(size, found), [1200, 0, 3, 1800]);
});

test('costs in two currencies are not summed', () => {
  const costed = [
    { sample: 'A', ...SENT, cost: '420', currency: 'EUR' },
    { sample: 'B', ...SENT, cost: '800', currency: 'GBP' },
  ];
  const account = dateAccount(campaignOf(costed), settings({ date_price: '400', date_funds: '3000' }));
  assert.deepEqual([account.currencies, account.left], [['EUR', 'GBP'], null]);
});

test('what is sent, lent or discarded cannot be dated now; a result ends the wait', () => {
  assert.deepEqual(
    [...heldSamples(campaignOf(AWAY))],
    [
      ['C', 'sent, and waiting for a result'],
      ['D', 'sent, and waiting for a result'],
      ['E', 'lent, and not back'],
      ['F', 'discarded'],
    ],
  );
  assert.equal(heldSamples(campaignOf([{ sample: 'A', ...SENT }])).size, 0);
});

test('a plan spends no more than is left, and nothing where nothing is', () => {
  const plan = { ...DEFAULT_DATE_PLAN, budget: 5 };
  assert.equal(withinFunds(plan, { left: 3 }).budget, 3);
  assert.equal(withinFunds(plan, { left: 8 }).budget, 5);
  assert.equal(withinFunds({ ...plan, budget: null }, { left: 3 }).budget, 3);
  assert.equal(withinFunds(plan, { left: -1 }).budget, null);
  assert.equal(withinFunds(plan, { left: null }), plan);
});
