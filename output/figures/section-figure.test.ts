/** A section of many holes, measured on its SVG: names whole, ages under the ground, an exaggeration only where it is true. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Results } from '@stillstand/campaign/results';
import { INKS, isWithin, sedimentOfUnit } from '@stillstand/output/drawing';
import {
  cliffSection,
  sectionOfLongNames,
  sectionOfSixty,
  sectionOfTwentyFour,
  sectionToScale,
} from './fixtures/much.ts';
import { type Measured, measured, overlappingTexts, runsThrough } from './fixtures/on-paper.ts';
import { section, tied, unhung } from './fixtures/section.ts';
import { sectioned, sectionOf } from './fixtures/sectioned.ts';
import { crowdedSection } from './fixtures/stress.ts';
import { figuresOf, sectionFigure } from './index.ts';
import { outside } from './section/ties.tsx';

/** Lines of one age that cross most of the fixtures. */
const AGES = { ages_cal_bp: [1000, 2000, 3000, 4000] };
const SECTIONS: Record<string, Results> = {
  five: sectioned(section, AGES),
  'five, tied': sectioned(tied, AGES),
  'five, not filled': tied,
  'to scale': sectioned(sectionToScale, AGES),
  'to scale, tied': sectioned(manyTies(sectionToScale), AGES),
  'long names': sectioned(sectionOfLongNames, AGES),
  sixty: sectioned(sectionOfSixty, AGES),
  'twenty-four': sectioned(sectionOfTwentyFour, AGES),
  'twenty-four, tied': sectioned(manyTies(sectionOfTwentyFour), AGES),
  cliff: sectioned(cliffSection, AGES),
  crowded: sectioned(crowdedSection, AGES),
  unhung: sectioned(unhung, AGES),
};

const inGroup = (all: readonly Measured[], id: string): Measured[] =>
  all.filter((each) => each.in.some((group) => group.startsWith(id)));

const middle = (t: Measured): number => (t.x1 + t.x2) / 2;
const number = (text: string): number => Number(text.replaceAll(',', '').replace('−', '-'));

/** Points of paper to a unit, from the first and the last label of a staff. */
function perUnit(labels: readonly Measured[], at: (label: Measured) => number): number {
  const [a, b] = [labels[0]!, labels.at(-1)!];
  return Math.abs((at(b) - at(a)) / (number(b.text) - number(a.text)));
}

/** Two columns of a page, as it is drawn where no width is asked for, and narrower. */
const WIDTHS = [190, 140, 90];

