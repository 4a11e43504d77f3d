/**
 * Every row of the Southeast Asian dataset (Mann et al. 2019, doi 10.1016/j.quascirev.2019.07.007; data/README.md)
 * that gives elevation, tide levels, meaning and RSL: RSL and its 2 sigma come back.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import {
  declaredError,
  type HeightError,
  indexPoint,
  limitingPoint,
  plainPoint,
} from '@stillstand/science/points';
import { type Cells, readTable } from './table.ts';

const rows = readTable(new URL('./data/seasia_points.csv', import.meta.url));

/** Published heights and errors, metres. */
const HEIGHT = 0.01;

/** Rows whose published half range is not that of their own tide levels; see data/README.md. */
const CONTRADICT_THEMSELVES = ['SLCC730', 'SLCC737', 'SLCC759', 'SLCC760', 'SLCC761'];

const text = (row: Cells, column: string) => row[column] ?? '';
/** An empty cell counts as 0, as in the dataset. */
const number = (row: Cells, column: string) => Number(text(row, column));
const tideLevels = (row: Cells) =>
  ['lat', 'mllw', 'mlw', 'mtl', 'mhw', 'mhhw', 'hat'].flatMap((level) => {
    const cell = text(row, `${level}_m_msl`);
    // The dataset carries the error of its tide model as two separate parts.
    return cell === '' ? [] : [{ level: level.toUpperCase(), elevation_m: Number(cell), sigma_m: 0 }];
  });
const errors = (row: Cells): HeightError[] =>
  ['sample_elevation_error_plus_2s_m', 'rwl_model_uncertainty_m', 'ir_model_uncertainty_m'].map((column) =>
    declaredError({
      component: column,
      value_m: number(row, column),
      sigma_level: 2,
      shape: 'normal',
      shared_group: null,
      source: 'dataset',
    }),
  );
/** "HAT to MTL": from the upper limit to the lower. */
const limits = (row: Cells) => {
  const [upper = '', lower = ''] = text(row, 'indicative_meaning').split(' to ');
  return { lower: { level: lower, offset_m: 0 }, upper: { level: upper, offset_m: 0 } };
};

const published = rows.filter((row) => text(row, 'published_rsl_m') !== '');

test('the dataset is whole: 505 rows, 163 with elevation, tide levels, meaning and RSL', () => {
  assert.equal(rows.length, 505);
  assert.equal(published.length, 163);
  assert.ok(
    published.every(
      (row) =>
        text(row, 'sample_elevation_m_msl') !== '' && /^\w+ to \w+$/.test(text(row, 'indicative_meaning')),
    ),
  );
});

test('163 rows, from their tide levels and meaning: RSL, and the 2 sigma of all but the five that contradict themselves', () => {
  const differing: string[] = [];
  for (const row of published) {
    const id = text(row, 'sample_id');
    const point = indexPoint({
      elevation_m: number(row, 'sample_elevation_m_msl'),
      ...limits(row),
      tide_levels: tideLevels(row),
      tide_group: null,
      errors: errors(row),
    });
    assert.ok(point.ok, `${id}: ${point.ok ? '' : point.expected}`);
    const rsl_m = number(row, 'published_rsl_m');
    assert.ok(Math.abs(point.rsl_m - rsl_m) <= HEIGHT, `${id}: RSL ${point.rsl_m}, published ${rsl_m}`);
    const error_m = number(row, 'published_rsl_error_plus_2s_m');
    if (Math.abs(point.protocol_2sigma_m - error_m) > HEIGHT) differing.push(id);
  }
  assert.deepEqual(differing, CONTRADICT_THEMSELVES);
});

test('163 rows, from the reference water level and half range as published, by the plain table: RSL and 2 sigma of every one', () => {
  for (const row of published) {
    const id = text(row, 'sample_id');
    const point = plainPoint({
      id,
      kind: 'index',
      elevation_m: text(row, 'sample_elevation_m_msl'),
      reference_water_level_m: text(row, 'reference_water_level_m_msl'),
      // Half ranges of three rows are published negative.
      indicative_range_m: String(2 * Math.abs(number(row, 'indicative_range_uncertainty_m'))),
      error_elevation_m: text(row, 'sample_elevation_error_plus_2s_m'),
      error_water_level_m: text(row, 'rwl_model_uncertainty_m'),
      error_range_m: text(row, 'ir_model_uncertainty_m'),
    });
    assert.ok(point.ok, id);
    const rsl_m = number(row, 'published_rsl_m');
    assert.ok(Math.abs(point.rsl_m - rsl_m) <= HEIGHT, `${id}: RSL ${point.rsl_m}, published ${rsl_m}`);
    for (const side of ['plus', 'minus']) {
      const error_m = number(row, `published_rsl_error_${side}_2s_m`);
      assert.ok(
        Math.abs(point.error_m - error_m) <= HEIGHT,
        `${id}: error ${point.error_m}, published ${error_m}`,
      );
    }
  }
});

test('every limiting row makes a bound whose 2 sigma is the published one', () => {
  let checked = 0;
  for (const row of rows) {
    const [side, level = ''] = text(row, 'indicative_meaning').split(' ');
    if (side !== 'above' && side !== 'below') continue;
    if (text(row, 'sample_elevation_m_msl') === '' || text(row, 'published_rsl_error_plus_2s_m') === '')
      continue;
    const levels = tideLevels(row);
    if (!levels.some((l) => l.level === level)) continue;
    const point = limitingPoint({
      kind: side === 'above' ? 'terrestrial' : 'marine',
      elevation_m: number(row, 'sample_elevation_m_msl'),
      bound: { level, offset_m: 0 },
      tide_levels: levels,
      tide_group: null,
      errors: errors(row),
    });
    assert.ok(point.ok);
    assert.equal(point.rsl_m, number(row, 'sample_elevation_m_msl') - number(row, 'mtl_m_msl'));
    assert.ok(
      Math.abs(point.protocol_2sigma_m - number(row, 'published_rsl_error_plus_2s_m')) <= HEIGHT,
      text(row, 'sample_id'),
    );
    checked += 1;
  }
  // Of 340 limiting rows 238 give elevation, the tide level they use, and an error.
  assert.equal(checked, 238);
});
