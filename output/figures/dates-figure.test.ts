/** Many dates, measured on the SVG: every density seen, no text over another, an age off the axis as an arrow with its years. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { DateResult, Results } from '@stillstand/campaign/results';
import { farOff } from './far.ts';
import { twoHoles } from './fixtures/dates.ts';
import { clusteredDates, farBothEnds, farDate, sixtyDates, sliverDates } from './fixtures/much.ts';
import { type Measured, measured, overlappingTexts } from './fixtures/on-paper.ts';
import { fortyDates } from './fixtures/stress.ts';
import { datesFigure } from './index.ts';

const FIGURES: Record<string, Results> = {
  ten: twoHoles,
  forty: fortyDates,
  sixty: sixtyDates,
  clusters: clusteredDates,
  'one far': farDate,
  'far at both ends': farBothEnds,
  slivers: sliverDates,
};

const yearsOf = (date: DateResult): string => Math.round(date.median_cal_bp).toLocaleString('en-GB');

/** Outlines of accepted dates: the only rounded fine lines. */
const outlines = (paths: readonly Measured[]): Measured[] =>
  paths.filter(({ attributes: a }) => a['stroke-linejoin'] === 'round' && a['stroke-width'] === '0.45');

/** Two columns of a page, as it is drawn where no width is asked for, and narrower. */
const WIDTHS = [190, 140, 90];

for (const [name, results, width_mm] of WIDTHS.flatMap((mm) =>
  Object.entries(FIGURES).map(([key, of]) => [`${key}, ${mm} mm`, of, mm] as const),
)) {
  // A narrow figure's caption is printed apart from it.
  const figure = datesFigure(results, { width_mm, caption: width_mm === 190 });
  const { texts, paths } = measured(figure.svg);
  const staff = texts.filter(
    ({ attributes: a, text }) => a['text-anchor'] === 'middle' && /^[\d,]+$/.test(text),
  );
  const plot = Math.min(...paths.filter((p) => p.attributes['stroke'] === '#DCD2BC').map((p) => p.x1));

  test(`dates, ${name}: no text is over another or under 7 pt, and the figure fits a page`, () => {
    assert.deepEqual(overlappingTexts(texts), []);
    assert.deepEqual(
      texts.filter(({ size }) => size < 7).map(({ text }) => text),
      [],
    );
    assert.ok(figure.height_mm <= 260, `${figure.height_mm} mm`);
  });

  test(`dates, ${name}: every density is seen, on its own line, inside the axis`, () => {
    const foot = Math.max(...staff.map(({ y1 }) => y1));
    const drawn = outlines(paths).filter((p) => p.x1 > plot - 3 && p.y1 < foot);
    const accepted = results.dates.filter((d) => d.status === 'accepted').length;
    const far = results === farDate ? 1 : results === farBothEnds ? 2 : 0;
    assert.equal(drawn.length, accepted - far);
    for (const each of drawn) {
      assert.ok(each.y2 - each.y1 > 5.9, `${each.y2 - each.y1} high`);
      assert.ok(each.x2 - each.x1 > 2.4, `${each.x2 - each.x1} wide`);
      assert.ok(each.x1 > plot - 2, `${each.x1}, axis from ${plot}`);
    }
    const lines = drawn.map((d) => [d.y1, d.y2] as const).sort((a, b) => a[0] - b[0]);
    for (const [i, [top]] of lines.entries()) {
      if (i > 0) assert.ok(top > lines[i - 1]![1] - 0.1, 'one density reaches into another’s line');
    }
  });

  test(`dates, ${name}: the axis is not pressed together by one date`, () => {
    const numbers = staff.map(({ text }) => Number(text.replaceAll(',', '')));
    if (results === sliverDates) return;
    assert.ok(Math.max(...numbers) <= 10000, `${Math.max(...numbers)} on the axis`);
  });
}

test('a date far older is an arrow at the edge with its age, once there and once among the medians', () => {
  for (const results of [farDate, farBothEnds]) {
    const { svg } = datesFigure(results);
    const far = results.dates.filter((d) => d.median_cal_bp > 20000 || d.median_cal_bp < 100);
    const { texts } = measured(svg);
    for (const date of far) {
      assert.equal(texts.filter(({ text }) => text === yearsOf(date)).length, 2, yearsOf(date));
    }
    assert.match(svg, far.length === 1 ? />.*1 age lies beyond the axis/ : />.*2 ages lie beyond the axis/);
  }
  assert.doesNotMatch(datesFigure(twoHoles).svg, /beyond the axis/);
});

test('ages are left off an axis only where the others would be pressed together, and at most an eighth of them', () => {
  const ages = (...medians: number[]) =>
    medians.map((m) => ({ older_cal_bp: m + 50, younger_cal_bp: m - 50 }));
  const off = (...medians: number[]): number[] =>
    farOff(ages(...medians)).flatMap((is, i) => (is ? [medians[i]!] : []));
  // Span with it 40,100 − 950 = 39,150 yr; without it 6,050 − 950 = 5,100 yr, an eighth.
  assert.deepEqual(off(1000, 2000, 40050, 3000, 4000, 5000, 6000), [40050]);
  // 9,050 − 950 = 8,100 and 6,050 − 950 = 5,100: a Holocene section with one older age.
  assert.deepEqual(off(1000, 2000, 9000, 3000, 4000, 5000, 6000), []);
  assert.deepEqual(off(1000, 2000, 40000), [], 'of three none is the exception');
  // Three clusters of equal size.
  assert.deepEqual(off(1000, 1010, 1020, 20000, 20010, 20020, 40000, 40010, 40020), []);
  assert.deepEqual(off(10, 7400, 7410, 7420, 7430, 7440, 7450, 40000), [10, 40000]);
});
