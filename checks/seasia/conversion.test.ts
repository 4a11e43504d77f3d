/**
 * The converted campaign against the dataset it comes from (README.md): nothing lost on the way, and the published
 * RSL and error come back from its tables.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { parseTideWord } from '@stillstand/campaign/tables';
import { declaredError, indexPoint, limitingPoint } from '@stillstand/science/points';
import { type Cells, readTable } from '../points/table.ts';
import { convert, type Tables } from './convert.ts';

const dataset = readTable(new URL('./data/singapore.csv', import.meta.url));
const tables = convert(dataset);
const of = (row: Cells | undefined, column: string) => row?.[column] ?? '';
const published = (row: Cells, column: string) => Number(of(row, column));

/** Published heights and errors, metres. */
const HEIGHT = 0.01;

test('the stored campaign is what the conversion makes', () => {
  for (const [name, rows] of Object.entries(tables) as [keyof Tables, Cells[]][]) {
    const stored = readTable(new URL(`./campaign/${name}.csv`, import.meta.url));
    assert.equal(stored.length, rows.length, name);
    stored.forEach((row, i) => {
      for (const [column, cell] of Object.entries(row))
        assert.equal(cell, of(rows[i], column), `${name} ${i}`);
    });
  }
});

test('every row of the dataset is a sample, a determination and a point of all three kinds', () => {
  assert.equal(dataset.length, 66);
  for (const name of ['samples', 'determinations', 'points'] as const) assert.equal(tables[name].length, 66);
  const kinds = Map.groupBy(tables.points, (p) => of(p, 'kind'));
  assert.deepEqual(
    ['index', 'terrestrial', 'marine'].map((kind) => kinds.get(kind)?.length),
    [23, 24, 19],
  );
  const rejected = tables.points.filter((p) => of(p, 'status') === 'rejected').map((p) => of(p, 'point'));
  assert.deepEqual(rejected, ['SLCC426', 'SLCC427', 'SLCC430', 'SLCC431']);
});

test('labels are unique, and what rows point to is there', () => {
  const labels = (name: keyof Tables, column: string) => {
    const all = tables[name].map((row) => of(row, column));
    assert.equal(new Set(all).size, all.length, `${name}.${column}`);
    return new Set(all);
  };
  const sites = labels('sites', 'site');
  const samples = labels('samples', 'sample');
  const determinations = labels('determinations', 'lab_code');
  const points = labels('points', 'point');
  assert.equal(sites.size, 7);
  for (const row of tables.samples) assert.ok(sites.has(of(row, 'site')));
  for (const row of tables.determinations) assert.ok(samples.has(of(row, 'sample')));
  for (const row of tables.points) assert.ok(determinations.has(of(row, 'determination')));
  for (const row of tables.point_errors) assert.ok(points.has(of(row, 'point')));
});

test('RSL of every index point and 2 sigma of every point come back from the tables within 1 cm', () => {
  for (const row of dataset) {
    const id = of(row, 'sample_id');
    const sample = tables.samples.find((s) => of(s, 'sample') === id);
    const point = tables.points.find((p) => of(p, 'point') === id);
    const bound = (column: string) => {
      const word = parseTideWord(of(point, column));
      assert.ok(word.ok, `${id} ${column}`);
      return word;
    };
    const shared = {
      elevation_m: Number(of(sample, 'elevation_m')),
      tide_levels: tables.tide_levels
        .filter((level) => of(level, 'site') === of(sample, 'site'))
        .map((level) => ({
          level: of(level, 'level'),
          elevation_m: Number(of(level, 'elevation_m')),
          sigma_m: Number(of(level, 'sigma_m')),
        })),
      tide_group: of(sample, 'site'),
      errors: tables.point_errors
        .filter((e) => of(e, 'point') === id)
        .map((e) =>
          declaredError({
            component: of(e, 'component'),
            value_m: Number(of(e, 'value_m')),
            sigma_level: 2,
            shape: 'normal',
            shared_group: of(e, 'shared_group') || null,
            source: 'declared',
          }),
        ),
    };
    const kind = of(point, 'kind');
    const made =
      kind === 'index'
        ? indexPoint({ ...shared, lower: bound('lower'), upper: bound('upper') })
        : kind === 'terrestrial'
          ? limitingPoint({ ...shared, kind, bound: bound('lower') })
          : limitingPoint({ ...shared, kind: 'marine', bound: bound('upper') });
    assert.ok(made.ok, id);
    if (kind === 'index') {
      assert.ok(Math.abs(made.rsl_m - published(row, 'published_rsl_m')) <= HEIGHT, id);
    }
    const error_m = published(row, 'published_rsl_error_plus_2s_m');
    assert.ok(
      Math.abs(made.protocol_2sigma_m - error_m) <= HEIGHT,
      `${id}: ${made.protocol_2sigma_m}, published ${error_m}`,
    );
  }
});
