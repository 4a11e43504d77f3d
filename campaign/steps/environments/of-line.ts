/** A section line through time: an edge's way, how long each environment stood, the section at ages of the past. */
import type { HoleHistory, LineThroughTime } from '@stillstand/campaign/results';
import { quantiles } from '@stillstand/science/base';
import {
  type AgedColumn,
  edgeAlong,
  levelAt,
  type SeaDraws,
  type Spell,
  spells,
  stood,
  surfaceAt,
} from '@stillstand/science/environments';
import { step } from '../runner/step.ts';
import { agedColumn, type HoleInTime, isInside, STREAM } from './columns.ts';
import { rangeOf, shareOf } from './ranges.ts';

type Asked = {
  holes: readonly HoleInTime[];
  histories: readonly HoleHistory[];
  ages_cal_bp: readonly number[];
  section_ages_cal_bp: readonly number[];
  inside: readonly string[];
  sea: SeaDraws | null;
};

export const lineThroughTime = step(
  'line through time',
  (asked: Asked): Omit<LineThroughTime, 'line' | 'row_id'> => {
    const { holes, histories } = asked;
    const columns = holes.map((hole, i) => agedColumn(hole, histories[i]!));
    return {
      converged: histories.every(({ diagnostics }) => diagnostics.converged),
      edge: edgeOf(columns, asked),
      stood: stoodAlong(columns),
      past_sections: sectionsAt(columns, asked),
    };
  },
);

function edgeOf(columns: readonly AgedColumn[], { ages_cal_bp, inside }: Asked): LineThroughTime['edge'] {
  const edge = edgeAlong(
    columns,
    (environment) => isInside(environment, inside),
    ages_cal_bp,
    STREAM.split('edge'),
  );
  if (edge === null) return null;
  const along = columns.map(({ along_m }) => along_m);
  const ends = [Math.min(...along), Math.max(...along)] as const;
  const inner = columns.find(({ hole }) => hole === edge.innermost)!.along_m === ends[1] ? 1 : 0;
  // Beyond the holes it is nowhere nearer than at the last.
  const held = edge.along_m.map((draws) =>
    draws.map((at) => (at === Infinity ? ends[inner] : at === -Infinity ? ends[1 - inner]! : at)),
  );
  const bands = held.map((draws) => {
    const known = draws.filter((at) => !Number.isNaN(at));
    return known.length === 0 ? [Number.NaN, Number.NaN, Number.NaN] : quantiles(known, [0.025, 0.5, 0.975]);
  });
  const of = (i: number) => Float64Array.from(bands, (band) => band[i]!);
  const share = (is: (at: number) => boolean) =>
    Float64Array.from(edge.along_m, (draws) => shareOf(draws, is));
  return {
    inner: [...inside],
    innermost: edge.innermost,
    ages_cal_bp: Float64Array.from(ages_cal_bp),
    median: of(1),
    lower95: of(0),
    upper95: of(2),
    between: share(Number.isFinite),
    inside_of_all: share((at) => at === Infinity),
    outside_of_all: share((at) => at === -Infinity),
    passages: edge.passages.flatMap(({ hole, along_m, toInner, age_cal_bp }) => {
      const age = rangeOf(age_cal_bp);
      return age === null
        ? []
        : [{ hole, along_m, came: toInner ? ('inside' as const) : ('outside' as const), age_cal_bp: age }];
    }),
  };
}

/** It stood for at least so long with this probability. */
const SURELY = 0.95;

function stoodAlong(columns: readonly AgedColumn[]): LineThroughTime['stood'] {
  const of = (environment: string) =>
    columns.filter(({ layers }) =>
      layers.some((layer) => layer.environment === environment && !layer.isAtOnce),
    );
  const all = new Set(
    columns.flatMap(({ layers }) =>
      layers.flatMap(({ environment, isAtOnce }) => (environment === null || isAtOnce ? [] : [environment])),
    ),
  );
  return [...all]
    .flatMap((environment) => {
      const found = stood(columns, environment, SURELY);
      if (found === null) return [];
      const { began, ended, unbroken, at_least_yr } = found;
      return {
        environment,
        holes: of(environment).map(({ hole }) => hole),
        began_in: began.hole,
        began_cal_bp: rangeOf(began.draws)!,
        ended_in: ended.hole,
        ended_cal_bp: rangeOf(ended.draws)!,
        longest_in: unbroken.hole,
        unbroken_yr: rangeOf(unbroken.draws)!,
        at_least_yr,
      };
    })
    .sort((a, b) => b.began_cal_bp.median - a.began_cal_bp.median);
}

function sectionsAt(
  columns: readonly AgedColumn[],
  { section_ages_cal_bp, sea }: Asked,
): LineThroughTime['past_sections'] {
  const ages = [...section_ages_cal_bp].sort((a, b) => b - a);
  const stoodAt = columns.map((column) => spells(column, ages));
  const draws = columns[0]!.ground_m.length;
  return ages.map((age_cal_bp, i) => ({
    age_cal_bp,
    level_m:
      sea === null
        ? null
        : rangeOf(Float64Array.from({ length: draws }, (_, k) => levelAt(sea, k, draws, age_cal_bp))),
    holes: columns.flatMap((column, h) => {
      const likeliest = stoodAt[h]!.reduce(
        (best, spell) => (best !== null && best.probability[i]! >= spell.probability[i]! ? best : spell),
        null as Spell | null,
      );
      if (likeliest === null) return [];
      const { kind, environment, probability } = likeliest;
      const surface = surfaceAt(column, age_cal_bp);
      const surface_m = kind === 'environment' ? rangeOf(surface.elevation_m) : null;
      const least_m = kind === 'missing' || kind === 'unseen' ? rangeOf(surface.least_m) : null;
      return {
        hole: column.hole,
        along_m: column.along_m,
        kind,
        environment,
        probability: probability[i]!,
        surface_m,
        drawn_m:
          kind === 'since' ? rangeOf(column.ground_m)!.median : ((surface_m ?? least_m)?.median ?? null),
      };
    }),
  }));
}
