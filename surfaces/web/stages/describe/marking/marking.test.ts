import assert from 'node:assert/strict';
import { test } from 'node:test';
import { stripPlace } from '@stillstand/output/photographs';
import fc from 'fast-check';
import { memoryStore } from '../../../store/fixtures/demo.ts';
import { coreWidth } from './core-width.ts';
import { beyondPicture, turnWords } from './facts.ts';
import {
  doubtsOf,
  faultsOf,
  hasMarking,
  type Marking,
  markingCells,
  markingOf,
  nextStep,
  stripOf,
  withMark,
} from './marking.ts';
import { acrossOf, withSide } from './sides.ts';
import { onPicture, onScreen, viewOf, wholeView, zoomedView } from './view.ts';

const CORE = { name: 'run R7', length_m: 0.97 };
const WHOLE = { top_m: 0, bottom_m: 0.97 };
const SIZE = { width_px: 3000, height_px: 1000 };

/** A core that lies left to right: a metre is 2000 px, its zero at x = 200. */
const LYING: Marking = {
  marks: [
    { at: { x_px: 400, y_px: 300 }, depth: '10 cm' },
    { at: { x_px: 2000, y_px: 300 }, depth: '0.90 m' },
  ],
  width: '0.05 m',
  offset: '-7 cm',
};

test('what is read from cells is written as it was, and without a scale every cell is empty', () => {
  const cells = markingCells(LYING);
  assert.deepEqual(cells, {
    mark_1: '10 cm',
    mark_1_x_px: '400',
    mark_1_y_px: '300',
    mark_2: '0.90 m',
    mark_2_x_px: '2000',
    mark_2_y_px: '300',
    strip_width: '0.05 m',
    strip_offset: '-7 cm',
  });
  assert.deepEqual(markingOf(cells), LYING);
  assert.ok(hasMarking(cells));
  assert.ok(!hasMarking(markingCells(null)));
  assert.deepEqual(markingOf({}).marks[0], { at: null, depth: '' });
});

test('a strip lies where a sum by hand puts it; depths that descend along the tape mean the same', () => {
  const strip = stripOf(LYING, WHOLE, {})!;
  const place = stripPlace(strip.mark_1, strip.mark_2)!;
  // 1600 px for 0.80 m.
  assert.equal(place.px_per_m.toFixed(6), '2000.000000');
  // Down the core is right on the picture; to the right of that, with the top up, is up the picture.
  const top = place.toPicture({ along_m: 0, across_m: strip.offset_m });
  assert.deepEqual([Math.round(top.x_px), Math.round(top.y_px)], [200, 440]);
  assert.equal(turnWords(place.down), '90° clockwise');
  const [one, two] = LYING.marks;
  const swapped = stripOf({ ...LYING, marks: [two, one] }, WHOLE, {})!;
  const again = stripPlace(swapped.mark_1, swapped.mark_2)!.toPicture({
    along_m: 0,
    across_m: strip.offset_m,
  });
  assert.deepEqual([Math.round(again.x_px), Math.round(again.y_px)], [200, 440]);
});

test('a picture on its head, and one that stands upright', () => {
  assert.equal(turnWords({ x: 0, y: 1 }), '0°');
  assert.equal(turnWords({ x: 0, y: -1 }), '180° clockwise');
  assert.equal(turnWords({ x: -1, y: 0 }), '90° anticlockwise');
});

test('what is wrong is said where it is, and there is no strip until it is right', () => {
  const wrong = (
    change: (m: Marking) => Marking,
    column: keyof ReturnType<typeof faultsOf>,
    says: RegExp,
  ) => {
    const marking = change(LYING);
    assert.match(faultsOf(marking, {})[column] ?? '', says);
    assert.equal(stripOf(marking, WHOLE, {}), null);
    assert.equal(nextStep(marking, {}), 'Correct the entry that has a message.');
  };
  wrong((m) => withMark(m, 0, { depth: 'ten' }), 'mark_1', /Found “ten”; expected a length with its unit/);
  wrong((m) => withMark(m, 0, { depth: '250 m' }), 'mark_1', /expected/);
  wrong((m) => withMark(m, 1, { depth: '0.1 m' }), 'mark_2', /Mark 1 has the same depth/);
  wrong((m) => withMark(m, 1, { at: m.marks[0].at }), 'places', /Both marks are at one place/);
  wrong((m) => ({ ...m, width: '0 m' }), 'strip_width', /expected/);
  wrong((m) => ({ ...m, offset: '3 m' }), 'strip_offset', /expected/);
});

test('what is wanting is asked for in order, and is not wrong', () => {
  const none = markingOf({});
  assert.deepEqual(Object.values(faultsOf(none, {})), [null, null, null, null, null]);
  assert.match(nextStep(none, {})!, /^Tap the first mark/);
  const one = withMark(none, 0, { at: { x_px: 1, y_px: 1 } });
  assert.match(nextStep(one, {})!, /^Type the depth at mark 1/);
  const two = withMark(one, 0, { depth: '0 m' });
  assert.match(nextStep(two, {})!, /^Tap the second mark/);
  const three = withMark(two, 1, { at: { x_px: 1, y_px: 900 } });
  assert.equal(nextStep(three, {}), 'Type the depth at mark 2.');
  const four = withMark(three, 1, { depth: '1 m' });
  assert.equal(nextStep(four, {}), 'Type the width of the core.');
  assert.equal(nextStep({ ...four, width: '5 cm' }, {}), null);
  assert.equal(stripOf({ ...four, width: '5 cm' }, WHOLE, {})?.offset_m, 0);
});

