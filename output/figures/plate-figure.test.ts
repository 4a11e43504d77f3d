/** The summary plate, measured on its SVG: one page, nothing over another, a map to scale, and what is not there said. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Results } from '@stillstand/campaign/results';
import { sectionThrough } from '@stillstand/science/survey';
import { COAST } from './fixtures/coast.ts';
import { type Measured, measured, overlappingTexts, runsThrough } from './fixtures/on-paper.ts';
import {
  plate,
  plateInPart,
  plateNotConverged,
  plateOfMuch,
  plateOfOneHole,
  plateOfSixty,
  plateOfThree,
  plateOfTwentyFour,
  plateOfTwoCurves,
  plateUnhung,
  plateWithoutCoordinates,
  plateWithoutCurve,
  plateWithoutPoints,
} from './fixtures/plate.ts';
import { hole, results } from './fixtures/results.ts';
import { sectioned } from './fixtures/sectioned.ts';
import { crowdedColumn, crowdedSection, manyParts } from './fixtures/stress.ts';
import { type FigureOptions, figuresOf, plateFigure } from './index.ts';

const PLATES: Record<string, Results> = {
  'five holes': sectioned(plate),
  'five holes, not filled': plate,
  'three holes': sectioned(plateOfThree),
  'twenty-four holes': sectioned(plateOfTwentyFour),
  'sixty holes': sectioned(plateOfSixty),
  'no coordinates': plateWithoutCoordinates,
  'coordinates in part': plateInPart,
  'no curve': plateWithoutCurve,
  'no points': plateWithoutPoints,
  'one hole': plateOfOneHole,
  'two curves': plateOfTwoCurves,
  'no heights': plateUnhung,
  'not converged': plateNotConverged,
  'unlike holes': sectioned(crowdedSection),
  'much of everything': sectioned(plateOfMuch),
};

const FORMS: Record<string, FigureOptions> = {
  'as it is': {},
  'for a journal, grey': { journal: true, grey: true },
  '140 mm': { width_mm: 140 },
  '90 mm': { width_mm: 90 },
  '250 mm, ages in CE': { width_mm: 250, axes: { ages: 'ce', older: 'right' } },
};

const inGroup = (all: readonly Measured[], id: string): Measured[] =>
  all.filter((each) => each.in.includes(id));

for (const [name, of, options] of Object.entries(FORMS).flatMap(([form, asked]) =>
  Object.entries(PLATES).map(([key, from]) => [`${key}, ${form}`, from, asked] as const),
)) {
  test(`plate, ${name}: type and lines of a journal, no text over another or off the paper, one page`, () => {
    const { svg, height_mm, warnings } = plateFigure(of, options);
    const { texts, paths } = measured(svg);
    assert.deepEqual(overlappingTexts(texts), []);
    const [, width, height] = /viewBox="0 0 ([\d.]+) ([\d.]+)/.exec(svg)!.map(Number);
    for (const { text, size, x1, x2, y1, y2 } of texts) {
      assert.ok(size >= 7, text);
      assert.ok(x1 >= 0 && x2 <= width! + 0.5 && y1 >= 0 && y2 <= height!, text);
    }
    // Arcs of the patterns, which are clipped, are not measured.
    for (const { y1, y2 } of paths.filter((path) => Number.isFinite(path.y1)))
      assert.ok(y1 >= 0 && y2 <= height!, `a line from ${y1} to ${y2}, off the paper`);
    for (const [, line] of svg.matchAll(/stroke-width="([^"]+)"/g)) assert.ok(Number(line) >= 0.35, line);
    assert.doesNotMatch(svg, /NaN|Infinity|undefined/);
    const narrow = warnings.filter((words) => words.startsWith('Narrow: made for 190 mm'));
    if ((options.width_mm ?? 190) < 190) assert.equal(narrow.length, 1);
    else {
      assert.deepEqual(narrow, []);
      assert.ok(height_mm <= 240, `${height_mm} mm high`);
    }
  });

  test(`plate, ${name}: no lead of the map and no mark of a hole runs through a name of it`, () => {
    const { texts, paths } = measured(plateFigure(of, options).svg);
    const names = inGroup(texts, 'plate-holes').filter(({ text }) => text !== 'A' && text !== 'B');
    const marks = inGroup(paths, 'plate-holes').flatMap(({ strokes }) => strokes);
    for (const each of names) {
      const inside = { ...each, x1: each.x1 + 0.3, x2: each.x2 - 0.3, y1: each.y1 + 0.3, y2: each.y2 - 0.3 };
      assert.ok(!marks.some((stroke) => runsThrough(stroke, inside)), `a line runs through ${each.text}`);
    }
  });
}

/** Rings of the map in the order of its holes, and points of paper to a metre, from the scale bar. */
function onMap(of: Results) {
  const { svg } = plateFigure(of, { journal: true });
  const map = svg.slice(svg.indexOf('<g id="plate-map">'), svg.indexOf('<g id="plate-counts">'));
  const rings = [...map.matchAll(/<circle cx="([\d.]+)" cy="([\d.]+)"/g)].map(([, x, y]) => [
    Number(x),
    Number(y),
  ]);
  const { texts, paths } = measured(svg);
  const label = inGroup(texts, 'plate-map').find(({ text }) => /^[\d.,]+ k?m$/.test(text))!;
  const length = Number(label.text.replace(/[^\d.]/g, '')) * (label.text.endsWith('km') ? 1000 : 1);
  const blocks = inGroup(paths, 'plate-map').filter(
    (p) => p.y2 < label.y1 && p.y2 > label.y1 - 6 && p.y2 - p.y1 < 4,
  );
  const bar = Math.max(...blocks.map((p) => p.x2)) - Math.min(...blocks.map((p) => p.x1));
  return { rings, per_m: bar / length };
}

