/** How deep a planned hole must go to reach what its neighbours have, and what a depth that was typed reaches. */
import type { ExpectationResult } from '@stillstand/campaign/results';
import { schemas } from '@stillstand/campaign/tables';
import { atLeast, type TapeUnit, tapeLength } from '@stillstand/science/base';

/** Contacts without a name are shown where they are no less probable than not; ours. */
const EVEN = 0.5;

/** No deeper target is accepted, m. */
const DEEPEST_M = schemas.holes.columns.target_depth.max_m;

/** A depth or, where the ground is not levelled, an elevation, m. */
export interface Reach {
  m: number;
  /** Fit for the target depth, rounded up to the next 0.1 m; null where it is an elevation, or no depth that is accepted. */
  typed: string | null;
}

export interface Reaches {
  key: string;
  /** Name of the horizon, else the layer whose base it is. */
  name: string;
  /** Where it is so: the nearest hole that has it, and its layer where the horizon has a name. */
  as: string;
  horizon: string | null;
  present: number;
  /** To reach it where it is there: half as probable to be deeper, with 80 %, with 95 %. */
  even: Reach;
  with80: Reach;
  with95: Reach;
}

/** Named horizons and what is no less probable than not, from the shallowest down. */
export function reachesOf({ ground_m, contacts }: ExpectationResult, unit: TapeUnit): Reaches[] {
  const reach = (elevation_m: number): Reach => {
    if (ground_m === null) return { m: elevation_m, typed: null };
    const m = ground_m - elevation_m;
    return { m, typed: m > 0 && m < DEEPEST_M ? typedDepth(m, unit) : null };
  };
  return contacts
    .filter(({ horizon, present, met }) => met === null && (horizon !== null || present >= EVEN))
    .toSorted((a, b) => b.elevation_m.median - a.elevation_m.median)
    .map(({ horizon, sediment, units, present, elevation_m, with_80_m, with_95_m }) => {
      const layer = `base of ${sediment ?? 'a layer not described'}`;
      const as = `as in ${units[0]?.hole ?? ''}`;
      return {
        key: units[0]?.unit_row_id ?? layer,
        name: horizon ?? layer,
        as: horizon === null ? as : `${layer}, ${as}`,
        horizon,
        present,
        even: reach(elevation_m.median),
        with80: reach(with_80_m),
        with95: reach(with_95_m),
      };
    });
}

/** Never less than it is: to the next 0.1 m, then as the crew's tape reads it. */
function typedDepth(m: number, unit: TapeUnit): string {
  const up = atLeast(m, 1);
  if (unit === 'm') return `${up.toFixed(1)} m`;
  return tapeLength(up, unit, 'at least');
}

/** With what probability a depth reaches a contact where it is there, as far as median, 80 and 95 % tell. */
export function reachedWith(target_m: number, { even, with80, with95 }: Reaches): string {
  if (target_m >= with95.m) return 'more than 95 %';
  if (target_m >= with80.m) return '80 to 95 %';
  return target_m >= even.m ? '50 to 80 %' : 'less than even';
}
