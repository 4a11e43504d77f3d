/** Funds of dates in words, and how far down a list of dates they reach. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { DateAccount } from '@stillstand/campaign/budget';
import { type Choice, DEFAULT_DATE_PLAN, type WhatToDate } from '@stillstand/science/curve';
import { fundsInWords, type Payable, payableInWords, payableOf } from './date-funds.ts';

const ACCOUNT: DateAccount = {
  ...{ funds: 10, made: 3, waiting: 1, spent: 3, committed: 1, unpriced: 0, currencies: [], left: 6 },
};
const MONEY = { ...DEFAULT_DATE_PLAN, date_price: 400 };

test('what was made, waits and is left; nothing where no funds are entered', () => {
  assert.deepEqual(fundsInWords(ACCOUNT, DEFAULT_DATE_PLAN), [
    'Funds: 10 dates in all; 3 made, 1 sent and waiting, 6 left.',
  ]);
  assert.deepEqual(fundsInWords({ ...ACCOUNT, funds: null, left: null }, DEFAULT_DATE_PLAN), []);
  assert.deepEqual(fundsInWords(null, DEFAULT_DATE_PLAN), []);
});

test('in money, with what is assumed; overspent, or costs of two currencies, is said', () => {
  const account = { ...ACCOUNT, funds: 1500, spent: 1220, committed: 450, unpriced: 2, left: -170 };
  assert.deepEqual(fundsInWords(account, MONEY), [
    'Funds: 1,500 in all; 1,220 spent on 3 dates, 450 committed for 1 sample sent and waiting, 0 left. This is 170 more than the funds. No further date can be paid. 2 dates without a cost entered, counted at 400 each.',
  ]);
  const mixed = fundsInWords({ ...account, currencies: ['EUR', 'GBP'], left: null }, MONEY);
  assert.match(mixed[0]!, /^Costs are entered in EUR and GBP and cannot be summed/);
});

test('the line is drawn where the next date costs more than is left', () => {
  const single = (price: number) => ({ price, dates: [] }) as unknown as Choice;
  const from = {} as Parameters<typeof payableOf>[0];
  const next = { usual: { height_sigma_m: 0.2, age_sd_yr: 40 } } as WhatToDate;
  const reach = (budget: number | null, left: number | null, ...prices: number[]) =>
    payableOf(from, next, prices.map(single), [], { ...MONEY, budget }, { ...ACCOUNT, left });
  assert.equal(reach(null, null, 400), null);
  assert.deepEqual([reach(1000, null, 400, 400, 400)?.count, reach(1000, null, 400, 400)?.price], [2, 800]);
  // What is left of the funds is less than what may be spent next.
  assert.equal(reach(1000, 500, 400, 400)?.count, 1);
  assert.equal(reach(1000, -10, 400)?.count, 0);
  // A dear one ends the line, though a cheaper one follows.
  assert.equal(reach(500, null, 3400, 400)?.count, 0);
});

test('what can be paid, and what that would bring', () => {
  const payable = {
    count: 2,
    of: 5,
    price: 800,
    together: { left: 0.75 },
    isCut: false,
  } as unknown as Payable;
  assert.equal(
    payableInWords(payable, MONEY, 1.2, 2, 'mm/yr'),
    'The first 2 of 5 single dates can be paid for 800. With them together ± would narrow from 1.20 to 0.90 mm/yr.',
  );
  assert.match(
    payableInWords({ ...payable, count: 0 }, MONEY, 1.2, 2, 'mm/yr'),
    /budget ends above the first/,
  );
  assert.match(
    payableInWords({ ...payable, count: 1, of: 1 }, DEFAULT_DATE_PLAN, 1.2, 2, 'mm/yr'),
    /^The single date can be paid\. With it ± would narrow/,
  );
});
