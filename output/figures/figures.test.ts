/**
 * Every figure against its stored SVG. STILLSTAND_UPDATE=1 rewrites them; look at what changed before committing.
 * A fixture that makes a figure warn has a name that says so, and no other may.
 */
import assert from 'node:assert/strict';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { test } from 'node:test';
import { fileURLToPath } from 'node:url';
import { createElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { agesAcrossHiatus, agesInDoubt, agesTogether, agesTwice, manyAges } from './fixtures/age-depth.ts';
import { COAST, plateWithPlanned } from './fixtures/coast.ts';
import { oneHole } from './fixtures/column.ts';
import {
  disagreeingPoints,
  notConverged,
  partOfTheCoast,
  pointsAlone,
  seaLevel,
  severalSites,
  withGauge,
} from './fixtures/curve.ts';
import { cutOff, twoHoles } from './fixtures/dates.ts';
import { boiledIn, drilledHole, justBegun } from './fixtures/drilled.ts';
import { coastAlone, coastThroughTime } from './fixtures/environments.ts';
import { assumedPoint, measuredPoint, wrongSum } from './fixtures/error-budget.ts';
import { fence, fenceOfOneLine } from './fixtures/fence.ts';
import { grainsMany, grainsMeasured } from './fixtures/grains.ts';
import { leadCutOff, leadProfile } from './fixtures/lead.ts';
import { measuredHole, muchMeasured } from './fixtures/measured.ts';
import {
  cliffSection,
  clusteredDates,
  clusteredPoints,
  farBothEnds,
  farDate,
  farPoint,
  noFreeCorner,
  sectionOfLongNames,
  sectionOfSixty,
  sectionOfTwentyFour,
  sectionToScale,
  sixtyDates,
  sliverDates,
  twoHundredPoints,
} from './fixtures/much.ts';
import { photographedHole, STRIPS } from './fixtures/photographed.ts';
import { plate, plateNotConverged, plateOfTwentyFour } from './fixtures/plate.ts';
import { hole, results } from './fixtures/results.ts';
import { section, tied, unhung } from './fixtures/section.ts';
import { sectioned } from './fixtures/sectioned.ts';
import {
  crowdedColumn,
  crowdedSection,
  fallingSea,
  fortyDates,
  manyParts,
  shortColumn,
  sixtyPoints,
} from './fixtures/stress.ts';
import {
  ageDepthFigure,
  agesAcrossFigure,
  CurveDrawing,
  curveFigure,
  curveLayout,
  datesFigure,
  environmentsFigure,
  errorBudgetFigure,
  type Figure,
  fenceFigure,
  figuresOf,
  grainSizeFigure,
  graphicLog,
  laboratoryFigure,
  leadProfileFigure,
  locationFigure,
  penetrationFigure,
  plateFigure,
  recoveryFigure,
  registrationFigure,
  sectionFigure,
} from './index.ts';

const lostHole = results({
  holes: [
    hole('T3a', {
      state: 'lost',
      end_reason: 'string parted',
      left_in_ground: 'two joints and the shoe',
      penetration_m: 6.2,
    }),
  ],
});

const FIGURES: Record<string, () => Figure> = {
  column: () => graphicLog(oneHole, 'T3'),
  'column-by-night': () => graphicLog(oneHole, 'T3', { theme: 'night', caption: false }),
  'column-short': () => graphicLog(shortColumn, 'S1'),
  'column-crowded-warns-assumed': () => graphicLog(crowdedColumn, 'Long label 12'),
  'column-lost-warns': () => graphicLog(lostHole, 'T3a'),
  'column-measured': () => graphicLog(measuredHole, 'T3'),
  'column-photographed-warns': () => graphicLog(photographedHole, 'T3', { pictures: STRIPS }),
  laboratory: () => laboratoryFigure(muchMeasured, 'T3'),
  'laboratory-by-night': () => laboratoryFigure(measuredHole, 'T3', { theme: 'night', caption: false }),
  'laboratory-grains': () => laboratoryFigure(grainsMeasured, 'T3'),
  'laboratory-grains-grey': () => laboratoryFigure(grainsMeasured, 'T3', { grey: true, caption: false }),
  'grain-size': () => grainSizeFigure(grainsMeasured, 'T3'),
  'grain-size-forty-by-night': () => grainSizeFigure(grainsMany, 'T3', { theme: 'night' }),
  section: () => sectionFigure(sectioned(section)),
  'section-tied': () => sectionFigure(sectioned(tied), { label: 'Figure 2' }),
  'section-tied-by-night': () => sectionFigure(sectioned(tied), { theme: 'night', caption: false }),
  'section-tied-grey': () => sectionFigure(sectioned(tied), { grey: true, journal: true }),
  'section-not-filled': () => sectionFigure(tied),
  'section-crowded': () => sectionFigure(sectioned(crowdedSection)),
  'section-to-scale': () => sectionFigure(sectioned(sectionToScale, { ages_cal_bp: [1500, 3000, 4500] })),
  'section-twenty-four': () => sectionFigure(sectioned(sectionOfTwentyFour)),
  'section-long-names': () => sectionFigure(sectioned(sectionOfLongNames)),
  'section-sixty-warns': () => sectionFigure(sectioned(sectionOfSixty)),
  'section-cliff': () => sectionFigure(sectioned(cliffSection)),
  'section-unhung-warns': () => sectionFigure(sectioned(unhung)),
  'section-empty-warns': () => sectionFigure(results({})),
  environments: () => environmentsFigure(coastThroughTime, coastThroughTime.lines_through_time[0]!),
  'environments-alone-by-night': () =>
    environmentsFigure(coastAlone, coastAlone.lines_through_time[0]!, { theme: 'night', caption: false }),
  fence: () => fenceFigure(fence),
  'fence-one-line-warns': () => fenceFigure(fenceOfOneLine),
  'section-of-a-line': () => sectionFigure(fence, {}, fence.sections[1]),
  'age-depth': () => ageDepthFigure(agesTogether, 'T3'),
  'age-depth-hiatus': () => ageDepthFigure(agesAcrossHiatus, 'T3'),
  'age-depth-warns-two-histories': () => ageDepthFigure(agesTwice, 'T3'),
  'age-depth-sixty-dates': () => ageDepthFigure(manyAges, 'T3'),
  'age-depth-dates-alone-by-night': () => ageDepthFigure(oneHole, 'T3', { theme: 'night' }),
  'age-depth-warns-not-converged': () => ageDepthFigure(agesInDoubt, 'T3'),
  'lead-profile': () => leadProfileFigure(leadProfile, 'L1'),
  'lead-profile-cut-off-warns': () => leadProfileFigure(leadCutOff, 'L1', { theme: 'night' }),
  'ages-across': () => agesAcrossFigure(tied),
  'ages-across-twenty-four': () => agesAcrossFigure(sectionOfTwentyFour),
  dates: () => datesFigure(twoHoles),
  'dates-forty': () => datesFigure(fortyDates),
  'dates-sixty': () => datesFigure(sixtyDates),
  'dates-clustered': () => datesFigure(clusteredDates),
  'dates-far': () => datesFigure(farDate),
  'dates-far-at-both-ends': () => datesFigure(farBothEnds),
  'dates-slivers': () => datesFigure(sliverDates),
  'dates-empty': () => datesFigure(results({})),
  'dates-cut-off-warns-truncated': () => datesFigure(cutOff),
  curve: () => curveFigure(seaLevel),
  'curve-sixty-points': () => curveFigure(sixtyPoints),
  'curve-two-hundred-points': () => curveFigure(twoHundredPoints),
  'curve-clustered-points': () => curveFigure(clusteredPoints),
  'curve-far-point': () => curveFigure(farPoint),
  'curve-no-free-corner': () => curveFigure(noFreeCorner),
  'curve-warns-not-converged': () => curveFigure(notConverged),
  'curve-points-alone-warns': () => curveFigure(pointsAlone),
  'curve-warns-points-disagree': () => curveFigure(disagreeingPoints),
  'curve-part-of-the-coast': () => curveFigure(partOfTheCoast),
  'curve-with-gauge': () => curveFigure(withGauge),
  'curve-several-sites': () => curveFigure(severalSites),
  'curve-falling-warns': () => curveFigure(fallingSea),
  'curve-empty-warns': () => curveFigure(results({})),
  'recovery-warns': () => recoveryFigure(boiledIn, 'T7'),
  recovery: () => recoveryFigure(drilledHole, 'T5'),
  'recovery-begun-warns': () => recoveryFigure(justBegun, 'T6'),
  'penetration-warns-refusal': () => penetrationFigure(drilledHole, 'T5'),
  'penetration-by-night': () => penetrationFigure(boiledIn, 'T7', { theme: 'night' }),
  'penetration-empty-warns': () => penetrationFigure(lostHole, 'T3a'),
  registration: () => registrationFigure(drilledHole, 'T5'),
  'registration-by-night': () => registrationFigure(drilledHole, 'T5', { theme: 'night', layer: '5' }),
  'registration-few-soundings': () => registrationFigure(boiledIn, 'T7'),
  'registration-begun-warns-assumed': () => registrationFigure(justBegun, 'T6'),
  'error-budget': () => errorBudgetFigure(measuredPoint, 'T3-11'),
  'error-budget-warns-assumed': () => errorBudgetFigure(assumedPoint, 'T3-11'),
  'error-budget-warns-wrong-sum': () => errorBudgetFigure(wrongSum, 'T3-11'),
  'error-budget-many-parts-warns-assumed': () => errorBudgetFigure(manyParts, 'LL12-000'),
  location: () => locationFigure(plate),
  'location-with-coast': () => locationFigure(plateWithPlanned, { shapes: COAST }),
  'location-with-coast-by-night': () =>
    locationFigure(plateWithPlanned, { shapes: COAST, theme: 'night', caption: false }),
  plate: () => plateFigure(sectioned(plate)),
  'plate-twenty-four': () => plateFigure(sectioned(plateOfTwentyFour), { journal: true }),
  'plate-warns-not-converged': () => plateFigure(sectioned(plateNotConverged)),
};

for (const [name, make] of Object.entries(FIGURES)) {
  const file = new URL(`./fixtures/${name}.svg`, import.meta.url);
  test(`figure ${name} is as stored`, () => {
    const { svg } = make();
    if (process.env['STILLSTAND_UPDATE'] === '1' || !existsSync(file)) writeFileSync(file, `${svg}\n`);
    const stored = readFileSync(file, 'utf8').trimEnd();
    // Not assert.equal: a diff of two drawings is no help.
    assert.ok(
      svg === stored,
      `${name} has changed ${firstDifference(svg, stored)}. To see both, run with STILLSTAND_UPDATE=1 and compare ${fileURLToPath(file)} with git's, in a browser`,
    );
  });

  test(`figure ${name} warns exactly where its name says so, and draws its warnings`, () => {
    const { svg, warnings } = make();
    assert.equal(warnings.length > 0, name.includes('warns'), warnings.join('; '));
    for (const warning of warnings) {
      for (const word of warning.split(' ').filter((w) => /^[A-Za-z]{5,}$/.test(w))) {
        assert.ok(svg.split('</desc>')[1]!.includes(word), `“${word}” of “${warning}” is not drawn`);
      }
    }
  });

  test(`figure ${name} keeps to its sheet and holds no number that is none`, () => {
    const { svg, width_mm, height_mm } = make();
    assert.ok(width_mm === 90 || width_mm === 190);
    assert.ok(height_mm > 20 && height_mm < 260, `${height_mm} mm high`);
    const flaws = [
      ['a number that is none', /NaN|Infinity|undefined|null/],
      ['a coordinate not rounded to 0.01', /"[^"<>]*\d\.\d{3}[^"<>]*"/],
      ['a hyphen for a minus', />(?:[^<]* )?-\d/],
    ] as const;
    for (const [flaw, sign] of flaws) {
      const found = sign.exec(svg);
      assert.ok(found === null, `${flaw}: “${found?.[0].slice(0, 80)}”`);
    }
    const ids = [...svg.matchAll(/ id="([^"]+)"/g)].map((m) => m[1]);
    assert.equal(new Set(ids).size, ids.length, 'an id is used twice');
  });
}

function firstDifference(a: string, b: string): string {
  let i = 0;
  while (i < a.length && a[i] === b[i]) i++;
  return `at character ${i}: found “${a.slice(i, i + 60)}”, stored “${b.slice(i, i + 60)}”`;
}

test('the same results give the same drawing', () => {
  assert.equal(curveFigure(seaLevel).svg, curveFigure(seaLevel).svg);
});

test('a hole or point the results do not have is a programming error that says what there is', () => {
  assert.throws(() => graphicLog(oneHole, 'T9'), /expected one of T3, found T9/);
  assert.throws(() => errorBudgetFigure(oneHole, 'X'), RangeError);
  for (const figure of [recoveryFigure, penetrationFigure, registrationFigure]) {
    assert.throws(() => figure(oneHole, 'T9'), /Figure: expected one of T3, found T9/);
  }
  assert.throws(
    () => registrationFigure(drilledHole, 'T5', { layer: '9' }),
    /expected a layer of 1, 2, 3, 4, 5, 6, found 9/,
  );
});

test('no two figures have one file name, on disks that know no capitals either, and none is longer than a disk takes', () => {
  const labels = ['Ä1', 'Ö1', 't1', 'T1', 'T/1', 'Ж', '砂', 'x'.repeat(300)];
  const [one] = oneHole.holes;
  const many = results({ holes: labels.map((label) => ({ ...one!, hole: label })) });
  const names = figuresOf(many, {}).map(({ name }) => name);
  assert.equal(new Set(names.map((name) => name.toLowerCase())).size, names.length, names.join(' '));
  assert.ok(names.length >= labels.length);
  for (const name of names) assert.match(name, /^[a-z][A-Za-z0-9-]{0,110}$/);
});

test('a label takes its place before the caption, and a caption can be left to the page', () => {
  const labelled = curveFigure(seaLevel, { label: 'Figure 4' });
  assert.match(labelled.svg, /Figure 4\. Relative sea level/);
  const bare = curveFigure(seaLevel, { caption: false });
  assert.ok(bare.height_mm < labelled.height_mm);
  assert.equal(bare.caption, labelled.caption);
});

test('the curve on a screen is the same drawing at its size, with the interval and the point that were chosen', () => {
  const layout = curveLayout(seaLevel, { width: 300, level_height: 200, rate_height: 90 });
  const draw = (more: object) =>
    renderToStaticMarkup(createElement(CurveDrawing, { layout, id: 'screen', ...more }));
  const chosen = { older_cal_bp: 8000, younger_cal_bp: 7000 };
  const told = seaLevel.points[3]!;
  const svg = draw({ chosen, telling: told.point, bars: [] });
  const { time, levelFrame, rateFrame } = layout.panels;
  for (const frame of [levelFrame, rateFrame!]) {
    const [x1, x2] = [time(8000), time(7000)].map((x) => Math.round(x * 100) / 100);
    assert.ok(svg.includes(`M${x1} ${frame.y1}H${x2}V${frame.y2}`), 'the interval is set off');
  }
  assert.match(svg, new RegExp(`>${told.point} [+−][\\d.]+ ±[\\d.]+ m<`));
  assert.equal(draw({}).match(/±/g)!.length > svg.match(/±/g)!.length, true, 'no bars but those asked for');
  assert.doesNotMatch(svg, /id="(?!screen-)/);
});

test('a rejected point, one of another site or one outside the ages asked stretches no axis of the curve', () => {
  const size = { width: 300, level_height: 200, rate_height: 90 };
  const { panels } = curveLayout(partOfTheCoast, size);
  const { time, level } = panels;
  assert.ok(time.from < 8200 && time.to === 2000, `${time.from} to ${time.to}`);
  assert.ok(level.to < 5 && level.from > -14, `${level.from} to ${level.to}`);
  const drawnPoints = panels.points.map(({ point }) => point.point);
  assert.ok(!drawnPoints.includes('T9-01') && !drawnPoints.includes('B1-01'));
  assert.deepEqual(
    panels.elsewhere.map(({ point }) => point),
    ['B1-01'],
  );
  // Not asked for an end, the axis reaches to the accepted points, and to no other.
  const whole = curveLayout({ ...partOfTheCoast, settings: [] }, size).panels;
  const oldest = Math.max(
    ...seaLevel.points.filter((p) => p.status === 'accepted').map((p) => p.age.older95_cal_bp),
  );
  assert.ok(whole.time.from > oldest && whole.time.from < oldest * 1.02, `${whole.time.from}`);
});

test('0 on the curve is called by its datum and the epoch of it; a mean sea level only where it is one', () => {
  const svg = (datum: (typeof seaLevel)['datum']): string => curveFigure({ ...seaLevel, datum }).svg;
  assert.match(svg({ label: 'MSL', kind: 'mean_sea_level', epoch: '1993–2011' }), />0 = MSL \(1993–2011\)</);
  for (const kind of ['tidal', 'orthometric', 'ellipsoidal', 'local', null]) {
    assert.doesNotMatch(svg({ label: 'MLLW', kind, epoch: null }), /mean sea level/);
    assert.match(svg({ label: 'MLLW', kind, epoch: null }), />0 = MLLW</);
  }
});
