/**
 * Results as CSV tables, one a subject, for a paper's supplement and for databases. What a table lists, its columns and
 * the words that explain them follow from the description of the results (docs/report-tables.md). Units and sigma level
 * stand in the headings; decimals follow the uncertainty.
 */
import type { Results, resultsShape } from '@stillstand/campaign/results';
import { ANSWERS } from './tables/answers.ts';
import { DIFFERENCES, OTHER_CURVES, RATE_DIFFERENCES } from './tables/beside.ts';
import { CORRELATIONS, HORIZONS, PROPOSALS } from './tables/correlations.ts';
import { CURVE, INTERVALS } from './tables/curve.ts';
import { AGE_DEPTH, DATES, SAMPLES } from './tables/dates.ts';
import { DOSE_RATES } from './tables/dose-rates.ts';
import {
  EDGE_PASSAGES,
  EDGES,
  ENVIRONMENTS,
  EVENT_BEDS,
  PAST_SECTIONS,
  STOOD,
} from './tables/environments.ts';
import { EXPECTED } from './tables/expected.ts';
import { GAUGE_BLOCKS } from './tables/gauges.ts';
import { ACCOUNT, HOLES, RUNS, UNITS } from './tables/holes.ts';
import { GRAIN_CLASSES, GRAIN_SIZES, LOGS } from './tables/laboratory.ts';
import { LEAD_AGES, LEAD_PROFILES, LEAD_SLICES } from './tables/lead.ts';
import { PROBLEMS, SETTINGS } from './tables/lists.ts';
import { MEASUREMENTS } from './tables/measurements.ts';
import { NEXT_DATES } from './tables/next-dates.ts';
import { POINTS } from './tables/points.ts';
import { PUBLISHED_POINTS } from './tables/published.ts';
import { CHANGES, PRIOR_SENSITIVITY, RATES_COMPARED } from './tables/rates.ts';
import { SECTION_CONTACTS, SECTION_HOLES, SECTIONS } from './tables/sections.ts';
import type { ResultTable } from './tables/table.ts';
import { TIDE_LEVELS } from './tables/tides.ts';

/** Every table, in the order they are written. */
export const TABLES: readonly ResultTable[] = [
  HOLES,
  RUNS,
  UNITS,
  CORRELATIONS,
  HORIZONS,
  PROPOSALS,
  SECTIONS,
  SECTION_HOLES,
  SECTION_CONTACTS,
  EXPECTED,
  SAMPLES,
  MEASUREMENTS,
  LOGS,
  GRAIN_SIZES,
  GRAIN_CLASSES,
  TIDE_LEVELS,
  DATES,
  DOSE_RATES,
  LEAD_PROFILES,
  LEAD_SLICES,
  LEAD_AGES,
  AGE_DEPTH,
  ENVIRONMENTS,
  EVENT_BEDS,
  EDGES,
  EDGE_PASSAGES,
  STOOD,
  PAST_SECTIONS,
  POINTS,
  PUBLISHED_POINTS,
  CURVE,
  INTERVALS,
  GAUGE_BLOCKS,
  CHANGES,
  RATES_COMPARED,
  PRIOR_SENSITIVITY,
  ANSWERS,
  OTHER_CURVES,
  DIFFERENCES,
  RATE_DIFFERENCES,
  NEXT_DATES,
  PROBLEMS,
  SETTINGS,
  ACCOUNT,
];

const HEAD = 'of the whole: at the head of results.json and in the report';

/** What of the results no table lists, and why. */
export const NO_TABLE: { readonly [Name in keyof typeof resultsShape.fields]?: string } = {
  format: HEAD,
  version: HEAD,
  computation: HEAD,
  campaign: HEAD,
  name: HEAD,
  seed: HEAD,
  inputs: HEAD,
  datum: HEAD,
  groups: 'points.csv and dates.csv name the group in the row of each member',
  expectations: 'expected.csv has a row for each contact that is expected',
  environments: 'environments.csv has a row for each spell, event_beds.csv for each bed laid down at once',
  lines_through_time:
    'edges.csv, edge_passages.csv, environments_stood.csv and past_sections.csv have the rows of each line',
  horizons: 'horizons.csv has a row for each contact of a horizon',
  logs: 'logs.csv has a row for each value of a log',
  tides: 'tide_levels.csv has a row for each level',
  photographs: 'pictures are drawn, and no number is made of them; where they lay is in results.json',
};

/** Name and bytes of the workbook that has the sea-level table, for those who send it on as a spreadsheet. */
export const pointsWorkbook = (results: Results): [name: string, bytes: Uint8Array] => [
  POINTS.file.replace(/\.csv$/, '.xlsx'),
  POINTS.xlsx(results),
];

/** File name to CSV text. Every table is there, with its headings even where it has no rows. */
export const resultTables = (results: Results): Map<string, string> =>
  new Map(TABLES.map((table) => [table.file, table.csv(results)]));
