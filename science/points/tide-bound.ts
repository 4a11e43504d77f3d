/** A limit in tidal terms ("MHW+0.1") found on a site's tide levels. */
import { type NotUsable, notUsable } from './not-usable.ts';

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

/**
 * 1 sigma of a tide level whose sigma was not stated. The protocol's tidal-datum model is 0.05–0.1 m at 2 sigma
 * (Shennan 1986; Engelhart & Horton 2012; Hijma et al. 2015; from memory); the larger is taken.
 */
const ASSUMED_TIDE_LEVEL_SIGMA_M = 0.05;

export interface FoundBound {
  ok: true;
  elevation_m: number;
  sigma_m: number;
  assumed: boolean;
}

export function findBound(bound: TideBound, levels: readonly SiteTideLevel[]): FoundBound | NotUsable {
  const found = levels.find((l) => l.level === bound.level);
  if (found === undefined || !Number.isFinite(found.elevation_m)) {
    return notUsable(
      'tide_level_missing',
      levels.length === 0 ? 'no tide levels' : levels.map((l) => l.level).join(', '),
      `the tide level ${bound.level} of the site`,
      `Add ${bound.level} to the tide levels of the site, or state the meaning in levels that are there.`,
    );
  }
  return {
    ok: true,
    elevation_m: found.elevation_m + bound.offset_m,
    sigma_m: found.sigma_m ?? ASSUMED_TIDE_LEVEL_SIGMA_M,
    assumed: found.sigma_m === null,
  };
}

/** "MHW", "MHW+0.1", "MTL−0.25". */
export function boundText(bound: TideBound): string {
  if (bound.offset_m === 0) return bound.level;
  return `${bound.level}${bound.offset_m < 0 ? '−' : '+'}${Math.abs(bound.offset_m)}`;
}
