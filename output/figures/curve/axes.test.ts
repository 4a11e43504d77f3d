/** Axes of the curve as they are asked for: what is written at them, checked against sums by hand. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { seaLevel } from '../fixtures/curve.ts';
import { farPoint, twoHundredPoints } from '../fixtures/much.ts';
import { curveFigure } from '../index.ts';
import type { CurveAxes } from './axes.ts';
import { curveLayout } from './layout.ts';

const size = { width: 400, level_height: 250, rate_height: 110 };
const panels = (axes: CurveAxes) => curveLayout(seaLevel, size, axes).panels;
const drawing = (axes: CurveAxes): string => curveFigure(seaLevel, { axes }).svg.split('</desc>')[1]!;

const near = (a: number, b: number, within = 1e-6): void =>
  assert.ok(Math.abs(a - b) < within, `${a} and ${b}`);

test('ages in CE and ka stand where the same age in cal BP stands', () => {
  const bp = panels({});
  // 2949 cal BP is 1950 − 2949 = −999; without a year 0 that is 1,000 BCE. 2950 cal BP is 2.95 ka.
  near(panels({ ages: 'ce' }).timeAxis.scale(-1000), bp.time(2949));
  near(panels({ ages: 'ka' }).timeAxis.scale(2.95), bp.time(2950));
  assert.match(drawing({ ages: 'ce' }), />2,000 BCE</);
  assert.match(drawing({ ages: 'ce' }), />BCE \| CE</);
  assert.match(drawing({ ages: 'ka' }), />age, ka cal BP</);
  assert.match(drawing({ ages: 'ka' }), />8\.0</);
  assert.match(curveFigure(seaLevel, { axes: { ages: 'ce' } }).caption, /1950 less the age in cal BP/);
});

test('there is no year 0: 1950 cal BP is 1 BCE, the year before 1 CE, and ticks stand on round years of either era', () => {
  // 29 November 2026: ages of 1950 cal BP and more were written a year too late.
  const { timeAxis, time } = panels({ ages: 'ce' });
  for (const [cal_bp, words] of [
    [1950, '1 BCE'],
    [1949, '1 CE'],
    [1951, '2 BCE'],
    [2449, '500 BCE'],
    [1450, '500 CE'],
    [0, '1,950 CE'],
    [-74, '2,024 CE'],
  ] as const)
    assert.equal(timeAxis.written(cal_bp), words);
  // Within a few years of the beginning of the era, where one year is as wide as a label.
  const nearEra = { oldest_cal_bp: 1955, youngest_cal_bp: 1943, ages: 'ce' } as const;
  const close = panels(nearEra).timeAxis.scale;
  for (const [year, cal_bp] of [
    [-5, 1954],
    [-1, 1950],
    [0, 1949.5],
    [1, 1949],
    [5, 1945],
  ] as const)
    near(close(year), panels(nearEra).time(cal_bp));
  near(timeAxis.scale(-5000), time(6949));
  assert.match(drawing(nearEra), />6 BCE<.*>BCE \| CE<.*>2 CE</);
});

test('rates keep their place and change their numbers: 1 mm/yr is 10 cm per century and 1 m/kyr', () => {
  const bp = panels({});
  const cm = panels({ rates: 'cm/century' });
  near(cm.rateAxis!.scale(25), bp.rate!(2.5));
  near(panels({ rates: 'm/kyr' }).rateAxis!.scale(2.5), bp.rate!(2.5));
  assert.match(drawing({ rates: 'cm/century' }), />Rate, cm per century</);
  assert.match(drawing({ rates: 'm/kyr' }), />Rate, m\/kyr</);
  // The first interval's own mean, in the unit: ten times as many.
  const { mean, sd } = bp.curve!.intervals[0]!.rate_mm_yr;
  assert.ok(sd * 20 >= 1, 'so that whole cm per century are its precision or nearly');
  const written = drawing({ rates: 'cm/century' });
  assert.match(written, new RegExp(`>\\+${(mean * 10).toFixed(20 * sd < 9.5 ? 1 : 0).replace('.', '\\.')}<`));
});

test('time runs the other way where the older is asked for at the right', () => {
  const left = panels({});
  const right = panels({ older: 'right' });
  for (const age of [2000, 5000, 8000]) near(left.time(age) - 32, 400 - right.time(age), 1e-6);
  for (const { at } of right.points) assert.ok(at.x1 <= at.x2 && at.x1 <= at.x && at.x <= at.x2);
  assert.doesNotMatch(drawing({ older: 'right' }), /NaN/);
});

test('limits hold for ages and levels, and what they leave out is counted in the caption', () => {
  const limits = { oldest_cal_bp: 7000, youngest_cal_bp: 3000, highest_m: 1, lowest_m: -8 };
  const p = panels(limits);
  assert.deepEqual([p.time.from, p.time.to, p.level.from, p.level.to], [7000, 3000, -8, 1]);
  const hidden = p.outside.filter((point) => point.status === 'accepted').length;
  assert.ok(hidden > 3);
  const { caption } = curveFigure(seaLevel, { axes: limits });
  assert.ok(caption.includes(`${hidden} points beyond the limits of the axes are not shown.`), caption);
  // The rate's own range is that of the ages drawn.
  assert.ok(p.order.length < panels({}).order.length);
  assert.doesNotMatch(curveFigure(seaLevel).caption, /beyond the limits/);
});

test('a far age is an arrow at the side it lies beyond, written as the axis is', () => {
  const far = (axes: CurveAxes) =>
    curveLayout(farPoint, size, axes).far.map(({ isLeft, words }) => [isLeft, words]);
  assert.deepEqual(far({}), [[true, 'OLD-1, 40,200']]);
  // 40,200 cal BP is 1950 − 40,200 = −38,250, which is 38,251 BCE, and 40.20 thousand years.
  assert.deepEqual(far({ older: 'right', ages: 'ce' }), [[false, 'OLD-1, 38,251 BCE']]);
  assert.deepEqual(far({ ages: 'ka' }), [[true, 'OLD-1, 40.20']]);
  const { caption } = curveFigure(farPoint, { axes: { ages: 'ka' } });
  assert.match(caption, /OLD-1, 40\.20 ka cal BP: beyond the ages drawn, an arrow at the edge\./);
  assert.doesNotMatch(caption, /not shown/);
  // Limits that hold it leave nothing beyond.
  assert.deepEqual(far({ oldest_cal_bp: 45_000 }), []);
});

test('where the words of a far age have no room its arrow stands alone, and the caption has its age', () => {
  const narrow = curveLayout(farPoint, { ...size, width: 243 }, { older: 'right', ages: 'ce' });
  assert.deepEqual(
    narrow.far.map(({ written }) => written),
    ['OLD-1'],
  );
  const svg = curveFigure(farPoint, { width_mm: 90, axes: { older: 'right', ages: 'ce' } });
  assert.doesNotMatch(svg.svg.split('</desc>')[1]!, />OLD-1, 38/);
  assert.match(svg.caption, /OLD-1, 38,251 BCE: beyond/);
});

test('points of the literature run with time and keep to the limits', () => {
  const cross = (n: number, median: number, rsl_m: number) => ({
    row_id: `p${n}`,
    point: `P${n}`,
    site: null,
    source: 'Inshore 1998',
    latitude_deg: null,
    longitude_deg: null,
    kind: 'index' as const,
    rsl_m,
    rsl_sigma_m: 0.4,
    age_from: 'calendar' as const,
    calibration_curve: null,
    age: { median_cal_bp: median, older95_cal_bp: median + 200, younger95_cal_bp: median - 100 },
  });
  const results = { ...seaLevel, published: [cross(1, 5000, -9), cross(2, 8000, -12)] };
  const at = (axes: CurveAxes) => curveLayout(results, size, axes).panels;
  const left = at({}).published.map((each) => each.at);
  const right = at({ older: 'right' }).published.map((each) => each.at);
  for (const [i, there] of right.entries()) {
    near(left[i]!.x - 32, 400 - there.x);
    near(left[i]!.x2 - 32, 400 - there.x1);
    assert.ok(there.x1 < there.x && there.x < there.x2);
    near(left[i]!.y, there.y);
  }
  const limited = at({ oldest_cal_bp: 7000 });
  assert.deepEqual(
    limited.published.map(({ point }) => point.point),
    ['P1'],
  );
  assert.equal(limited.published_outside, 1);
});

test('dots of many dates stack the same where time runs the other way', () => {
  for (const older of ['left', 'right'] as const) {
    const { dates, panels: p } = curveLayout(twoHundredPoints, size, { older });
    assert.ok(dates.kind === 'medians');
    assert.equal(dates.dots.length, p.dates.length);
    for (const [i, a] of dates.dots.entries()) {
      for (const b of dates.dots.slice(i + 1)) assert.ok(Math.hypot(a.x - b.x, a.up - b.up) > 1.5);
    }
  }
});

test('one limit beyond all there is still leaves an axis', () => {
  for (const axes of [
    { youngest_cal_bp: 30_000 },
    { oldest_cal_bp: -40 },
    { lowest_m: 50 },
    { highest_m: -90 },
  ]) {
    const { time, level } = panels(axes);
    assert.ok(time.from > time.to && level.to > level.from, JSON.stringify(axes));
    assert.doesNotMatch(drawing(axes), /NaN|Infinity/);
  }
});

test('limits that leave nothing between them are refused', () => {
  assert.throws(() => panels({ oldest_cal_bp: 3000, youngest_cal_bp: 3000 }), /oldest above the youngest/);
  assert.throws(() => panels({ highest_m: -9, lowest_m: 1 }), /highest above the lowest/);
});
