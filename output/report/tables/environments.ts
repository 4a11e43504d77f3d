/** What stood at holes through time, and how an edge went along a line: one row to each spell, bed, passage and age. */
import { type EnvironmentResult, type LineThroughTime, resultsShape } from '@stillstand/campaign/results';
import { type Column, numberColumn, textColumn } from './column.ts';
import { columnsOf, someOf } from './described.ts';
import { table } from './table.ts';

const { environments, lines_through_time } = resultsShape.fields;
const { spells, beds } = environments.of.fields;
const { edge, stood, past_sections } = lines_through_time.of.fields;
const { passages } = edge.fields;
const { holes } = past_sections.of.fields;
const RUN = 'a run of numbers, in results.json';

interface OfHole<Entry> {
  of: EnvironmentResult;
  entry: Entry;
}
interface OfLine<Entry> {
  of: LineThroughTime;
  entry: Entry;
}

/** Which hole, or which line, a row belongs to: no field of the entry. */
const hole = <Row extends OfHole<unknown>>(): Column<Row>[] =>
  columnsOf(someOf(environments.of, ['hole', 'converged']), ({ of }: Row) => of).map((column) => ({
    ...column,
    field: null,
  }));
const line = <Row extends OfLine<unknown>>(): Column<Row>[] =>
  columnsOf(someOf(lines_through_time.of, ['line', 'converged']), ({ of }: Row) => of).map((column) => ({
    ...column,
    field: null,
  }));

type Spell = EnvironmentResult['spells'][number];

export const ENVIRONMENTS = table({
  file: 'environments.csv',
  entry: 'environments[].spells[]',
  about: 'what stood at each hole that has ages against depth, from the youngest down',
  shape: spells.of,
  rows: (results) =>
    results.environments.flatMap((of) => of.spells.map((entry): OfHole<Spell> => ({ of, entry }))),
  read: ({ entry }: OfHole<Spell>) => entry,
  first: hole<OfHole<Spell>>(),
  leftOut: { units: 'in the column layers', probability: RUN },
  last: [
    textColumn({ heading: 'layers', about: 'its layers, from the top down' }, ({ entry }: OfHole<Spell>) =>
      entry.units.map(({ unit }) => unit).join('; '),
    ),
  ],
});

type Bed = EnvironmentResult['beds'][number];

export const EVENT_BEDS = table({
  file: 'event_beds.csv',
  entry: 'environments[].beds[]',
  about: 'beds laid down at once, with their ages',
  shape: beds.of,
  rows: (results) =>
    results.environments.flatMap((of) => of.beds.map((entry): OfHole<Bed> => ({ of, entry }))),
  read: ({ entry }: OfHole<Bed>) => entry,
  first: hole<OfHole<Bed>>(),
});

type Passage = NonNullable<LineThroughTime['edge']>['passages'][number];

export const EDGE_PASSAGES = table({
  file: 'edge_passages.csv',
  entry: 'lines_through_time[].edge.passages[]',
  about: 'when the edge of each section line passed its holes',
  shape: passages.of,
  rows: (results) =>
    results.lines_through_time.flatMap((of) =>
      (of.edge?.passages ?? []).map((entry): OfLine<Passage> => ({ of, entry })),
    ),
  read: ({ entry }: OfLine<Passage>) => entry,
  first: line<OfLine<Passage>>(),
});

interface EdgeAt {
  edge: NonNullable<LineThroughTime['edge']>;
  place: number;
}
const EDGE_RUNS = [
  ['ages_cal_bp', 'age_cal_bp', 'age, cal BP', 0],
  ['median', 'along_m_median', 'where the edge was along the line, median, m; empty: not known', 1],
  ['lower95', 'along_m_lower_95', 'lower end of its central 95 %, m', 1],
  ['upper95', 'along_m_upper_95', 'upper end of its central 95 %, m', 1],
  ['between', 'between', 'probability that it was between two holes', 4],
  ['inside_of_all', 'inside_of_all', 'probability that even the innermost hole was outside', 4],
  ['outside_of_all', 'outside_of_all', 'probability that all holes were inside', 4],
] as const;

export const EDGES = table({
  file: 'edges.csv',
  entry: 'lines_through_time[].edge',
  about: 'where the edge of each section line was, age by age',
  shape: edge,
  rows: (results) =>
    results.lines_through_time.flatMap((of) =>
      of.edge === null
        ? []
        : [...of.edge.ages_cal_bp.keys()].map(
            (place): OfLine<EdgeAt> => ({ of, entry: { edge: of.edge!, place } }),
          ),
    ),
  read: ({ entry }: OfLine<EdgeAt>) => entry.edge,
  first: line<OfLine<EdgeAt>>(),
  leftOut: {
    passages: 'in edge_passages.csv',
    ages_cal_bp: 'one age to a row, in the column age_cal_bp',
    median: 'in the column along_m_median',
    lower95: 'in the column along_m_lower_95',
    upper95: 'in the column along_m_upper_95',
    between: 'one age to a row, in the column between',
    inside_of_all: 'one age to a row, in the column inside_of_all',
    outside_of_all: 'one age to a row, in the column outside_of_all',
  },
  last: EDGE_RUNS.map(([run, heading, about, decimals]) =>
    numberColumn({ heading, about }, decimals, ({ entry }: OfLine<EdgeAt>) => entry.edge[run][entry.place]!),
  ),
});

type Stood = LineThroughTime['stood'][number];

export const STOOD = table({
  file: 'environments_stood.csv',
  entry: 'lines_through_time[].stood[]',
  about: 'how long each environment stood along a section line',
  shape: stood.of,
  rows: (results) =>
    results.lines_through_time.flatMap((of) => of.stood.map((entry): OfLine<Stood> => ({ of, entry }))),
  read: ({ entry }: OfLine<Stood>) => entry,
  first: line<OfLine<Stood>>(),
});

type Past = LineThroughTime['past_sections'][number];
interface PastHole {
  past: Past;
  hole: Past['holes'][number];
}

export const PAST_SECTIONS = table({
  file: 'past_sections.csv',
  entry: 'lines_through_time[].past_sections[].holes[]',
  about:
    'what stood at the holes of each section line at the ages of its sections, and how high the ground lay',
  shape: holes.of,
  rows: (results) =>
    results.lines_through_time.flatMap((of) =>
      of.past_sections.flatMap((past) =>
        past.holes.map((own): OfLine<PastHole> => ({ of, entry: { past, hole: own } })),
      ),
    ),
  read: ({ entry }: OfLine<PastHole>) => entry.hole,
  first: [
    ...line<OfLine<PastHole>>(),
    ...columnsOf(
      someOf(past_sections.of, ['age_cal_bp', 'level_m']),
      ({ entry }: OfLine<PastHole>) => entry.past,
    ).map((column) => ({ ...column, field: null })),
  ],
});
