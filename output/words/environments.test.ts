/** Environments through time in words, against numbers read off by hand. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { coastThroughTime } from '../figures/fixtures/environments.ts';
import { agesInWords, atLeastInWords, betweenAges, edgeAt, standingAt } from './environments.ts';

const [line] = coastThroughTime.lines_through_time;

test('an age stands older first, years stood are rounded down to tens', () => {
  assert.deepEqual(agesInWords({ median: 8953.7, lower95: 8673.2, upper95: 9100.9 }), {
    median: '8,954',
    range: '9,101–8,673',
  });
  assert.equal(atLeastInWords(1687.8), 'at least 1,680 yr, probability 0.95');
  assert.equal(atLeastInWords(-3), 'at least 0 yr, probability 0.95');
});

test('between two ages values are straight, beyond the ends they stay, and a gap stays one', () => {
  const [ages, values] = [
    [0, 100, 200],
    [1, 3, Number.NaN],
  ];
  assert.deepEqual(
    [-50, 0, 50, 100, 900].map((age) => betweenAges(ages!, values!, age)),
    [1, 1, 2, 3, Number.NaN],
  );
});

test('what stood at an age is said with its probability, the likeliest first, never as a certainty', () => {
  const of = coastThroughTime.environments.find(({ hole }) => hole === 'T1')!;
  assert.equal(standingAt(of, 9800), 'not reached (more than 0.99)');
  const words = standingAt(of, 1700);
  const found = [...words.matchAll(/\((0\.\d\d)\)/g)].map(([, p]) => Number(p));
  assert.ok(found.length > 1, words);
  assert.deepEqual(
    found,
    found.toSorted((a, b) => b - a),
  );
  assert.ok(Math.abs(found.reduce((a, b) => a + b, 0) - 1) < 0.1, words);
});

test('where the edge was: not yet at the holes, along the line, past the innermost, or not known', () => {
  assert.match(edgeAt(line!, 9000), /^not yet at the holes \(0\.98\)$/);
  // (7600 − 5200) / 6 = 400 m.
  assert.equal(edgeAt(line!, 5200), '400 m along the line (95 %: 370–430 m)');
  assert.match(edgeAt(line!, 1000), /^past T4 \(0\.98\)$/);
  const unknown = {
    ...line!,
    edge: {
      ...line!.edge!,
      between: line!.edge!.between.map(() => 0.1),
      inside_of_all: line!.edge!.between.map(() => 0),
    },
  };
  assert.equal(edgeAt(unknown, 3000), 'not known');
  assert.equal(edgeAt({ ...line!, edge: null }, 3000), 'no edge');
});
