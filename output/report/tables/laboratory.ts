/** Laboratory logs, grain sizes and their classes. */
import {
  type GrainSizeResult,
  type LogPoint,
  type LogResult,
  resultsShape,
} from '@stillstand/campaign/results';
import type { Column } from './column.ts';
import { columnsOf, members, plusMinus, shownAs, someOf } from './described.ts';
import { decimalsTyped } from './measurements.ts';
import { itself, table } from './table.ts';

const { logs, grain_sizes } = resultsShape.fields;
const { points } = logs.of.fields;
const { classes, folk_ward, moments } = grain_sizes.of.fields;

interface PointOfLog {
  of: LogResult;
  point: LogPoint;
}

const asField = <Row>(column: Column<Row>): Column<Row> => ({ ...column, field: null });

export const LOGS = table({
  file: 'logs.csv',
  entry: 'logs[].points[]',
  about: `${logs.about}, a row for each value`,
  shape: points.of,
  rows: (results) => results.logs.flatMap((of) => of.points.map((point): PointOfLog => ({ of, point }))),
  read: ({ point }: PointOfLog) => point,
  first: columnsOf(someOf(logs.of, ['hole', 'property', 'unit']), ({ of }: PointOfLog) => of).map(asField),
  plan: {
    shown: {
      value: shownAs('value', { decimals: ({ point }) => decimalsTyped(point.value) }),
      sigma: shownAs('value_1sigma', { decimals: ({ point }) => decimalsTyped(point.sigma) }),
      thickness_m: shownAs('thickness_m', { decimals: 3 }),
    },
  },
});

const PHI = { decimals: 3 };

export const GRAIN_SIZES = table({
  file: 'grain_sizes.csv',
  entry: 'grain_sizes[]',
  about: grain_sizes.of.about,
  shape: grain_sizes.of,
  rows: (results) => results.grain_sizes,
  read: itself<GrainSizeResult>,
  plan: {
    decimals: 2,
    shown: {
      depth_m: plusMinus(),
      thickness_m: shownAs('thickness_m', PHI),
      folk_ward: members(folk_ward, PHI),
      moments: members(moments, PHI),
    },
  },
  leftOut: { classes: 'in grain_classes.csv' },
});

interface ClassOfSample {
  of: GrainSizeResult;
  each: GrainSizeResult['classes'][number];
}

export const GRAIN_CLASSES = table({
  file: 'grain_classes.csv',
  entry: 'grain_sizes[].classes[]',
  about: 'classes of the grain-size analyses, from coarse to fine',
  shape: classes.of,
  rows: (results) =>
    results.grain_sizes.flatMap((of) => of.classes.map((each): ClassOfSample => ({ of, each }))),
  read: ({ each }: ClassOfSample) => each,
  first: columnsOf(
    someOf(grain_sizes.of, ['hole', 'sample', 'batch', 'depth_m']),
    ({ of }: ClassOfSample) => of,
    {
      shown: { depth_m: plusMinus() },
    },
  ).map(asField),
  plan: { decimals: 3 },
});
