/** Choices of the export as typed, and as a device kept them. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { isTaken, keptChoices, optionsOf, withTaken } from './choices.ts';

const first = keptChoices(null);

test('at first a column of a journal is chosen, and nothing is at fault', () => {
  const { options, faults } = optionsOf(first);
  assert.deepEqual(faults, {});
  assert.equal(options.width_mm, 90);
  assert.equal(options.journal, true);
});

test('a typed width is taken from 60 to 250 mm, with a comma too; another is named and leaves the figure its own', () => {
  assert.equal(optionsOf({ ...first, width: 'typed', typed: '118,5' }).options.width_mm, 118.5);
  for (const typed of ['59', '251', 'wide', '']) {
    const { options, faults } = optionsOf({ ...first, width: 'typed', typed });
    assert.equal(options.width_mm, undefined);
    assert.match(faults.typed!, /Expected a width of 60 to 250 mm/);
  }
});

test('limits are read with a true minus; what cannot be read or leaves nothing is named', () => {
  const read = optionsOf({ ...first, lowest: '−12,5', highest: '2', oldest: '9000' });
  assert.deepEqual(
    [read.options.axes?.lowest_m, read.options.axes?.highest_m, read.options.axes?.oldest_cal_bp],
    [-12.5, 2, 9000],
  );
  assert.match(optionsOf({ ...first, oldest: 'old' }).faults.oldest!, /Found “old”/);
  const { options, faults } = optionsOf({ ...first, lowest: '2', highest: '1' });
  assert.match(faults.axes!, /^Levels of the curve: expected the highest above the lowest/);
  assert.equal(options.axes?.lowest_m, undefined);
});

test('what a device kept is taken where it is still a choice', () => {
  for (const text of ['', '{', '[]', '7', 'null'])
    assert.deepEqual(keptChoices(text || null), keptChoices(null));
  const kept = keptChoices(
    JSON.stringify({ width: '140', formats: ['png', 'tiff'], grey: true, ages: 'ad', leftOut: ['curve', 7] }),
  );
  assert.deepEqual(
    [kept.width, kept.formats, kept.grey, kept.ages, kept.leftOut],
    ['140', ['png'], true, 'bp', ['curve']],
  );
});

test('a figure that comes later is exported where all were, and not where some were chosen from none', () => {
  const all = keptChoices(null);
  const without = withTaken(all, 'curve', false);
  assert.deepEqual([isTaken(without, 'curve'), isTaken(without, 'budget of a later point')], [false, true]);
  assert.equal(isTaken(withTaken(without, 'curve', true), 'curve'), true);
  const some = withTaken({ only: [], leftOut: [] }, 'curve', true);
  assert.deepEqual([isTaken(some, 'curve'), isTaken(some, 'budget of a later point')], [true, false]);
  assert.deepEqual(keptChoices(JSON.stringify(some)).only, ['curve']);
  assert.equal(isTaken(withTaken(some, 'curve', false), 'curve'), false);
});