for (const [name, results, width_mm] of WIDTHS.flatMap((mm) =>
  Object.entries(SECTIONS).map(([key, of]) => [`${key}, ${mm} mm`, of, mm] as const),
)) {
  const { svg, warnings } = sectionFigure(results, { width_mm });
  const { texts, paths } = measured(svg);
  const drawn = results.holes.filter((h) => h.ground_elevation_m !== null);

  test(`section ${name}: no text is over another, none under 7 pt`, () => {
    assert.deepEqual(overlappingTexts(texts), []);
    assert.deepEqual(
      texts.filter(({ size }) => size < 7).map(({ text }) => text),
      [],
    );
  });

  test(`section ${name}: every name is whole, inside the figure, and led to where it is not over its hole`, () => {
    const names = inGroup(texts, 'section-names').filter(({ bold }) => bold);
    // Sixty names fit no 90 mm, which is said.
    const isUnnamed = width_mm < 190 && warnings.some((words) => words.includes('no holes are named'));
    assert.deepEqual(names.map((n) => n.text).sort(), isUnnamed ? [] : drawn.map((h) => h.hole).sort());
    const width = Number(/viewBox="0 0 ([\d.]+)/.exec(svg)![1]);
    for (const each of names) assert.ok(each.x1 >= 0 && each.x2 <= width, each.text);
    // A lead meets the ground and no name: it ends under its own.
    const [leads] = inGroup(paths, 'section-names');
    for (const each of names) {
      if (leads === undefined) continue;
      const inside = { ...each, x1: each.x1 + 0.3, x2: each.x2 - 0.3, y1: each.y1 + 0.3, y2: each.y2 - 0.3 };
      for (const lead of leads.strokes)
        assert.ok(!runsThrough(lead, inside), `a lead runs through ${each.text}`);
    }
  });

  test(`section ${name}: nothing is written over the ground line`, () => {
    const [ground] = inGroup(paths, 'section-ground');
    for (const text of texts) {
      assert.ok(!runsThrough(ground!.vertices, text), `the ground runs through ${text.text}`);
    }
  });

  test(`section ${name}: an exaggeration is true to every hole drawn, or none is stated`, () => {
    const stated = texts.filter(({ text }) => /^(vertical exaggeration|not to scale)/.test(text));
    assert.equal(stated.length, 1, stated.map((t) => t.text).join('; '));
    const distances = inGroup(texts, 'section-distance');
    const sorted = [...drawn].sort((a, b) => a.section_m! - b.section_m!);
    const columns = sorted.map((hole, i) => {
      const edges = paths.filter(
        (p) => p.in.includes(`section-hole-${i + 1}`) && p.attributes['stroke-width'] === '0.65',
      );
      return { hole, x1: Math.min(...edges.map((p) => p.x1)) };
    });
    if (distances.length === 0) return assert.match(stated[0]!.text, /^not to scale/);
    const along = perUnit(distances, middle);
    const up = perUnit(inGroup(texts, 'section-elevation'), (t) => t.y2);
    // Left edges of columns are as far apart as their holes, if it is to scale. Holes without units hang on two lines.
    const whole = columns.filter(({ hole }) => hole.units.length > 0);
    const off = whole.map(
      ({ hole, x1 }) => x1 - whole[0]!.x1 - (hole.section_m! - whole[0]!.hole.section_m!) * along,
    );
    const toScale = Math.max(...off.map(Math.abs)) < 1;
    if (toScale && stated[0]!.text.startsWith('vertical')) {
      const factor = number(stated[0]!.text.replace(/^\D+/, ''));
      assert.ok(
        Math.abs(factor - up / along) < (factor < 10 ? 0.06 : 0.6),
        `${factor} stated, ${up / along} drawn`,
      );
    } else assert.match(stated[0]!.text, /^not to scale/);
  });
}

test('a section whose holes stand at their distance states its exaggeration, one with holes drawn apart does not', () => {
  assert.match(sectionFigure(sectionToScale).svg, />vertical exaggeration \d/);
  const apart = sectionFigure(section).svg;
  assert.match(apart, />not to scale along the line</);
  assert.doesNotMatch(apart, /exaggeration/);
});

test('a section too narrow for its holes says what has no room, and from which width it has', () => {
  const narrow = (width_mm: number): string[] =>
    sectionFigure(sectionOfTwentyFour, { width_mm }).warnings.filter((words) => words.startsWith('Narrow'));
  const from = 180;
  assert.deepEqual(narrow(from), []);
  assert.deepEqual(narrow(90), [`Narrow: holes crowd, no ages are written; whole from ${from} mm wide`]);
  // 24 leads of 4 points and a name leave no row on 118 points.
  assert.deepEqual(narrow(60), [
    `Narrow: holes crowd, no ages are written, no holes are named; whole from ${from} mm wide`,
  ]);
  assert.match(
    sectionFigure(sectionOfTwentyFour, { width_mm: 90 }).caption,
    /their ages are in the figure and the table of dates[^;]*; Marine20[^;]*; rejected ones open\./,
  );
});

test('the zero of a section is called what the datum is called', () => {
  const svg = sectionFigure(cliffSection).svg;
  assert.match(svg, />site zero</);
  assert.doesNotMatch(svg, /mean sea level/i);
});

test('every age of a section is written once, beside its sample or in the list under it', () => {
  for (const results of [section, sectionToScale, sectionOfTwentyFour, cliffSection]) {
    const { texts } = measured(sectionFigure(results).svg);
    const words = texts.map(({ text }) => text);
    for (const { median_cal_bp } of results.dates) {
      const age = Math.round(median_cal_bp).toLocaleString('en-GB');
      assert.ok(words.includes(age), age);
    }
  }
  const { texts } = measured(sectionFigure(sectionOfTwentyFour).svg);
  assert.ok(texts.some(({ text }) => text === String(sectionOfTwentyFour.dates.length)));
});

for (const [how, of] of [
  ['straight', tied],
  ['between bodies', sectioned(tied)],
] as const) {
  test(`what is correlated is drawn ${how} from base to base, and broken by how certain it is`, () => {
    const { svg, caption } = sectionFigure(of);
    const lines = inGroup(measured(svg).paths, 'section-ties');
    assert.deepEqual(
      lines.map(({ attributes }) => attributes['stroke-dasharray']),
      [undefined, '4 2.4', '0.01 2.2', '4 2.4'],
    );
    assert.match(
      caption,
      /Contacts correlated between holes: line certain, dashes probable, dots possible\./,
    );
    // T1 unit 3 ends 4.1 m under a ground of 1.12 m, T2 unit 4 7.0 m under one of 1.31 m.
    const up = perUnit(inGroup(measured(svg).texts, 'section-elevation'), (t) => t.y2);
    const [from, to] = [lines[0]!.vertices.at(0), lines[0]!.vertices.at(-1)];
    assert.ok(Math.abs((to![1] - from![1]) / up - (7.0 - 1.31 - (4.1 - 1.12))) < 0.02);
    // Every campaign's own, without being asked for them.
    assert.equal(
      inGroup(measured(figuresOf(of, {}).find(({ name }) => name === 'section')!.svg).paths, 'section-ties')
        .length,
      4,
    );
    assert.doesNotMatch(sectionFigure(section).caption, /orrelated/);
  });
}

/** The same with names on two horizons, one of them tied over three holes. */
const named: Results = {
  ...tied,
  correlations: tied.correlations.map((tie, i) => ({
    ...tie,
    horizon: ['basal peat', 'Basal peat', null, 'upper sand'][i]!,
  })),
};

test('a named horizon is written once on one of its lines, over nothing else that is written', () => {
  for (const width_mm of WIDTHS) {
    const { texts, paths } = measured(sectionFigure(named, { width_mm }).svg);
    const names = inGroup(texts, 'section-horizons').map(({ text }) => text);
    assert.deepEqual(overlappingTexts(texts), []);
    assert.equal(new Set(names).size, names.length);
    assert.ok(
      names.every((name) => ['basal peat', 'upper sand'].includes(name)),
      names.join(),
    );
    const lines = inGroup(paths, 'section-ties').flatMap(({ strokes }) => strokes);
    for (const name of inGroup(texts, 'section-horizons'))
      assert.ok(!lines.some((line) => runsThrough(line, name)), `a line runs through ${name.text}`);
    // Two columns wide there is room.
    if (width_mm >= 190) assert.ok(names.includes('basal peat'), `${width_mm} mm: ${names.join()}`);
  }
  assert.match(sectionFigure(named).caption, /Horizons named: basal peat, upper sand\./);
  assert.deepEqual(inGroup(measured(sectionFigure(tied).svg).texts, 'section-horizons'), []);
});

/** Every hole's second unit correlated with that of the next. */
function manyTies(of: Results): Results {
  return {
    ...of,
    correlations: of.holes.slice(1).flatMap((b, i) => {
      const a = of.holes[i]!;
      const [unit_a, unit_b] = [a.units[1], b.units[1]];
      if (unit_a === undefined || unit_b === undefined) return [];
      return [
        {
          row_id: `k${i}`,
          hole_a: a.hole,
          unit_a: unit_a.unit,
          unit_a_row_id: unit_a.row_id,
          hole_b: b.hole,
          unit_b: unit_b.unit,
          unit_b_row_id: unit_b.row_id,
          confidence: 'certain' as const,
          horizon: null,
        },
      ];
    }),
  };
}

test('no line of a correlation runs through an age, its number or the name of the zero, at any width', () => {
  // 29 November 2026: the lines were seen between the figures of the ages.
  for (const results of [tied, manyTies(sectionToScale), manyTies(sectionOfTwentyFour)].flatMap((of) => [
    of,
    sectioned(of, AGES),
  ])) {
    for (const width_mm of WIDTHS) {
      const { texts, paths } = measured(sectionFigure(results, { width_mm }).svg);
      const lines = inGroup(paths, 'section-ties').flatMap(({ strokes }) => strokes);
      assert.ok(lines.length > 2);
      const ages = texts.filter(
        ({ text, in: groups }) =>
          groups.length === 0 && (/^[\d,–]+$/.test(text) || text === results.datum.label),
      );
      for (const age of ages)
        assert.ok(!lines.some((line) => runsThrough(line, age)), `${width_mm} mm: through ${age.text}`);
    }
  }
});

test('a line is broken by boxes where it is inside them, and its specks are left out', () => {
  const across = [
    [0, 0],
    [100, 0],
  ] as [[number, number], [number, number]];
  const box = (x1: number, x2: number) => ({ x1, x2, y1: -1, y2: 1 });
  assert.deepEqual(outside(across, []), [across]);
  // 43 to 45 is a speck of 2 points.
  assert.deepEqual(outside(across, [box(45, 60), box(20, 43), { ...box(70, 80), y1: 1, y2: 2 }]), [
    [
      [0, 0],
      [20, 0],
    ],
    [
      [60, 0],
      [100, 0],
    ],
  ]);
  assert.deepEqual(outside(across, [box(-5, 105)]), []);
});

test('at every hole each unit is filled with its own sediment from its top to its base', () => {
  for (const results of [sectioned(tied, AGES), sectioned(manyTies(sectionToScale)), sectioned(section)]) {
    const { texts, paths } = measured(sectionFigure(results).svg);
    const elevations = inGroup(texts, 'section-elevation');
    const perMetre = perUnit(elevations, (t) => t.y2);
    const zero = elevations.find(({ text }) => text === '0')!;
    // Labels of the staff stand 2.4 pt under their tick, and reach 0.14 of 7 pt below their foot.
    const y = (elevation: number): number => zero.y2 - 2.4 - 0.14 * 7 - elevation * perMetre;
    const fills = [...inGroup(paths, 'section-fill'), ...inGroup(paths, 'section-collars')].filter(
      ({ attributes }) => attributes['fill'] !== undefined && attributes['stroke'] === undefined,
    );
    const drawn = results.holes.filter((h) => h.ground_elevation_m !== null);
    const sorted = [...drawn].sort((a, b) => a.section_m! - b.section_m!);
    for (const [i, hole] of sorted.entries()) {
      const edges = inGroup(paths, `section-hole-${i + 1}`).filter(
        (p) => p.in.includes(`section-hole-${i + 1}`) && p.attributes['stroke-width'] === '0.65',
      );
      if (hole.units.length === 0) continue;
      const x = (Math.min(...edges.map((p) => p.x1)) + Math.max(...edges.map((p) => p.x2))) / 2;
      for (const unit of hole.units) {
        const at = y(unit.elevation_top_m!.value / 2 + unit.elevation_bottom_m!.value / 2);
        const tint = INKS.print.tints[sedimentOfUnit(unit).tint];
        const over = fills.filter(
          ({ vertices, attributes }) => attributes['fill'] === tint && isWithin(x + 0.3, at, vertices),
        );
        assert.ok(over.length > 0, `${hole.hole} unit ${unit.unit}`);
      }
    }
  }
});

test('erosional contacts are waves, lines of one age carry it, and the key says only what is drawn', () => {
  const { svg, caption } = sectionFigure(sectioned(sectionToScale, { ages_cal_bp: [1500, 3000] }));
  const { texts } = measured(svg);
  assert.deepEqual(
    inGroup(texts, 'section-time')
      .map(({ text }) => text)
      .sort(),
    ['1,500', '3,000'],
  );
  assert.match(caption, /Beads: lines of one age, cal BP\./);
  const words = texts.map(({ text }) => text);
  assert.ok(words.includes('time line, cal BP') && words.includes('possible or not known'));
  assert.ok(!words.includes('erosional') && !words.includes('certain'));
  assert.doesNotMatch(caption, /Wave: erosional/);
  const cut = sectionFigure(sectioned(tied));
  assert.match(cut.caption, /Wave: erosional\./);
  const waves = inGroup(measured(cut.svg).paths, 'section-contacts').filter(({ attributes }) =>
    attributes['d']!.includes('Q'),
  );
  assert.ok(waves.length > 0);
});

test('what a person says of a contact moves where it ends', () => {
  const before = sectioned(tied).sections[0]!.contacts.find(
    ({ hole_a, unit_a, hole_b }) => hole_a === 'T2' && unit_a === '2' && hole_b === null,
  )!;
  const said = sectioned(tied, {
    boundaries: [
      {
        row_id: 'b1',
        horizon: `T2/${before.unit_a_row_id}`,
        hole_a: 'T2',
        hole_b: 'T1',
        ending: 'pinch_out',
        at_fraction: 0.8,
        lift_m: null,
      },
    ],
  });
  const end = (results: Results): number => {
    const { paths } = measured(sectionFigure(results).svg);
    return Math.min(
      ...inGroup(paths, 'section-contacts')
        .filter(({ attributes }) => attributes['stroke-dasharray'] === '4 2.4')
        .map(({ x1 }) => x1),
    );
  };
  // Nobody said it: dots. Said: dashes, four fifths of the way back to T1.
  assert.equal(end(sectioned(tied)), Infinity);
  assert.ok(Number.isFinite(end(said)));
});

test('a lost hole with a replacement that is on no line is named in the caption, without a warning', () => {
  const [only] = sectioned(section).sections;
  const without = {
    ...section,
    sections: [{ ...only!, holes: only!.holes.filter(({ hole }) => hole !== 'T3a') }],
  };
  const { caption, warnings } = sectionFigure(without);
  assert.match(caption, /T3a was replaced by T3 and is not drawn\./);
  assert.deepEqual(warnings, []);
});

test('of several lines each has its figure, with its own holes', () => {
  const lines = [
    sectionOf(section, { line: 'A', holes: ['T1', 'T2'] }),
    sectionOf(section, { line: 'B 2', holes: ['T2', 'T3', 'T4'] }),
  ];
  const figures = figuresOf({ ...section, sections: lines }, {}).filter(({ name }) =>
    name.startsWith('section'),
  );
  assert.deepEqual(
    figures.map(({ name, title, warnings }) => ({ name, title, warnings })),
    [
      { name: 'section-A', title: 'Fixture coast, section A', warnings: [] },
      { name: 'section-B-2', title: 'Fixture coast, section B 2', warnings: [] },
    ],
  );
  const names = inGroup(measured(figures[0]!.svg).texts, 'section-names').map(({ text }) => text);
  assert.deepEqual(names.sort(), ['T1', 'T2']);
  // One line of some holes misses no others; T3a was lost, and T3 that replaced it is on the line.
  const alone = sectionFigure({ ...section, sections: [lines[1]!] });
  assert.deepEqual(alone.warnings, []);
  assert.match(alone.caption, /T3a was replaced by T3 and is not drawn\./);
});