test('the map is to the scale of its bar: a degree is 111,132 m of latitude and 78,847 m of longitude at 45°', () => {
  // Lengths of a degree on WGS 84 at 45°, as tables of geodesy print them.
  const at = (label: string, north: number, east: number) =>
    hole(label, { latitude_deg: 45 + north, longitude_deg: 170 + east });
  const of = { ...plateUnhung, holes: [at('A1', 0, 0), at('A2', 0.004, 0), at('A3', 0, 0.006)] };
  const { rings, per_m } = onMap(of);
  const [a, b, c] = rings as [number[], number[], number[]];
  const near = (found: number, metres: number): void =>
    assert.ok(Math.abs(found / per_m - metres) / metres < 0.005, `${found / per_m} m, expected ${metres}`);
  near(a[1]! - b[1]!, 0.004 * 111_132);
  near(c[0]! - a[0]!, 0.006 * 78_847);
  assert.ok(Math.abs(a[0]! - b[0]!) < 0.1 && Math.abs(a[1]! - c[1]!) < 0.1, 'north is up');
});

test('a map over the date line is one map, not one round the Earth', () => {
  const at = (label: string, longitude_deg: number) => hole(label, { latitude_deg: 45, longitude_deg });
  const { rings, per_m } = onMap({ ...plateUnhung, holes: [at('A1', 179.998), at('A2', -179.997)] });
  const across = (rings[1]![0]! - rings[0]![0]!) / per_m;
  assert.ok(Math.abs(across - 0.005 * 78_847) < 2, `${across} m`);
});

test('every hole lies as far off the line of the section as it does on the ground', () => {
  const of = plateOfThree;
  const places = sectionThrough(
    of.holes.map((h) => ({ latitude_deg: h.latitude_deg!, longitude_deg: h.longitude_deg! })),
  );
  const hung = { ...of, holes: of.holes.map((h, i) => ({ ...h, section_m: places[i]!.along_m })) };
  const { svg } = plateFigure(hung, { journal: true });
  const { rings, per_m } = onMap(hung);
  const line = inGroup(measured(svg).paths, 'plate-map').find(
    ({ attributes: a, vertices }) => a['stroke-dasharray'] === '3.5 2' && vertices.length === 2,
  )!;
  const [[x1, y1], [x2, y2]] = line.vertices.map(([x, y]) => [x - 6, y - 6 - 14]) as [
    [number, number],
    [number, number],
  ];
  const length = Math.hypot(x2 - x1, y2 - y1);
  for (const [i, [x, y]] of rings.entries()) {
    const off = ((x2 - x1) * (y! - y1) - (y2 - y1) * (x! - x1)) / length / per_m;
    assert.ok(Math.abs(off - places[i]!.offset_m) < 1, `${off} m, expected ${places[i]!.offset_m}`);
  }
});

const wordsOf = (of: Results, options: FigureOptions = {}): string[] =>
  measured(plateFigure(of, options).svg).texts.map(({ text }) => text);

test('the numbers are sums by hand', () => {
  // T1 1.4 + 2.2 + 0.5 + 0.9 + 1.1 = 6.1; T2 0.9 + 2.6 + 2.9 + 0.6 + 0.7 + 1.4 = 9.1; T4 2.2 + 3.4 + 2.1 + 3.2 + 1.6 = 12.5.
  const words = wordsOf(plateOfThree);
  assert.ok(words.includes('3 drilled'));
  assert.ok(words.includes('27.7 m'));
  // The runs of the fixture recover 0.84 of each: 23.268 m.
  assert.ok(words.includes('23.3 m (84 %)'));
  // Five of T3, four of T1 and T2, sixteen of index points; one of T3 and that of T4 are rejected.
  assert.ok(words.includes('25 used, 2 not used'));
  const lost = wordsOf(plate);
  // T3a 6.2 m, T3 14.3 m.
  assert.ok(lost.includes('5 drilled, 1 of them lost'));
  assert.ok(lost.includes('48.2 m'));
  assert.ok(lost.some((each) => each.endsWith('in 4 holes)')));
  assert.ok(wordsOf(plateWithoutCurve).includes('none could be computed'));
  // However long the names before it: whether the curve is to be used is whole.
  assert.ok(wordsOf(plateOfMuch).some((each) => each.startsWith('converged, R-hat')));
  assert.ok(wordsOf(plateNotConverged).some((each) => each.startsWith('not converged: do not use')));
});

