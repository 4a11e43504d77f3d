/** Curves of many points, measured on the SVG: no text over another, the legend over nothing, every date at the foot seen. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Results } from '@stillstand/campaign/results';
import type { Rect } from '@stillstand/output/drawing';
import {
  disagreeingPoints,
  notConverged,
  pointsAlone,
  seaLevel,
  severalSites,
  withGauge,
} from './fixtures/curve.ts';
import { clusteredPoints, farPoint, noFreeCorner, twoHundredPoints } from './fixtures/much.ts';
import { type Measured, measured, overlappingTexts, runsThrough } from './fixtures/on-paper.ts';
import { fallingSea, sixtyPoints } from './fixtures/stress.ts';
import { curveFigure, curveLayout, type FigureOptions } from './index.ts';

const CURVES: Record<string, Results> = {
  'two dozen points': seaLevel,
  sixty: sixtyPoints,
  'two hundred': twoHundredPoints,
  clusters: clusteredPoints,
  'one far': farPoint,
  'no free corner': noFreeCorner,
  'a falling sea': fallingSea,
  'a gauge': withGauge,
  disagreeing: disagreeingPoints,
  'not converged': notConverged,
  'points alone': pointsAlone,
};

const over = (a: Rect, b: Rect): boolean => a.x1 < b.x2 && b.x1 < a.x2 && a.y1 < b.y2 && b.y1 < a.y2;
const around = (all: readonly Rect[]): Rect => ({
  x1: Math.min(...all.map((r) => r.x1)),
  x2: Math.max(...all.map((r) => r.x2)),
  y1: Math.min(...all.map((r) => r.y1)),
  y2: Math.max(...all.map((r) => r.y2)),
});
const inGroup = (all: readonly Measured[], id: string): Measured[] =>
  all.filter((each) => each.in.includes(id));

/** As it is drawn where nothing is asked for, at a narrower width, and with the axes another way. */
const FORMS: Record<string, FigureOptions> = {
  'two columns': {},
  '140 mm, grey': { width_mm: 140, grey: true },
  '90 mm': { width_mm: 90 },
  'older at the right, in CE': { axes: { older: 'right', ages: 'ce', rates: 'cm/century' } },
};

for (const [name, results, options] of Object.entries(FORMS).flatMap(([form, asked]) =>
  Object.entries(CURVES).map(([key, of]) => [`${key}, ${form}`, of, asked] as const),
)) {
  const { svg } = curveFigure(results, options);
  const { texts, paths } = measured(svg);

  test(`curve, ${name}: no text is over another or under 7 pt`, () => {
    assert.deepEqual(overlappingTexts(texts), []);
    assert.deepEqual(
      texts.filter(({ size }) => size < 7).map(({ text }) => text),
      [],
    );
  });

  test(`curve, ${name}: the legend covers no mark, no name and nothing of the band`, () => {
    const legend = around([...inGroup(texts, 'curve-legend'), ...inGroup(paths, 'curve-legend')]);
    const marks = inGroup(paths, 'curve-marks');
    assert.ok(marks.length >= results.points.length - 1);
    const covered = marks.filter((mark) => over(mark, legend));
    assert.equal(covered.length, 0, `${covered.length} marks under the legend`);
    // Edges of the bands: dotted where 95 %, in the sea's colour.
    const band = paths.filter((p) => p.in.length === 0 && p.attributes['stroke-dasharray'] === '0.01 1.8');
    for (const edge of band.flatMap(({ strokes }) => strokes))
      assert.ok(!runsThrough(edge, legend), 'the band runs under the legend');
    for (const date of inGroup(paths, 'curve-dates'))
      assert.ok(!over(date, legend), 'a date under the legend');
  });
}

test('no name of a point stands over a cross of the literature, at any width', () => {
  // 29 November 2026: of the names of `severalSites` some were crossed through.
  for (const options of [...Object.values(FORMS), { width_mm: 250 }]) {
    const { texts, paths } = measured(curveFigure(severalSites, options).svg);
    const crosses = inGroup(paths, 'curve-published').flatMap(({ strokes }) => strokes);
    assert.ok(crosses.length >= 40);
    const names = texts.filter(({ text }) => severalSites.points.some(({ point }) => point === text));
    assert.ok(names.length > 3);
    for (const name of names)
      assert.ok(!crosses.some((cross) => runsThrough(cross, name)), `a cross runs through ${name.text}`);
  }
});

