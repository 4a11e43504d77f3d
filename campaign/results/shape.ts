/** The whole of the results, in the order they are written. Each part is described by the room that makes it. */
import { problemShape } from '@stillstand/campaign/problems';
import {
  fixed,
  list,
  number,
  orNull,
  record,
  type ShapeValue,
  text,
  word,
  yesNo,
} from '@stillstand/science/shape';
import { correlationShape, horizonShape, proposalShape } from './correlation.ts';
import { dateShape } from './date.ts';
import { doseRateShape } from './dose-rate.ts';
import { environmentShape, lineThroughTimeShape } from './environment.ts';
import { expectationShape } from './expectation.ts';
import { grainSizeShape } from './grain-size.ts';
import { holeHistoryShape } from './history.ts';
import { holeShape } from './hole.ts';
import { leadProfileShape } from './lead-profile.ts';
import { logShape } from './log.ts';
import { measurementShape } from './measurement.ts';
import { photographShape } from './photograph.ts';
import { pointShape, undatedShape } from './point.ts';
import { publishedPointShape } from './published-point.ts';
import { sampleShape } from './sample.ts';
import { seaShape } from './sea.ts';
import { sectionShape } from './section.ts';
import { siteTideShape } from './site-tide.ts';

export const resultsShape = record('what comes out of a campaign', {
  format: word('what this file is', ['stillstand-results']),
  version: fixed('version of the shape of this file', 5),
  computation: text('version of the computation; changes when a number can change'),
  campaign: orNull(
    text('identity of the campaign, in datapackage.json; puts names it shares with others apart'),
  ),
  name: text('name of the campaign'),
  seed: number('seed of the random streams', ''),
  inputs: text('hash of everything the results depend on'),
  datum: record('the zero of elevations and sea levels', {
    label: text('name of the datum'),
    kind: orNull(text('kind of datum as the table datums says; null where there is none')),
    epoch: orNull(text('tidal epoch')),
  }),
  problems: list('problems, in the order they were found', problemShape),
  holes: list('holes', holeShape),
  correlations: list(
    'contacts correlated between holes, in the order of their table; only those a person has accepted',
    correlationShape,
  ),
  horizons: list('contacts that a correlation names, in the order of their first row', horizonShape),
  correlation_proposals: list(
    'correlations proposed between neighbouring holes, from the top down; never part of the correlations until a person accepts them',
    proposalShape,
  ),
  sections: list('sections: one for each section line; without any, one through all holes', sectionShape),
  expectations: list(
    'what holes that are planned or open are expected to meet; of those with a position next to a described one',
    expectationShape,
  ),
  tides: list('tide levels of the sites that have some', siteTideShape),
  samples: list('samples', sampleShape),
  measurements: list('laboratory values, in the order of their table', measurementShape),
  logs: list(
    'laboratory values by hole and quantity, in one unit each; classes of a grain-size analysis and weights are not among them',
    logShape,
  ),
  grain_sizes: list('grain-size analyses, in the order of the first row of each', grainSizeShape),
  photographs: list('photographs of cores, in the order of their table', photographShape),
  dates: list('dating results', dateShape),
  dose_rates: list(
    'dose rates computed from contents, in the order of the dates they are for',
    doseRateShape,
  ),
  lead_profiles: list('profiles of lead-210 and caesium-137, in the order of their table', leadProfileShape),
  histories: list('age against depth of each hole that was asked for and has dates enough', holeHistoryShape),
  environments: list(
    'what stood where, of each hole with ages against depth and a levelled ground',
    environmentShape,
  ),
  lines_through_time: list(
    'section lines through time, of those with a hole among the environments',
    lineThroughTimeShape,
  ),
  points: list('index and limiting points', pointShape),
  undated: list('index points as they would be with a date; they wait for one', undatedShape),
  published: list('sea-level points of the literature, on the datum of the campaign', publishedPointShape),
  groups: list(
    'errors that several results share',
    record('a group', {
      id: text('name of the group, unique in the campaign among its kind'),
      kind: word(
        'what is shared: a height error of points, or a reservoir offset or a systematic error of dates',
        ['height', 'delta_r', 'dose'],
      ),
      members: list('points by their labels, dates by their laboratory codes', text('one member')),
    }),
  ),
  curves: list('sea-level curves asked for; empty where no point can be used', seaShape),
  settings: list(
    'settings the computation used',
    record('one setting', {
      name: text('name'),
      value: text('value'),
      assumed: yesNo('whether it is the default, chosen by no one'),
    }),
  ),
});

/** Everything readonly. */
export type Results = ShapeValue<typeof resultsShape>;