test('panels are lettered as they are read, and the caption goes through the same letters', () => {
  for (const of of Object.values(PLATES)) {
    const { caption } = plateFigure(of);
    const drawn = wordsOf(of).flatMap((words) => /^\(([a-e])\) /.exec(words)?.[1] ?? []);
    assert.equal(drawn.join(''), 'abcde'.slice(0, drawn.length));
    const said = [...caption.matchAll(/\(([a-e])(?:, ([a-e]))?\)/g)].flatMap(([, a, b]) => [
      a!,
      ...(b === undefined ? [] : [b]),
    ]);
    assert.deepEqual(said, drawn);
  }
});

test('what is not there is named with its reason, and nothing else is', () => {
  const absent = (of: Results): string =>
    /Not drawn: ((?:map|sea level|rate|section)[^.]*\.)/.exec(plateFigure(of).caption)?.[1] ?? '';
  assert.equal(absent(plate), '');
  assert.equal(absent(plateWithoutCoordinates), 'map (no hole has coordinates).');
  assert.equal(absent(plateWithoutCurve), 'rate (no curve could be computed).');
  assert.equal(absent(plateWithoutPoints), 'sea level and rate (there are no points).');
  assert.equal(absent(plateUnhung), 'section (no hole has a height to be hung at).');
  assert.equal(
    absent(plateOfOneHole),
    'map (only one hole has coordinates); section (only one hole has a height to be hung at).',
  );
  assert.match(plateFigure(plateInPart).caption, /Without coordinates, not on the map: T1, T2\./);
});

test('coast and grounds on the map are in the caption, and nothing is said of them where there are none', () => {
  const words = /Solid line: coast; hachures on the side of the sea\. Dotted: named grounds\./;
  assert.match(plateFigure(plate, { shapes: COAST }).caption, words);
  assert.doesNotMatch(plateFigure(plate).caption, /coast|grounds/);
});

test('of several curves that of the report is drawn; the caption says of which sites, and where the others are', () => {
  const { caption } = plateFigure(plateOfTwoCurves);
  assert.match(
    caption,
    /The curve of the report, of Spit; each other curve has a figure of its own: lagoon \(Lagoon\)\./,
  );
  assert.ok(wordsOf(plateOfTwoCurves).includes('1, not in this plate'));
  assert.doesNotMatch(plateFigure(plate).caption, /figure of its own/);
});

test('what warns of the curve and of the section warns on the plate, in a journal’s form first in the caption', () => {
  const { warnings, svg } = plateFigure(plateNotConverged);
  assert.match(warnings[0]!, /^Not converged: the hatched bands and rates are not to be used/);
  assert.ok(svg.includes(warnings[0]!));
  const journal = plateFigure(plateNotConverged, { journal: true });
  assert.ok(journal.caption.startsWith(warnings[0]!));
  // The caption is never on the page.
  assert.doesNotMatch(svg.split('</desc>')[1]!, /Summary of the campaign/);
});

test('every campaign with holes and something to draw has a plate, last of its figures', () => {
  const names = (of: Results): string[] => figuresOf(of, {}).map(({ name }) => name);
  assert.equal(names(plate).at(-1), 'plate');
  for (const of of Object.values(PLATES)) assert.ok(names(of).includes('plate'));
  for (const other of [results({}), crowdedColumn, manyParts, { ...plateWithoutPoints, holes: [] }])
    assert.ok(!names(other).includes('plate'));
});

test('places that are none, at a pole, or all one, still leave a map or say that there is none', () => {
  const at = (label: string, latitude_deg: number, longitude_deg: number) =>
    hole(label, { latitude_deg, longitude_deg });
  for (const holes of [
    [at('P1', 90, 0), at('P2', 89.99, 120)],
    [at('P1', -90, 0), at('P2', -90, 0)],
    [at('P1', 10, 20), at('P2', 10, 20), at('P3', 10, 20)],
    [at('P1', 0, 0), at('P2', 0, 180)],
    [at('P1', 60, -170), at('P2', -60, 10)],
  ])
    assert.doesNotMatch(plateFigure({ ...plate, holes }).svg, /NaN|Infinity/);
  const none = plateFigure({ ...plate, holes: [at('P1', 91, 0), at('P2', Number.NaN, 0), at('P3', 1, 1)] });
  assert.match(none.caption, /map \(only one hole has coordinates\)/);
});
