/** Markings as they are found on gear, each against a conversion done by hand. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { loadWords, massWords, rangeMassWords, rangeWords, ratingWords } from './load-words.ts';
import { readRating } from './rating.ts';

const near = (a: number | null, b: number) =>
  assert.ok(Math.abs((a ?? Number.NaN) - b) < 1e-6, `${a} is not ${b}`);

test('kN, kg and tonnes as they are marked', () => {
  // 2 t × 9.80665 = 19.6133 kN
  for (const marking of ['2 t', 'WLL 2t', 'SWL 2.0 tonnes', '2000 kg', '2000kgf', '2,0 t']) {
    near(readRating(marking).kn, 19.6133);
    assert.equal(readRating(marking).doubt, null, marking);
  }
  near(readRating('20 kN').kn, 20);
  near(readRating('1500 daN').kn, 15);
  // 4.75 t
  near(readRating('WLL 4 3/4 t').kn, 46.5815875);
  near(readRating('3/4 t').kn, 7.3549875);
  // 2000 lb = 907.18474 kg = 8.896443 kN
  near(readRating('2000 lb').kn, 8.896443);
});

test('what is unclear is said, and taken on the safe side', () => {
  // a ton stamped T may be short: 907.18474 kg
  for (const marking of ['WLL 2T', '2 ton', '2 tons']) {
    near(readRating(marking).kn, 17.792886);
    assert.match(readRating(marking).doubt!, /short/);
  }
  assert.equal(readRating('MBL 12 t').kn, null);
  assert.match(readRating('breaking load 120 kN').doubt!, /breaking/);
  near(readRating('MBL 12 t, WLL 2 t').kn, 19.6133);
  near(readRating('2 t / 3 t').kn, 19.6133);
  assert.match(readRating('2 t / 3 t').doubt!, /several/);
  assert.equal(readRating('2,000 kg').kn, null);
  assert.equal(readRating('6x19 IWRC').kn, null);
  assert.equal(readRating('2').kn, null);
  near(readRating('2', 'kN').kn, 2);
  assert.equal(readRating('').kn, null);
  assert.equal(readRating('0 t').kn, null);
});

test('newtons, te, lbf; a torque, a breaking load by its short name and one of two are no rating', () => {
  near(readRating('9810 N').kn, 9.81);
  near(readRating('2 te').kn, 19.6133);
  // 2000 lbf = 8.896443 kN
  near(readRating('2000 lbf').kn, 8.896443);
  assert.equal(readRating('40 Nm').kn, null);
  for (const marking of ['BL 12 t', '12 t BL', 'MBL 12 t / 10 t', 'MBS 12 t, MBL 10 t'])
    assert.equal(readRating(marking).kn, null, marking);
  // what stands before the working load is another
  near(readRating('12 t SWL 2 t').kn, 19.6133);
  for (const marking of ['WLL 2 t MBL 12 t', 'BL 12 t SWL 2 t', 'MBL 12 t NWL 2 t']) {
    near(readRating(marking).kn, 19.6133);
    assert.equal(readRating(marking).doubt, null, marking);
  }
});

test('a load is never shown smaller, a rating never larger', () => {
  assert.deepEqual([loadWords(9.01), loadWords(12.01)], ['9.1', '13']);
  // 9.01 kN is 918.76 kg; 9.81 kN is 1000.34 kg
  assert.deepEqual([massWords(9.01), massWords(9.81), massWords(9.8)], ['920 kg', '1.1 t', '1.0 t']);
  assert.equal(rangeWords({ low: 0.91, high: 12.5 }), '1.0–13');
  // 0.91 kN is 92.8 kg; 12.5 kN is 1.2747 t; 19.7 kN is 2.009 t
  assert.equal(rangeMassWords({ low: 0.91, high: 12.5 }), '100 kg–1.3 t');
  assert.equal(rangeMassWords({ low: 12.5, high: 19.7 }), '1.3–2.1 t');
  assert.equal(ratingWords(19.6133), '19.6 kN (2.00 t)');
  assert.equal(ratingWords(20), '20 kN (2.03 t)');
  assert.equal(ratingWords(4.903325), '4.9 kN (500 kg)');
});
