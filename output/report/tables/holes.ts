/** Holes, and what is in them. */
import { type HoleResult, resultsShape } from '@stillstand/campaign/results';
import { written } from '@stillstand/output/words';
import type { ListShape, RecordShape, ShapeFields, ShapeValue } from '@stillstand/science/shape';
import type { Column } from './column.ts';
import {
  atTwoSigma,
  columnsOf,
  inWords,
  members,
  type Plan,
  plusMinus,
  shownAs,
  someOf,
} from './described.ts';
import { itself, table } from './table.ts';

const hole = resultsShape.fields.holes.of;
const { runs, units, account } = hole.fields;

export const HOLES = table({
  file: 'holes.csv',
  entry: 'holes[]',
  about: hole.about,
  shape: hole,
  rows: (results) => results.holes,
  read: itself<HoleResult>,
  plan: {
    shown: {
      latitude_deg: shownAs('latitude_deg_wgs84'),
      longitude_deg: shownAs('longitude_deg_wgs84'),
      section_m: shownAs('along_section_m', { decimals: 1 }),
      reference_elevation_m: plusMinus(),
      ground_elevation_m: plusMinus(),
      entered_m: shownAs('entered_length_m'),
      recovery: shownAs('pipe_recovery_ratio'),
      shortening: members(hole.fields.shortening, {
        shown: {
          recovery_at_ground: plusMinus('recovery_at_ground_ratio'),
          length_m: plusMinus(),
          recovery_at_depth: plusMinus('recovery_at_depth_ratio'),
          layer_sd: plusMinus('layer_contrast'),
          friction_per_m: plusMinus(),
          by_passed_m: plusMinus(),
        },
      }),
      not_represented: inWords('not_represented_m_depth', (gaps) =>
        gaps.map((gap) => `${written(gap.top_m, 2)} to ${written(gap.bottom_m, 2)}`).join('; '),
      ),
    },
    after: { left_in_ground: 'not_represented' },
  },
  leftOut: {
    states: 'a state for each reading: in results.json',
    drives: 'in results.json, and drawn in the figures of driving',
    pace_trend: 'for drawing',
    runs: 'runs.csv',
    units: 'units.csv',
    soundings: 'for drawing; the readings are in the campaign’s own tables',
    depth: 'for drawing; what it says of runs, units and samples is in their tables',
    alternative_models: 'for drawing: simpler corrections, which nothing else is made from',
    account: 'account.csv',
  },
});

interface InHole<Own> {
  hole: HoleResult;
  own: Own;
}
/** Of which hole. */
const ofHole: readonly Column<InHole<unknown>>[] = columnsOf(someOf(hole, ['hole']), (row) => row.hole);

/** A table of something that every hole has a list of. */
const tableInHoles = <Fields extends ShapeFields>(
  name: string,
  { of: shape }: ListShape<RecordShape<Fields, false>>,
  rows: (of: HoleResult) => readonly ShapeValue<RecordShape<Fields, false>>[],
  plan: Plan<Fields, InHole<ShapeValue<RecordShape<Fields, false>>>> = {},
) =>
  table({
    file: `${name}.csv`,
    entry: `holes[].${name}[]`,
    about: shape.about,
    shape,
    rows: ({ holes }) => holes.flatMap((of) => rows(of).map((own) => ({ hole: of, own }))),
    read: ({ own }) => own,
    first: ofHole,
    plan,
  });

export const RUNS = tableInHoles('runs', runs, (of) => of.runs, {
  shown: { removed_sigma_m: atTwoSigma(), sampler_recovery: shownAs('sampler_recovery_ratio') },
});

export const UNITS = tableInHoles('units', units, (of) => of.units, {
  shown: { elevation_top_m: plusMinus(), elevation_bottom_m: plusMinus() },
});

export const ACCOUNT = tableInHoles('account', account, (of) => of.account);