test('a mark below the core is doubted, not refused: a tape may be longer', () => {
  assert.deepEqual(doubtsOf(LYING, null, CORE, SIZE, {}), []);
  const longer = withMark(LYING, 1, { depth: '1.20 m' });
  assert.match(doubtsOf(longer, null, CORE, SIZE, {})[0]!, /^Mark 2, at 1.20 m, is below the end of run R7/);
  assert.notEqual(stripOf(longer, WHOLE, {}), null);
  const off = withMark(LYING, 0, { at: { x_px: 3001, y_px: 300 } });
  assert.match(doubtsOf(off, null, CORE, SIZE, {})[0]!, /^Mark 1 is off the picture/);
});

test('depths in two units make a scale no picture has', () => {
  // 90 m for 0.90 m: 1600 px for 89.9 m.
  const mixed = withMark(LYING, 1, { depth: '90 m' });
  const strip = stripOf(mixed, WHOLE, {});
  assert.match(doubtsOf(mixed, strip, CORE, SIZE, {})[0]!, /^A metre is only 18 px long/);
  assert.deepEqual(doubtsOf(LYING, stripOf(LYING, WHOLE, {}), CORE, SIZE, {}), []);
});

test('core off the picture is said in metres of core', () => {
  assert.equal(beyondPicture(stripOf(LYING, WHOLE, {})!, SIZE), null);
  // The picture ends at 1500 px: (1500 − 200) / 2000 = 0.65 m of the core.
  assert.equal(
    beyondPicture(stripOf(LYING, WHOLE, {})!, { width_px: 1500, height_px: 1000 }),
    '0.32 m of the core runs off the picture: 0.65 m to 0.97 m. It stays blank.',
  );
  assert.match(
    beyondPicture(stripOf(LYING, WHOLE, {})!, { width_px: 3000, height_px: 400 })!,
    /^The core is not on the picture in its whole width/,
  );
});

test('a dragged side goes where it is dragged to within a written step, and the other side stays', () => {
  fc.assert(
    fc.property(
      fc.constantFrom('left' as const, 'right' as const),
      fc.integer({ min: 20, max: 300 }),
      fc.integer({ min: -200, max: 200 }),
      fc.integer({ min: 10, max: 300 }),
      (side, width_mm, offset_mm, reach_mm) => {
        const before = { ...LYING, width: `${width_mm} mm`, offset: `${offset_mm} mm` };
        const strip = stripOf(before, WHOLE, {})!;
        const other = side === 'left' ? 'right' : 'left';
        const fixed_m = acrossOf(strip, other);
        const to_m = fixed_m + (side === 'left' ? -reach_mm : reach_mm) / 1000;
        const after = stripOf(withSide(before, strip, side, to_m, {}), WHOLE, {})!;
        assert.ok(Math.abs(acrossOf(after, other) - fixed_m) < 1e-9);
        assert.ok(Math.abs(acrossOf(after, side) - to_m) < 0.001 + 1e-9);
      },
    ),
  );
  const strip = stripOf(LYING, WHOLE, {})!;
  // Past the other side it stays 5 mm wide, or the step above that.
  const narrow = stripOf(withSide(LYING, strip, 'left', 0.5, {}), WHOLE, {})!;
  assert.ok(narrow.width_m >= 0.004 && narrow.width_m <= 0.006, `${narrow.width_m}`);
  const moved = withSide(LYING, strip, 'middle', 0.1004, {});
  assert.deepEqual([moved.width, moved.offset], ['0.05 m', '0.10 m']);
  assert.equal(withSide(LYING, strip, 'middle', 0.0004, {}).offset, '');
  // A table that writes 3,05 is written in so.
  const comma = { decimal_comma: true };
  const written = withSide({ ...LYING, width: '0,05 m' }, strip, 'middle', -0.125, comma);
  assert.equal(written.offset, '-0,125 m');
});

test('screen and picture are inverse; what is zoomed about stays under the finger', () => {
  const pad = { width: 390, height: 420 };
  const whole = wholeView(SIZE, pad);
  // The wider way fits with 20 px of paper on either side: 350 px for 3000.
  assert.equal(whole.k.toFixed(6), (350 / 3000).toFixed(6));
  const finger = { x: 120, y: 200 };
  const larger = zoomedView(whole, 4, finger, finger, SIZE, pad);
  const under = onPicture(whole, finger);
  const again = onScreen(larger, under);
  assert.ok(Math.abs(again.x - finger.x) < 1e-9 && Math.abs(again.y - finger.y) < 1e-9);
  assert.equal(zoomedView(larger, 1e6, finger, finger, SIZE, pad).k, 8);
  assert.equal(zoomedView(larger, 1e-6, finger, finger, SIZE, pad).k, whole.k / 2);
  const far = viewOf(larger, { x_px: 2990, y_px: 500 }, pad);
  const seen = onScreen(far, { x_px: 2990, y_px: 500 });
  assert.ok(seen.x >= 60 - 1e-9 && seen.x <= pad.width - 60 + 1e-9);
});

test('a core is as wide as the bore of its sampler, until it is measured', () => {
  const row = (cells: Record<string, string>) => ({ row_id: '', cells, line: 0 });
  const store = memoryStore({
    runs: [row({ hole: 'H1', run: 'R1', sampler: 'V52' }), row({ hole: 'H1', run: 'R2' })],
    samplers: [row({ sampler: 'V52', bore_mm: '52' }), row({ bore_mm: '70' })],
  });
  assert.equal(coreWidth(store, 'H1', { basis: 'run', run: 'R1' }, {}), '0.052 m');
  assert.equal(coreWidth(store, 'H1', { basis: 'run', run: 'R1' }, { decimal_comma: true }), '0,052 m');
  assert.equal(coreWidth(store, 'H1', { basis: 'run', run: 'R2' }, {}), '0.05 m');
  assert.equal(coreWidth(store, 'H2', { basis: 'push', run: 'R1' }, {}), '0.05 m');
});
