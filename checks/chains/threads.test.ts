/** Curve and age against depth by threads of Node: the bytes of one thread, whatever the number. Seed 5. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { inProcess, randomStream, type Work, withCrew } from '@stillstand/science/base';
import {
  type CurvePoint,
  type CurveSettings,
  curveWithSensitivity,
  DEFAULT_CURVE_SETTINGS,
} from '@stillstand/science/curve';
import { type AgeDepthInput, ageDepthDefaults, ageDepthWork } from '@stillstand/science/dating';
import { digestOfData } from '../results/numbers.ts';
import { nodeCrew } from './node-crew.ts';

/** A curve that runs evenly. */
const even = {
  name: 'even',
  from_cal_bp: 0,
  c14_age: Float64Array.from({ length: 8001 }, (_, year) => year),
  sigma_yr: new Float64Array(8001).fill(15),
};

/** Every kind of height and age, shared errors of both, two points that may be intercalated. */
const points: CurvePoint[] = Array.from({ length: 9 }, (_, i) => {
  const age = 600 + 700 * i;
  const kind = i % 5 === 3 ? 'terrestrial' : i === 7 ? 'marine' : 'index';
  return {
    id: `P${i + 1}`,
    kind,
    height_m:
      -0.0012 * age + (kind === 'terrestrial' ? 0.5 : kind === 'marine' ? -0.5 : 0.1 * Math.sin(3 * i)),
    sigma_m: 0.15,
    half_range_m: kind === 'index' && i % 2 === 0 ? 0.3 : 0,
    lowering_m: kind === 'index' && i % 3 === 0 ? 0.2 : 0,
    shared: [{ group: 'bench mark', sigma_m: 0.1 }],
    age:
      i % 2 === 0
        ? { kind: 'normal', mean_cal_bp: age, sd_yr: 60 }
        : {
            kind: 'radiocarbon',
            c14_age: age + 40,
            error_yr: 35,
            curve: even,
            offset_yr: 0,
            offset_sd_yr: 40,
            offset_group: 'lagoon',
          },
  };
});

const settings: CurveSettings = {
  ...DEFAULT_CURVE_SETTINGS,
  ages_cal_bp: [2000, 5000],
  intervals: [{ older_cal_bp: 5000, younger_cal_bp: 2000 }],
  seed: 5,
};

const hole: AgeDepthInput = {
  horizons: [1, 2.5, 4, 5].map((depth, i) => ({
    id: `D${i + 1}`,
    depth_m: Float64Array.from({ length: 50 }, (_, k) => depth + 0.02 * Math.sin(7 * k + i)),
    age: {
      from_cal_bp: 900 * (i + 1),
      density: Float64Array.from({ length: 301 }, (_, y) => Math.exp(-0.5 * ((y - 150) / 45) ** 2)),
    },
  })),
  surface: { age_cal_bp: -60, sd_yr: 5 },
  breaks: [{ id: 'U3', depth_m: new Float64Array(50).fill(3.1) }],
  bottom_m: 5.5,
};

const intercalated = new Set(['P5']);
const curve = (): Work<unknown> => curveWithSensitivity(points, settings, intercalated);
const ages = (): Work<unknown> => ageDepthWork(hole, { ...ageDepthDefaults, sections: 8 }, randomStream(5));

test('1, 2 and 4 threads give the bytes of none: a curve with its rates again, ages against depth (seed 5)', async () => {
  const here = [curve, ages].map((work) => digestOfData(inProcess(work())));
  for (const threads of [1, 2, 4]) {
    const { crew } = nodeCrew(threads);
    const there = [digestOfData(await withCrew(curve(), crew)), digestOfData(await withCrew(ages(), crew))];
    await crew.dismiss();
    assert.deepEqual(there, here, `${threads} threads`);
  }
});

test('a computation that is given up leaves no thread running', async () => {
  const { crew, running } = nodeCrew(2);
  const enough = new Error('enough');
  let heard = 0;
  const given = withCrew(curve(), crew, () => {
    if (++heard === 3) throw enough;
  });
  assert.equal(running(), 2);
  await assert.rejects(given, (error) => error === enough);
  assert.equal(running(), 0);
});
