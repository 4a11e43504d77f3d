import assert from 'node:assert/strict';
import { test } from 'node:test';
import fc from 'fast-check';
import { createElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { AgeDensity, isMarine, outline } from './age-density.tsx';
import { coreSymbols } from './core-symbol.tsx';
import { r2, wave } from './path.ts';
import { covered, overlaps, placeAlong, placeBeside, type Rect } from './place.ts';
import { multiples, roundLength, roundStep, scale } from './scale.ts';
import { sedimentOf, sedimentOfUnit } from './sediment.ts';
import { staffStep } from './staff.tsx';
import { firstLines, shortened, textWidth, wrapped } from './text.tsx';

/** Points of paper. */
const PAPER = 1e-6;

test('coordinates are rounded to 0.01 and never −0', () => {
  assert.equal(r2(1.005 + 1e-9), 1.01);
  assert.ok(Object.is(r2(-0.001), 0));
  assert.match(wave(0, 20, 0, 4, 1), /^M0 0(q[\d.-]+ [\d.-]+ [\d.-]+ 0){5}$/);
});

test('steps of a scale are 1, 2 or 5 times a power of ten, and its multiples lie inside', () => {
  assert.deepEqual([0.011, 0.3, 1, 1.01, 7, 240].map(roundStep), [0.02, 0.5, 1, 2, 10, 500]);
  assert.deepEqual(
    multiples(-0.25, 0.21, 0.1),
    [-0.2, -0.1, 0, 0.1, 0.2].map((x) => x + 0),
  );
  const s = scale(9000, 0, 30, 530);
  assert.equal(s(9000), 30);
  assert.equal(s(0), 530);
});

test('a round length is the longest that is not longer', () => {
  assert.deepEqual([1, 1.9, 2, 4.99, 5, 9, 10, 730].map(roundLength), [1, 1, 2, 2, 5, 5, 10, 500]);
  assert.deepEqual([0.0041, 0.3].map(roundLength), [0.002, 0.2]);
});

test('a staff labels round numbers that are whole numbers of its blocks', () => {
  fc.assert(
    fc.property(fc.double({ min: 0.001, max: 500, noNaN: true }), (k) => {
      const { step, every } = staffStep(k, 12, 30);
      assert.ok(Number.isInteger(every) && every >= 1);
      assert.ok(step * every * k >= 30 - 1e-6);
      const mantissa = String(roundStep(step * every * 0.999)).replace(/[0.]/g, '');
      assert.match(mantissa, /^[125]$/);
    }),
    { seed: 11 },
  );
});

const wishes = fc.array(
  fc.record({
    at: fc.double({ min: -50, max: 250, noNaN: true }),
    size: fc.double({ min: 1, max: 30, noNaN: true }),
  }),
  { maxLength: 30 },
);

test('labels along a line keep their order, never overlap, and stay inside (seed 12)', () => {
  fc.assert(
    fc.property(wishes, (unsorted) => {
      const wanted = [...unsorted].sort((a, b) => a.at - b.at);
      const need = wanted.reduce((sum, w) => sum + w.size, 0);
      const centres = placeAlong(wanted, 0, 200);
      const squeeze = Math.min(1, 200 / Math.max(need, PAPER));
      for (const [i, w] of wanted.entries()) {
        const half = (w.size * squeeze) / 2;
        assert.ok(centres[i]! - half > -PAPER * 100 && centres[i]! + half < 200 + PAPER * 100);
        if (i > 0)
          assert.ok(
            centres[i]! - centres[i - 1]! >= half + (wanted[i - 1]!.size * squeeze) / 2 - PAPER * 100,
          );
      }
    }),
    { seed: 12 },
  );
});

test('labels along a line are as near their wishes as a slow search finds (seed 13)', () => {
  // Slow twin: equal sizes on a half-point lattice, every order-keeping placing of three labels tried.
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 0, max: 20 }), { minLength: 3, maxLength: 3 }), (at) => {
      const wanted = at.sort((a, b) => a - b).map((a) => ({ at: a, size: 4 }));
      const cost = (c: readonly number[]): number =>
        c.reduce((sum, x, i) => sum + (x - wanted[i]!.at) ** 2, 0);
      let best = Number.POSITIVE_INFINITY;
      for (let a = 2; a <= 18; a += 1 / 6) {
        for (let b = a + 4; b <= 18 + PAPER; b += 1 / 6) {
          for (let c = b + 4; c <= 18 + PAPER; c += 1 / 6) best = Math.min(best, cost([a, b, c]));
        }
      }
      assert.ok(cost(placeAlong(wanted, 0, 20)) <= best + 1e-6);
    }),
    { seed: 13, numRuns: 25 },
  );
});

test('a label beside a mark lies inside, off the mark and off everything taken (seed 14)', () => {
  const rect = fc
    .record({
      x: fc.integer({ min: 0, max: 90 }),
      y: fc.integer({ min: 0, max: 90 }),
      w: fc.integer({ min: 2, max: 20 }),
      h: fc.integer({ min: 2, max: 20 }),
    })
    .map(({ x, y, w, h }): Rect => ({ x1: x, y1: y, x2: x + w, y2: y + h }));
  const bounds = { x1: 0, y1: 0, x2: 110, y2: 110 };
  fc.assert(
    fc.property(rect, fc.array(rect, { maxLength: 12 }), (mark, taken) => {
      const place = placeBeside(mark, { width: 14, height: 6 }, bounds, taken);
      if (place === null) return;
      assert.ok(place.x1 >= 0 && place.y1 >= 0 && place.x2 <= 110 && place.y2 <= 110);
      assert.ok(!overlaps(place, mark));
      assert.equal(covered(place, taken), 0);
    }),
    { seed: 14 },
  );
});

