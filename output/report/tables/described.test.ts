/** A table follows the description of what it lists. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { resultsShape } from '@stillstand/campaign/results';
import {
  list,
  number,
  numbers,
  orNull,
  record,
  type Shape,
  type ShapeFields,
  sigma,
  text,
} from '@stillstand/science/shape';
import { tinyResults } from '../fixtures/results.ts';
import { NO_TABLE, TABLES } from '../tables.ts';
import { along } from './along.ts';
import { columnsOf, plusMinus, shownAs } from './described.ts';

const { samples, histories, curves } = resultsShape.fields;

test('every field of an entry has a column, or is left out with a reason', () => {
  for (const { file, fields, leftOut, columns } of TABLES) {
    for (const results of [null, tinyResults()]) {
      const shown = new Set(columns(results).map(({ field }) => field));
      for (const field of fields) {
        assert.ok(
          shown.has(field) !== Object.hasOwn(leftOut, field),
          `${file}: ${field} must have a column or a reason to have none, not both`,
        );
      }
    }
    for (const why of Object.values(leftOut)) assert.ok(why.length > 5, `${file}: a reason`);
  }
});

test('every list of records and every run of numbers is in a table, or left out with a reason', () => {
  const tables = new Map(TABLES.map((table) => [table.entry, table]));
  const missing: string[] = [];
  const look = (at: string, fields: ShapeFields, leftOut: Readonly<Record<string, string>>): void => {
    for (const [name, shape] of Object.entries(fields)) {
      const entry = `${at}${name}${shape.kind === 'list' ? '[]' : ''}`;
      const table = tables.get(entry);
      const inside: Shape = shape.kind === 'list' ? shape.of : shape;
      if (table !== undefined && inside.kind === 'record') look(`${entry}.`, inside.fields, table.leftOut);
      else if (!Object.hasOwn(leftOut, name) && !within(at, name)) missing.push(entry);
    }
  };
  /** Shown by the table of what it is in. */
  const within = (at: string, name: string): boolean =>
    tables
      .get(at.slice(0, -1))
      ?.columns(null)
      .some(({ field }) => field === name) ?? false;
  const { curves: _, ...others } = resultsShape.fields;
  look('', others, NO_TABLE as Record<string, string>);
  // One curve is reported; its name and sites head the report.
  look('curves[].', { curve: curves.of.fields.curve }, { points: 'points.csv' });
  assert.deepEqual(missing, []);
});

test('a number, a word and an estimate that a room adds are columns without a word in the tables', () => {
  const estimate = samples.of.fields.elevation_m;
  const more = record(samples.of.about, {
    ...samples.of.fields,
    porosity: orNull(number('share of pores', 'ratio')),
    shear_kpa: number('shear strength', 'kPa'),
    shear_sigma_kpa: sigma('1 sigma of the shear strength', 'kPa'),
    shell: text('kind of shell'),
    lowering_m: estimate,
    slices: list('slices', record('one slice', { water: number('water content', 'ratio') })),
  });
  const sample = tinyResults().samples[0]!;
  const row = {
    ...sample,
    porosity: 0.456,
    shear_kpa: 12.34567,
    shear_sigma_kpa: 0.0012345,
    shell: '=cockle',
    lowering_m: { value: 0.12345, sigma: 0.004, lower95: 0.11, upper95: 0.14 },
    slices: [],
  };
  const columns = columnsOf(more, (each: typeof row) => each, {
    shown: { elevation_m: plusMinus() },
    leftOut: { components: 'a reason' },
  });
  const added = columns.slice(-8).map(({ heading, about, cell }) => [heading, about, cell(row)]);
  assert.deepEqual(added, [
    ['porosity_ratio', 'share of pores; ratio', '0.46'],
    ['shear_kpa', 'shear strength; kPa', '12.35'],
    ['shear_kpa_1sigma', '1 sigma of the shear strength; kPa', '0.001234'],
    ['shell', 'kind of shell', "'=cockle"],
    ['lowering_m', `${estimate.about}: best value`, '0.123'],
    ['lowering_m_lower_95', `${estimate.about}: lower end of the central 95 %`, '0.110'],
    ['lowering_m_upper_95', `${estimate.about}: upper end of the central 95 %`, '0.140'],
    ['row_id', samples.of.fields.row_id.about, sample.row_id],
  ]);
  assert.ok(!columns.some(({ field }) => field === 'slices' || field === 'components'));
});

test('a band that a room adds is a column at each place', () => {
  const { depth_m, accumulation_mm_yr } = histories.of.fields;
  const history = along(
    record('a history', {
      depth_m,
      accumulation_mm_yr,
      supply_mm_yr: accumulation_mm_yr,
      draws_m: numbers('draws, whose places are others', 'm'),
    }),
    'depth_m',
  );
  const band = (at: number) =>
    Object.fromEntries(
      Object.keys(accumulation_mm_yr.fields).map((name) => [name, Float64Array.of(0, at)]),
    ) as Record<keyof typeof accumulation_mm_yr.fields, Float64Array>;
  const value = {
    depth_m: Float64Array.of(1, 2),
    accumulation_mm_yr: band(3),
    supply_mm_yr: band(4.5),
    draws_m: Float64Array.of(7, 8),
  };
  const row = history.at(value, 1);
  const columns = columnsOf(history.shape, (each: typeof row) => each, {
    shown: { depth_m: shownAs('depth') },
    leftOut: { accumulation_mm_yr: 'a reason' },
  });
  const cells = new Map(columns.map(({ heading, cell }) => [heading, cell(row)]));
  assert.equal(cells.get('depth'), '2.00');
  assert.equal(cells.get('supply_mm_yr_median')?.slice(0, 3), '4.5');
  assert.ok(cells.has('supply_mm_yr_lower_68'));
  assert.ok(![...cells.keys()].some((heading) => heading.startsWith('draws')));
});

test('a number named after a sigma is described as one, so that a heading says its level', () => {
  const wrong: string[] = [];
  const look = (at: string, shape: Shape): void => {
    if (shape.kind === 'number' && /sigma/.test(at.split('.').at(-1)!) !== shape.isSigma) wrong.push(at);
    if (shape.kind === 'list') look(`${at}[]`, shape.of);
    if (shape.kind === 'record') {
      for (const [name, field] of Object.entries(shape.fields)) look(`${at}.${name}`, field);
    }
  };
  look('', resultsShape);
  // What laboratories and calibration give has its own names.
  assert.deepEqual(wrong, ['.dates[].error', '.dates[].delta_r_error', '.dates[].sd_yr']);
});
