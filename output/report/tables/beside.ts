/** Other curves and predictions beside the curve: one a row, then what lies between at each age and over each interval. */
import {
  curveOf,
  type OtherCurveResult,
  othersBeside,
  type Results,
  resultsShape,
} from '@stillstand/campaign/results';
import { textColumn, yesNoColumn } from './column.ts';
import { table } from './table.ts';

const { others } = resultsShape.fields.curves.of.fields;
const { at, intervals } = others.of.fields;

interface Of {
  name: string;
  use: string;
  converged: boolean;
}

const of = (results: Results, { name, use }: OtherCurveResult): Of => ({
  name,
  use,
  converged: curveOf(results)?.diagnostics.converged ?? false,
});

const name = textColumn({ heading: 'name', about: others.of.fields.name.about }, (row: Of) => row.name);
const use = textColumn({ heading: 'use', about: others.of.fields.use.about }, (row: Of) => row.use);
const converged = yesNoColumn(
  { heading: 'converged', about: 'whether every reported number of the curve met the rules' },
  (row: Of) => row.converged,
);

export const OTHER_CURVES = table({
  file: 'compared_curves.csv',
  entry: 'curves[].others[]',
  about: others.about,
  shape: others.of,
  rows: (results) => othersBeside(results).map((other) => ({ ...of(results, other), other })),
  read: ({ other }) => other,
  leftOut: {
    levels: 'as recorded: other_curves.csv of the campaign',
    at: 'differences.csv',
    intervals: 'rate_differences.csv',
  },
  last: [converged],
});

export const DIFFERENCES = table({
  file: 'differences.csv',
  entry: 'curves[].others[].at[]',
  about: at.about,
  shape: at.of,
  rows: (results) =>
    othersBeside(results).flatMap((other) => other.at.map((each) => ({ ...of(results, other), each }))),
  read: ({ each }) => each,
  first: [name, use],
  last: [converged],
});

export const RATE_DIFFERENCES = table({
  file: 'rate_differences.csv',
  entry: 'curves[].others[].intervals[]',
  about: intervals.about,
  shape: intervals.of,
  rows: (results) =>
    othersBeside(results).flatMap((other) =>
      other.intervals.map((each) => ({ ...of(results, other), each })),
    ),
  read: ({ each }) => each,
  first: [name, use],
  last: [converged],
});
