/** Half-filled forms outlast the page; a device that keeps nothing has them in memory. */
import assert from 'node:assert/strict';
import { afterEach, test } from 'node:test';
import { type DraftPlace, draftsOf, forgetDrafts, type KeptDraft } from './drafts.ts';

const PLACE: DraftPlace = { form: 'sound', hole: 'H1', amends: '' };
const DRAFT: KeptDraft = {
  values: { to_sediment: '1.02' },
  units: { to_sediment: 'm' },
  at: 'to_sediment',
  time: '2024-06-11T14:39:00+02:00',
  seen: 2,
};

/** A device as a browser has one; `refuses` as one that is full. */
function device() {
  const kept = new Map<string, string>();
  const own = {
    refuses: false,
    kept,
    getItem: (key: string) => kept.get(key) ?? null,
    removeItem: (key: string) => void kept.delete(key),
    setItem: (key: string, value: string) => {
      if (own.refuses) throw new DOMException('full', 'QuotaExceededError');
      kept.set(key, value);
    },
  };
  Object.defineProperty(globalThis, 'localStorage', { value: own, configurable: true });
  return own;
}
afterEach(() => {
  forgetDrafts('c1');
});

test('kept by campaign, form, hole and amended row, until it is recorded', () => {
  const own = device();
  draftsOf('c1').keep(PLACE, DRAFT);
  // the page is loaded again: nothing but the device is asked
  assert.deepEqual(draftsOf('c1').read(PLACE), DRAFT);
  for (const other of [
    { ...PLACE, form: 'drive' },
    { ...PLACE, hole: 'H2' },
    { ...PLACE, amends: 'r5' },
  ])
    assert.equal(draftsOf('c1').read(other), null);
  assert.equal(draftsOf('c2').read(PLACE), null);
  draftsOf('c1').forget(PLACE);
  assert.equal(draftsOf('c1').read(PLACE), null);
  assert.equal(own.kept.size, 0);
});

test('the form on the screen of a hole is known after the page is loaded again', () => {
  device();
  const drafts = draftsOf('c1');
  drafts.keep(PLACE, DRAFT);
  drafts.show('H1', PLACE);
  assert.deepEqual(draftsOf('c1').shown('H1'), PLACE);
  assert.equal(draftsOf('c1').shown('H2'), null);
  drafts.show('H1', null);
  assert.equal(draftsOf('c1').shown('H1'), null);
  assert.deepEqual(draftsOf('c1').read(PLACE), DRAFT);
});

test('a device that is full, or keeps nothing at all: in memory, and it says so', () => {
  const own = device();
  own.refuses = true;
  const drafts = draftsOf('c1');
  drafts.keep(PLACE, DRAFT);
  assert.equal(drafts.onDevice, false);
  assert.deepEqual(draftsOf('c1').read(PLACE), DRAFT);
  own.refuses = false;
  drafts.keep({ ...PLACE, form: 'drive' }, DRAFT);
  assert.equal(drafts.onDevice, true);
  assert.equal(own.kept.size, 1);
  assert.deepEqual(drafts.read(PLACE), DRAFT);
  Object.defineProperty(globalThis, 'localStorage', {
    get: () => {
      throw new DOMException('denied', 'SecurityError');
    },
    configurable: true,
  });
  draftsOf('c3').keep(PLACE, DRAFT);
  assert.deepEqual(draftsOf('c3').read(PLACE), DRAFT);
  forgetDrafts('c3');
  assert.equal(draftsOf('c3').read(PLACE), null);
});

test('what another program left under the name is no draft', () => {
  const own = device();
  for (const text of ['nonsense', '7', 'null', '{"drafts":null}']) {
    own.kept.set('stillstand.drafts.c1', text);
    assert.equal(draftsOf('c1').read(PLACE), null);
    assert.equal(draftsOf('c1').shown('H1'), null);
  }
});
