/** Ages across the holes, measured on the SVG: one scale of elevation, the hole before in each panel, nothing over another. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Results } from '@stillstand/campaign/results';
import { oneHole } from './fixtures/column.ts';
import {
  cliffSection,
  sectionOfLongNames,
  sectionOfSixty,
  sectionOfTwentyFour,
  sectionToScale,
} from './fixtures/much.ts';
import { type Measured, measured, textsKeepTo } from './fixtures/on-paper.ts';
import { tied, unhung } from './fixtures/section.ts';
import { agesAcrossFigure, figuresOf } from './index.ts';

const CAMPAIGNS: Record<string, Results> = {
  tied,
  'to scale': sectionToScale,
  'long names': sectionOfLongNames,
  'twenty-four': sectionOfTwentyFour,
  sixty: sectionOfSixty,
  cliff: cliffSection,
  unhung,
};

const number = (text: string): number => Number(text.replaceAll(',', '').replace('−', '-'));
const inPanel = (all: readonly Measured[], hole: string): Measured[] =>
  all.filter((each) => each.in.includes(`across-${hole}`));
const middle = (t: Measured): number => (t.y1 + t.y2) / 2;

/** Elevation to y, from the labels of the first staff. */
function staffOf(texts: readonly Measured[]): (elevation_m: number) => number {
  const labels = texts.filter(
    ({ text, x1, in: groups }) => groups.length === 0 && x1 < 30 && /^[+−]?\d/.test(text),
  );
  const [a, b] = [labels[0]!, labels[1]!];
  const k = (middle(b) - middle(a)) / (number(b.text) - number(a.text));
  return (elevation_m) => middle(a) + (elevation_m - number(a.text)) * k;
}

for (const [name, results, width_mm] of Object.entries(CAMPAIGNS).flatMap(([key, of]) =>
  [190, 140, 90].map((mm) => [key, of, mm] as const),
)) {
  test(`ages across, ${name}, ${width_mm} mm: no text over another, none under 7 pt or off the paper`, () => {
    for (const journal of [false, true]) {
      const { svg } = agesAcrossFigure(results, { width_mm, journal, grey: journal });
      textsKeepTo(svg);
    }
  });
}

test('an age stands on its elevation, and again as a range in the next hole at the same height', () => {
  const { svg } = agesAcrossFigure(tied);
  const { texts, paths } = measured(svg);
  const y = staffOf(texts);
  const at = (sample: string): number => y(tied.samples.find((s) => s.sample === sample)!.elevation_m!.value);
  // T1 is the first along the section, T2 the second; T1-1 and T1-2 are in use.
  const [first, second] = ['T1', 'T2'].map((hole) => tied.holes.find((h) => h.hole === hole)!.row_id);
  const near = (found: readonly number[]): void => {
    assert.equal(found.length, 2);
    for (const [i, sample] of ['T1-1', 'T1-2'].entries())
      assert.ok(Math.abs(found[i]! - at(sample)) < 0.6, `${sample} at ${found[i]}, expected ${at(sample)}`);
  };
  const bases = inPanel(paths, first!).filter(({ attributes }) => attributes['stroke-width'] === '0.9');
  near(bases.map(({ y1 }) => y1));
  const ranges = inPanel(paths, second!).at(-1)!;
  near(ranges.strokes.filter(([a, b]) => a![1] === b![1]).map(([from]) => from![1]));
  assert.equal(inPanel(paths, first!).at(-1)!.strokes.length, 1, 'nothing stands before the first hole');
});

test('a correlated contact lies level across two neighbours, at the base of its unit in each', () => {
  const { svg, caption } = agesAcrossFigure(tied);
  const { texts, paths } = measured(svg);
  const y = staffOf(texts);
  const [line] = paths.filter(({ in: groups }) => groups.includes('across-horizons'));
  // T1 unit 3 ends 4.1 m under a ground of 1.12 m, T2 unit 4 7.0 m under one of 1.31 m.
  const [a, b, c, d] = line!.vertices.map(([, height]) => height);
  for (const [found, elevation_m] of [
    [a, 1.12 - 4.1],
    [b, 1.12 - 4.1],
    [c, 1.31 - 7],
    [d, 1.31 - 7],
  ] as const)
    assert.ok(Math.abs(found! - y(elevation_m)) < 0.6, `${found} for ${elevation_m} m`);
  assert.match(caption, /Lines across: contacts correlated between neighbours/);
  assert.match(caption, /Left out, without an age in use at a known elevation: T4\./);
});

test('it is drawn of two dated holes or more, and of no fewer', () => {
  const names = (results: Results) => figuresOf(results, {}).map(({ name }) => name);
  assert.ok(names(tied).includes('ages-across'));
  assert.ok(!names(oneHole).includes('ages-across'));
  const rejected = {
    ...tied,
    dates: tied.dates.map((d) => (d.hole === 'T1' ? d : { ...d, status: 'rejected' as const })),
  };
  assert.ok(!names(rejected).includes('ages-across'));
});

test('a paper too narrow for its holes says so', () => {
  const narrow = (width_mm: number) =>
    agesAcrossFigure(sectionOfTwentyFour, { width_mm }).warnings.filter((words) =>
      words.startsWith('Narrow'),
    );
  assert.deepEqual(narrow(190), []);
  assert.match(narrow(90)[0]!, /^Narrow: higher than a page; whole from 1\d\d mm wide$/);
});