test('sediment words find their pattern in any spelling', () => {
  const fgdc = (word: string): number | null => sedimentOf(word).fgdc;
  assert.deepEqual(
    [
      'gravel',
      'Sand, medium',
      'fine_sand',
      'bedded sand',
      'sandy silt',
      'silty clay',
      'rooted clay',
      'PEAT',
      'till',
      'shell bed',
      'sandy gravel',
      'mud',
      'organic mud',
    ].map(fgdc),
    [601, 607, 607, 608, 616, 619, 660, 657, 681, 652, 602, 619, 624],
  );
  assert.equal(sedimentOf('fine sand').grain, 2);
  assert.equal(sedimentOf('coarse sand').grain, 4);
  assert.equal(sedimentOf('ignimbrite').name, 'Ignimbrite');
  assert.equal(sedimentOf('ignimbrite').tint, 'unknown');
  assert.equal(sedimentOfUnit({ sediment: 'clay', secondary_sediment: 'silt' }).name, 'Clay, silty');
  assert.equal(sedimentOfUnit({ sediment: 'peat', secondary_sediment: 'fine sand' }).name, 'Peat, fine sand');
  assert.deepEqual(sedimentOfUnit({ sediment: 'peat', secondary_sediment: 'fine sand' }).glyphs, [
    'tufts',
    'sparse_dots',
  ]);
});

test('what was seen is listed once under one name; nothing is drawn for nothing', () => {
  assert.deepEqual(coreSymbols(['forams', 'foraminifera', 'massive', 'pebbles at the base', 'amber beads']), [
    'foraminifera',
    'pebbles',
    'amber beads',
  ]);
});

test('text is broken, shortened and measured without losing words silently', () => {
  const lines = wrapped('one two three four five six seven', 40);
  assert.equal(lines.join(' '), 'one two three four five six seven');
  assert.ok(lines.every((line) => textWidth(line) <= 40));
  assert.match(firstLines(lines, 1, 40)[0]!, /…$/);
  assert.equal(shortened('short', 100), 'short');
  assert.ok(textWidth(shortened('a long label that will not fit', 50)) <= 50);
  // Figures have equal widths: 632 units of a thousand.
  assert.ok(Math.abs(textWidth('1110', { size: 10 }) - 4 * 6.32) < PAPER);
});

test('an age stands on its line, peaks at its height and ends where the density does', () => {
  const density = new Float64Array(401);
  for (let i = 100; i <= 300; i++) density[i] = 1 - Math.abs(i - 200) / 100;
  const points = outline({ density, from_cal_bp: 5000 }, scale(6000, 4000, 0, 400), 50, 20);
  assert.equal(points[0]![1], 50);
  assert.equal(points.at(-1)![1], 50);
  assert.ok(Math.abs(Math.min(...points.map(([, y]) => y)) - 30) < PAPER);
  const xs = points.map(([x]) => x);
  // 5100 to 5300 cal BP is 180 to 140 points from the left, older first.
  assert.ok(Math.abs(Math.max(...xs) - 180) < 1 && Math.abs(Math.min(...xs) - 140) < 1);
});

test('a density of nothing has no outline', () => {
  assert.deepEqual(outline({ density: new Float64Array(9), from_cal_bp: 0 }, scale(0, 10, 0, 10), 0, 5), []);
});

test('an age is filled between the ends of its ranges and nowhere else; marine carbon is ruled', () => {
  const density = new Float64Array(401);
  for (let i = 100; i <= 300; i++) density[i] = 1 - Math.abs(i - 200) / 100;
  const date = {
    density,
    from_cal_bp: 5000,
    status: 'accepted' as const,
    sets_68: [{ older_cal_bp: 5244, younger_cal_bp: 5156, probability: 0.683 }],
    sets_95: [{ older_cal_bp: 5280, younger_cal_bp: 5120, probability: 0.954 }],
  };
  const x = scale(6000, 4000, 0, 400);
  const drawn = (curve: string) =>
    renderToStaticMarkup(createElement(AgeDensity, { date: { ...date, curve }, x, y: 50, height: 20 }));
  const filled = [...drawn('intcal20').matchAll(/<path d="([^"]+)Z" fill="[^"]+" fill-opacity="[^"]+"/g)].map(
    (m) => [...m[1]!.matchAll(/[ML](-?[\d.]+) (-?[\d.]+)/g)].map((p) => [Number(p[1]), Number(p[2])]),
  );
  // 5280 to 5120 cal BP is 144 to 176 points across, 5244 to 5156 is 151.2 to 168.8; the outline is 11.2 high at its ends
  assert.deepEqual(
    filled.map((part) => [part[0]![0], part.at(-1)![0]]),
    [
      [144, 176],
      [151.2, 168.8],
    ],
  );
  assert.ok(filled.every((part) => part[0]![1] === 50 && part.at(-1)![1] === 50));
  assert.ok(Math.abs(filled[1]![1]![1]! - (50 - 20 * 0.56)) < 0.3);
  assert.doesNotMatch(drawn('marine20'), /fill-opacity="0.17"/);
  // rules every 1.5 points below the peak, each from one flank to the other
  const rules = /<path d="((?:M[\d. ]+L[\d. ]+)+)" stroke/.exec(drawn('marine20'))![1]!;
  assert.equal(rules.split('M').length - 1, 13);
});

test('marine carbon: of Marine20, or of an own curve with a reservoir offset; a mixed date is of the land', () => {
  const of = (curve: string | null, delta_r = 0, delta_r_error = 0) =>
    isMarine({ curve, delta_r, delta_r_error });
  assert.deepEqual([of('marine20'), of('My sea', -120), of('My sea', 0, 40)], [true, true, true]);
  assert.deepEqual([of(null), of('intcal20', -120, 45), of('My air')], [false, false, false]);
});