test('densities at the foot stand on lines of their own, none over another, and none is a hair', () => {
  for (const results of [seaLevel, farPoint]) {
    const { paths } = measured(curveFigure(results).svg);
    const outlines = inGroup(paths, 'curve-dates').filter((p) => p.attributes['stroke-linejoin'] === 'round');
    assert.ok(outlines.length > 10);
    for (const [i, a] of outlines.entries()) {
      assert.ok(a.y2 - a.y1 > 3.5 && a.x2 - a.x1 > 2.4, `${a.y2 - a.y1} high, ${a.x2 - a.x1} wide`);
      for (const b of outlines.slice(i + 1)) assert.ok(!over(a, b), 'one density over another');
    }
    const bases = inGroup(paths, 'curve-dates').filter((p) => p.attributes['stroke-width'] === '0.9');
    for (const [i, a] of bases.entries()) {
      for (const b of bases.slice(i + 1)) {
        assert.ok(!over({ ...a, y2: a.y2 + 1 }, { ...b, y2: b.y2 + 1 }), 'one base runs into another');
      }
    }
  }
});

test('too many for that are a dot each at its median, none over another', () => {
  for (const results of [twoHundredPoints, clusteredPoints, sixtyPoints, noFreeCorner]) {
    const size = { width: 526, level_height: 268, rate_height: 118 };
    const { dates, panels } = curveLayout(results, size);
    if (results.dates.length === 0) continue;
    assert.ok(dates.kind === 'medians');
    assert.equal(dates.dots.length, panels.dates.length);
    for (const [i, a] of dates.dots.entries()) {
      assert.ok(Math.abs(a.x - panels.time(a.date.median_cal_bp)) < 1e-9);
      for (const b of dates.dots.slice(i + 1)) {
        assert.ok(Math.hypot(a.x - b.x, a.up - b.up) > 1.5, 'two dots run together');
      }
    }
  }
});

test('rates that do not fit on one line stand on two; those that fit on neither are said to be in the table', () => {
  const rates = (results: Results): string[] => {
    const { texts } = measured(curveFigure(results).svg);
    return texts.map(({ text }) => text).filter((text) => /^±\d/.test(text));
  };
  assert.equal(rates(seaLevel).length, 0, 'one line each');
  assert.equal(rates(twoHundredPoints).length, 18, 'eighteen intervals of five centuries, all written');
  assert.doesNotMatch(curveFigure(twoHundredPoints).caption, /table of rates/);
  const few = rates(clusteredPoints).length;
  assert.ok(few > 15 && few < 36, `${few} of 36 written`);
  assert.match(curveFigure(clusteredPoints).caption, /Rates without room here are in the table of rates\./);
});

test('a point of 40,000 years among Holocene ones is an arrow with its age, and the axis ends with the others', () => {
  const { svg, caption } = curveFigure(farPoint);
  const { panels } = curveLayout(farPoint, { width: 526, level_height: 268, rate_height: 118 });
  assert.ok(panels.time.from < 9000, `${panels.time.from}`);
  assert.match(svg, />OLD-1, 40,200</);
  assert.match(caption, /OLD-1, 40,200 cal BP: beyond the ages drawn/);
  // Asked for, the axis reaches to it.
  const asked = {
    ...farPoint,
    settings: [{ name: 'curve_oldest_cal_bp', value: '42000', assumed: false }],
    curves: farPoint.curves.map((c) => ({
      ...c,
      curve: { ...c.curve!, ages_cal_bp: c.curve!.ages_cal_bp.map((a) => (a * 42000) / 9200) },
    })),
  };
  const { time } = curveLayout(asked, { width: 526, level_height: 268, rate_height: 118 }).panels;
  assert.ok(time.from > 41000, `${time.from}`);
});

test('a curve that has not converged says so on one line, without the remarks of its diagnostics', () => {
  const many = {
    ...notConverged,
    curves: notConverged.curves.map((c) => ({
      ...c,
      curve: {
        ...c.curve!,
        diagnostics: {
          ...c.curve!.diagnostics,
          remarks: Array.from({ length: 20 }, (_, i) => `R-hat of the level at ${i * 400} cal BP is 1.2`),
        },
      },
    })),
  };
  const { warnings, svg } = curveFigure(many);
  assert.deepEqual(warnings, [
    'Not converged: the hatched bands and rates are not to be used (R-hat 1.310, at least 18 effective draws)',
  ]);
  assert.doesNotMatch(svg, /R-hat of the level/);
  const { texts } = measured(svg);
  assert.equal(texts.filter(({ text }) => /ot converged: (the|R-hat)/.test(text)).length, 1);
  assert.ok(
    texts.some(({ text }) => text === warnings[0]),
    'on one line',
  );
});

test('0 is called what the datum is called, and never a mean sea level that it is not', () => {
  for (const kind of ['tidal', 'orthometric', 'ellipsoidal', 'local', null] as const) {
    const svg = curveFigure({ ...seaLevel, datum: { label: 'Quay zero', kind, epoch: null } }).svg;
    assert.doesNotMatch(svg, /mean sea level/i);
    assert.match(svg, />0 = Quay zero</);
  }
});
