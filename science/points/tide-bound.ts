/** A limit in tidal terms ("MHW+0.1") found on a site's tide levels, of today or of the sample's own time. */
import { square } from '@stillstand/science/base';
import type { HeightError } from './error.ts';
import { type NotUsable, notUsable } from './not-usable.ts';
import type { RangeThen } from './tide-range.ts';

/** A tide level plus an offset, metres, up positive. */
export interface TideBound {
  level: string;
  offset_m: number;
}

/** A tide level of one site, on the datum of the sample's elevation. */
export interface SiteTideLevel {
  level: string;
  elevation_m: number;
  /** 1 sigma; null where it was not stated. */
  sigma_m: number | null;
}

/** The tide at the time of a sample, where its range was not today's. */
export interface TideThen {
  range: RangeThen;
  /** What the tide swings about, today, on the datum of the tide levels: the only height that no factor moves. */
  mean: { elevation_m: number; sigma_m: number | null };
  /** All who use the same table share its error: name of that group. */
  group: string;
  /** Where the factor comes from. */
  source: string;
}

/**
 * 1 sigma of a tide level whose sigma was not stated. The protocol's tidal-datum model is 0.05–0.1 m at 2 sigma
 * (Shennan 1986; Engelhart & Horton 2012; Hijma et al. 2015; from memory); the larger is taken.
 */
export const ASSUMED_TIDE_LEVEL_SIGMA_M = 0.05;

/** 1 sigma of a tide level or mean level, as stated or assumed. */
const sigmaOf = ({ sigma_m }: { sigma_m: number | null }): number => sigma_m ?? ASSUMED_TIDE_LEVEL_SIGMA_M;

export interface FoundBound {
  ok: true;
  elevation_m: number;
  sigma_m: number;
  assumed: boolean;
  /** Of the level, without its offset, above what the tide swings about, today, m; 0 where today's range is used. */
  lever_m: number;
}

export function findBound(
  bound: TideBound,
  levels: readonly SiteTideLevel[],
  then: TideThen | null,
): FoundBound | NotUsable {
  const found = levels.find((l) => l.level === bound.level);
  if (found === undefined || !Number.isFinite(found.elevation_m)) {
    return notUsable(
      'tide_level_missing',
      levels.length === 0 ? 'no tide levels' : levels.map((l) => l.level).join(', '),
      `the tide level ${bound.level} of the site`,
      `Add ${bound.level} to the tide levels of the site, or state the meaning in levels that are there.`,
    );
  }
  const { elevation_m, sigma_m } = then === null ? found : levelThen(found, then);
  return {
    ok: true,
    elevation_m: elevation_m + bound.offset_m,
    sigma_m: sigma_m ?? ASSUMED_TIDE_LEVEL_SIGMA_M,
    assumed: found.sigma_m === null,
    lever_m: then === null ? 0 : found.elevation_m - then.mean.elevation_m,
  };
}

/**
 * What the tide of a site swings about, on the datum of its levels: mean sea level (its level MSL, else the zero of a datum
 * that is mean sea level), else the level MTL. Null where none is stated.
 */
export function meanTideLevel<L extends SiteTideLevel>(
  levels: readonly L[],
  isZeroMeanSeaLevel: boolean,
): L | { level: null; elevation_m: 0; sigma_m: 0 } | null {
  const named = (name: string): L | undefined => levels.find(({ level }) => level === name);
  return (
    named('MSL') ??
    (isZeroMeanSeaLevel ? { level: null, elevation_m: 0, sigma_m: 0 } : (named('MTL') ?? null))
  );
}

/**
 * A tide level as it stood above the same mean level: its height above that is scaled. An offset a person added to a
 * level is metres of then as of today. Of the errors of level and mean the smaller is taken to be common to both (one
 * gauge, one datum), and no factor moves it; the remainder of each is its own.
 */
export function levelThen(
  level: SiteTideLevel,
  { range: { factor }, mean }: Pick<TideThen, 'range' | 'mean'>,
): SiteTideLevel {
  // Today's range: as it is, to the last bit.
  if (factor === 1) return level;
  const ofLevel = square(sigmaOf(level));
  const ofMean = square(sigmaOf(mean));
  const common = Math.min(ofLevel, ofMean);
  return {
    ...level,
    elevation_m: mean.elevation_m + factor * (level.elevation_m - mean.elevation_m),
    sigma_m: Math.sqrt(common + square(factor) * (ofLevel - common) + square(1 - factor) * (ofMean - common)),
  };
}

/** What the factor adds to the error of a height whose reference level lies `lever_m` above the mean today. */
export function rangeErrors(lever_m: number, then: TideThen | null): HeightError[] {
  if (then === null) return [];
  const { range, group, source } = then;
  const size = Math.abs(lever_m);
  const parts: HeightError[] = [
    {
      component: 'tidal_range',
      sigma_m: size * range.factor_sigma,
      shape: 'normal',
      shared_group: `tide_range:${group}`,
      source,
      // A larger range lifts a level above the mean, and lowers one below it.
      ...(lever_m < 0 ? { reversed: true } : {}),
    },
    {
      component: 'tidal_range_age',
      sigma_m: size * range.age_sigma,
      shape: 'normal',
      shared_group: null,
      source: 'the factor of the tidal range changes within the age of the sample',
    },
  ];
  return parts.filter((part) => part.sigma_m > 0);
}

/** "MHW", "MHW+0.1", "MTL−0.25". */
export function boundText(bound: TideBound): string {
  if (bound.offset_m === 0) return bound.level;
  return `${bound.level}${bound.offset_m < 0 ? '−' : '+'}${Math.abs(bound.offset_m)}`;
}
