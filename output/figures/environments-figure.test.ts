/** Lines through time, measured on the SVG: heights are probabilities, ages stand on one axis, later deposits are left off. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Results } from '@stillstand/campaign/results';
import {
  coastAlone,
  coastThroughTime,
  longNamesThroughTime,
  sixAges,
  throughTime,
  twentyFourThroughTime,
  twoLinesThroughTime,
} from './fixtures/environments.ts';
import { demoThroughTime } from './fixtures/environments-demo.ts';
import { type Measured, measured, textsKeepTo } from './fixtures/on-paper.ts';
import { tied } from './fixtures/section.ts';
import { sectioned } from './fixtures/sectioned.ts';
import { environmentsFigure, environmentsLayout, figuresOf } from './index.ts';

const CAMPAIGNS: Record<string, Results> = {
  coast: coastThroughTime,
  'neither curve nor edge': coastAlone,
  'six ages': sixAges,
  'twenty-four': twentyFourThroughTime,
  'long names': longNamesThroughTime,
  demo: demoThroughTime,
};

const figureOf = (results: Results, options = {}) =>
  environmentsFigure(results, results.lines_through_time[0]!, options);
const inGroup = (all: readonly Measured[], id: string): Measured[] =>
  all.filter((each) => each.in.includes(id));

for (const [name, results, width_mm] of Object.entries(CAMPAIGNS).flatMap(([key, of]) =>
  [190, 140, 90, 62].map((mm) => [key, of, mm] as const),
)) {
  test(`environments, ${name}, ${width_mm} mm: no text over another, none under 7 pt or off the paper`, () => {
    for (const journal of [false, true]) {
      const { svg } = figureOf(results, { width_mm, journal, grey: journal });
      textsKeepTo(svg);
    }
  });
}

test('at every age the bands of a hole are as high together as the row, and each as high as it is probable', () => {
  const line = coastThroughTime.lines_through_time[0]!;
  const layout = environmentsLayout(coastThroughTime, line, { width: 520 });
  for (const { bands, y1, y2 } of layout.rows) {
    const of = coastThroughTime.environments.find(({ hole }) => hole === bands.hole)!;
    for (const age of [1000, 2500, 4000]) {
      const x = layout.time(age);
      const heights = new Map(of.spells.map((spell) => [spell, 0]));
      for (const { spell, outline } of bands.bands) {
        // The outline runs forth below and back above.
        const half = outline.length / 2;
        const near = outline.slice(0, half).findIndex(([at]) => Math.abs(at - x) <= 0.61);
        if (near === -1) continue;
        const below = outline[near]![1];
        const above = outline[outline.length - 1 - near]![1];
        heights.set(spell, (heights.get(spell) ?? 0) + below - above);
      }
      const i = of.ages_cal_bp.indexOf(age);
      for (const [spell, height] of heights)
        assert.ok(
          Math.abs(height / (y2 - y1) - spell.probability[i]!) < 0.06,
          `${bands.hole}, ${age}: ${spell.environment ?? spell.kind} ${height / (y2 - y1)}, expected ${spell.probability[i]}`,
        );
      const sum = [...heights.values()].reduce((a, b) => a + b, 0);
      assert.ok(Math.abs(sum / (y2 - y1) - 1) < 0.02, `${bands.hole}, ${age}: ${sum / (y2 - y1)}`);
    }
  }
});

test('passages of the edge stand at their ages on the axis that is labelled, the innermost hole on top', () => {
  const { svg } = figureOf(coastThroughTime);
  const { texts, paths } = measured(svg);
  const number = ({ text }: Measured): number => Number(text.replaceAll(',', ''));
  const labels = texts.filter(({ text }) => /^\d,000$/.test(text)).slice(0, 2);
  const middle = ({ x1, x2 }: Measured): number => (x1 + x2) / 2;
  const k = (middle(labels[1]!) - middle(labels[0]!)) / (number(labels[1]!) - number(labels[0]!));
  const at = (age: number): number => middle(labels[0]!) + (age - number(labels[0]!)) * k;
  const edge = coastThroughTime.lines_through_time[0]!.edge!;
  const triangles = inGroup(paths, 'environments-edge').filter(
    ({ vertices, attributes }) => vertices.length === 3 && attributes['fill'] === '#14110C',
  );
  assert.equal(triangles.length, edge.passages.length);
  for (const [i, { age_cal_bp }] of edge.passages.entries())
    assert.ok(
      Math.abs(middle(triangles[i]!) - at(age_cal_bp.median)) < 0.6,
      `${middle(triangles[i]!)}, expected ${at(age_cal_bp.median)}`,
    );
  const names = inGroup(texts, 'environments-edge').filter(({ text }) => /^T/.test(text));
  assert.equal(names.toSorted((a, b) => a.y1 - b.y1)[0]!.text, edge.innermost);
});

test('the inner end is on top also where a hole beyond it has no ages', () => {
  // T4 is the last along the line; of T1 to T3 the innermost lies nearer to the middle of the line than its ends.
  const part = throughTime(sectioned(tied), { without: ['T3', 'T4'] });
  const layout = environmentsLayout(part, part.lines_through_time[0]!, { width: 520 });
  assert.deepEqual(
    layout.rows.map(({ bands }) => bands.hole),
    ['T2', 'T1'],
  );
  const { holes } = part.sections[0]!;
  const at = (label: string): number => layout.edge!.scale(holes.find(({ hole }) => hole === label)!.along_m);
  assert.ok(at('T2') < at('T1'), 'T2 over T1');
});

test('nothing is drawn over the surface of an age, and water only where the surface lay below the sea', () => {
  const line = coastThroughTime.lines_through_time[0]!;
  const { past } = environmentsLayout(coastThroughTime, line, { width: 520 });
  const { paths } = measured(figureOf(coastThroughTime).svg);
  assert.equal(past!.cells.length, 3);
  for (const [i, { surface, level, water }] of past!.cells.entries()) {
    const top = Math.min(...surface.flatMap(({ from, to }) => [from[1], to[1]]));
    const lowest = Math.max(...surface.flatMap(({ from, to }) => [from[1], to[1]]));
    assert.equal(water.length > 0, lowest > level!.median, `age ${i}`);
    for (const outline of water) {
      for (const [, y] of outline) assert.ok(y >= level!.median - 1e-9, 'no water over the sea');
    }
    assert.ok(top >= 0);
  }
  assert.ok(inGroup(paths, 'environments-past').length > 0);
});

test('an age at which a hole does not reach so far down leaves the section open there', () => {
  const deep = throughTime(sectioned(tied), { ages: [9000, 2000] });
  const line = deep.lines_through_time[0]!;
  const [old, young] = environmentsLayout(deep, line, { width: 520 }).past!.cells;
  const unknown = old!.past.holes.filter(({ drawn_m }) => drawn_m === null);
  assert.ok(unknown.length > 0);
  assert.ok(old!.surface.length < young!.surface.length);
  // Where no hole knows it nothing is drawn under it, and no clip is empty, which some programs take for none.
  const older = throughTime(sectioned(tied), { ages: [20_000, 2000] });
  const { svg } = figureOf(older);
  assert.doesNotMatch(svg, /<clipPath[^>]*><path d=""/);
  assert.ok(!svg.includes('past-1-body') && svg.includes('past-2-body'));
});

test('time that no layer is of is blank and says why; a surface that may have been higher is dashed', () => {
  const line = demoThroughTime.lines_through_time[0]!;
  const layout = environmentsLayout(demoThroughTime, line, { width: 520 });
  const blank = layout.rows.flatMap(({ bands }) => bands.bands.filter(({ sediment }) => sediment === null));
  const names = new Set(blank.map(({ name }) => name));
  for (const name of ['nothing younger', 'not reached', 'gap in the core'])
    assert.ok(names.has(name), `${name}: ${[...names].join(', ')}`);
  // At 8,000 cal BP T2 is in a gap of its core, the others are not; M3 does not reach so far down.
  const [oldest, next] = layout.past!.cells;
  assert.deepEqual(
    oldest!.surface.map(({ isLeast }) => isLeast),
    [true, true, false],
  );
  assert.ok(next!.surface.every(({ isLeast }) => !isLeast));
  const { paths } = measured(figureOf(demoThroughTime).svg);
  const dashed = inGroup(paths, 'environments-past').filter(
    ({ attributes }) => attributes['stroke-dasharray'] === '3.2 2.6',
  );
  assert.equal(dashed[0]!.strokes.length, 2);
});

test('holes at one place, one hole alone, none at all and no section: each is drawn, and no number is none', () => {
  const [line] = coastThroughTime.lines_through_time;
  const { environments, sections } = coastThroughTime;
  const atOnePlace = sections.map((section) => ({
    ...section,
    holes: section.holes.map((each) => ({ ...each, along_m: 0 })),
  }));
  const pastAtOnePlace = line!.past_sections.map((past) => ({
    ...past,
    holes: past.holes.map((each) => ({ ...each, along_m: 0 })),
  }));
  for (const [results, of] of [
    [
      { ...coastThroughTime, sections: atOnePlace },
      { ...line!, past_sections: pastAtOnePlace },
    ],
    [
      { ...coastThroughTime, environments: environments.slice(0, 1) },
      { ...line!, edge: null, past_sections: [] },
    ],
    [{ ...coastThroughTime, environments: [] }, line!],
    [{ ...coastThroughTime, sections: [], curves: [] }, line!],
  ] as const) {
    const { svg, height_mm } = environmentsFigure(results, of);
    assert.doesNotMatch(svg, /NaN|Infinity|undefined/);
    assert.ok(svg.length < 600_000 && height_mm < 270, `${svg.length} bytes, ${height_mm} mm`);
  }
});

test('the caption says how it is read, what is left out and what is not undone', () => {
  const { caption, warnings } = figureOf(coastThroughTime);
  assert.deepEqual(warnings, []);
  for (const words of [
    /the height of a band is its probability/,
    /95 %/,
    /not raised by what has sunk since/,
    /computed apart/,
  ])
    assert.match(caption, words);
  assert.match(figureOf(coastAlone).caption, /Left out, without ages against depth: T2, T3a\./);
  assert.doesNotMatch(figureOf(coastAlone).caption, /edge|curve/);
});

test('ages that have not converged are the first thing said', () => {
  const { environments } = coastThroughTime;
  const open = {
    ...coastThroughTime,
    environments: environments.map((each) => ({ ...each, converged: each.hole === 'T1' })),
  };
  const { warnings, svg } = figureOf(open);
  assert.match(warnings[0]!, /^Not converged: ages against depth of T2, T3, T4; do not use/);
  assert.ok(svg.includes('Not converged: ages against depth of T2, T3, T4'));
});

test('there is one figure to a line with ages, each with a name of its own, and none without', () => {
  const names = (results: Results) =>
    figuresOf(results, {})
      .map(({ name }) => name)
      .filter((name) => name.startsWith('environments'));
  assert.deepEqual(names(twoLinesThroughTime), ['environments-A', 'environments-B']);
  assert.deepEqual(names(coastThroughTime), ['environments']);
  assert.deepEqual(names(tied), []);
});
