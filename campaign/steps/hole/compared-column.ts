/** The units of a hole as they are compared with those of another: sediment, place, what was measured on them, their ages. */
import type { DateResult, HoleResult, UnitResult } from '@stillstand/campaign/results';
import type { AgeBounds, CorrelatedColumn, CorrelatedUnit, Measured } from '@stillstand/science/correlate';
import { isBaseSeen } from './base-seen.ts';

/** Something with a depth in a hole. */
interface Placed {
  depth_m: number;
  thickness_m: number;
}
export type PlacedDate = Placed &
  Pick<DateResult, 'mean_cal_bp' | 'sd_yr' | 'sets_95'> & { role: 'direct' | 'maximum' | 'minimum' };
export type PlacedValue = Placed & { property: string; value: number; sigma: number };

/**
 * @param dates of the hole, rejected ones left out
 * @param values those that are to be compared, in one unit for each property
 * @param compareAges whether the ages of dates on a unit are compared too, beyond what they forbid
 */
export function comparedColumn(
  hole: HoleResult,
  dates: readonly PlacedDate[],
  values: readonly PlacedValue[],
  compareAges: boolean,
): CorrelatedColumn {
  const hasElevations = hole.units.every(
    ({ elevation_top_m, elevation_bottom_m }) => elevation_top_m !== null && elevation_bottom_m !== null,
  );
  const units = hole.units.map((unit, i): CorrelatedUnit => {
    const isWithin = ({ depth_m }: Placed): boolean =>
      depth_m >= unit.depth_top_m.value && depth_m < unit.depth_bottom_m.value;
    const measured = Map.groupBy(values.filter(isWithin), ({ property }) => property);
    const properties = Object.fromEntries([...measured].map(([name, of]) => [name, meanOf(of)]));
    const dated = dates.filter((date) => date.role === 'direct' && isWithin(date));
    const ages = dated.map(({ mean_cal_bp, sd_yr }) => ({ value: mean_cal_bp, sigma: sd_yr }));
    return {
      sediment: unit.sediment,
      secondary_sediment: unit.secondary_sediment,
      ...placeOf(unit, hasElevations),
      isBaseSeen: isBaseSeen(hole.units, i),
      properties: compareAges && ages.length > 0 ? { ...properties, ages: meanOf(ages) } : properties,
      base_age: ageOf(unit.depth_bottom_m.value, dates),
    };
  });
  return { units, hasElevations };
}

function placeOf(unit: UnitResult, hasElevations: boolean) {
  const [top, bottom] = [unit.depth_top_m, unit.depth_bottom_m];
  const [top_m, base_m] = hasElevations
    ? [unit.elevation_top_m!, unit.elevation_bottom_m!]
    : [
        { value: -top.value, sigma: top.sigma },
        { value: -bottom.value, sigma: bottom.sigma },
      ];
  // Top and base share most of their error; what is left is at most their sum in quadrature.
  const thickness = bottom.value - top.value;
  return {
    top_m: { value: top_m.value, sigma: top_m.sigma },
    base_m: { value: base_m.value, sigma: base_m.sigma },
    thickness_m: {
      value: thickness,
      sigma: Math.min(Math.sqrt(top.sigma * top.sigma + bottom.sigma * bottom.sigma), thickness / 2),
    },
  };
}

/** The mean of independent values. */
function meanOf(values: readonly Measured[]): Measured {
  const n = values.length;
  return {
    value: values.reduce((sum, { value }) => sum + value, 0) / n,
    sigma: Math.sqrt(values.reduce((sum, { sigma }) => sum + sigma * sigma, 0)) / n,
  };
}

/** Read to the nearest half centimetre, a sample may begin at a contact, m. */
const READING_M = 0.005;

/** A contact is no younger than what lies above it and no older than what lies below. */
export function ageOf(contact_m: number, dates: readonly PlacedDate[]): AgeBounds | null {
  const above = dates.filter(
    ({ role, depth_m, thickness_m }) =>
      role !== 'maximum' && depth_m + thickness_m / 2 <= contact_m + READING_M,
  );
  const below = dates.filter(
    ({ role, depth_m, thickness_m }) =>
      role !== 'minimum' && depth_m - thickness_m / 2 >= contact_m - READING_M,
  );
  if (above.length === 0 && below.length === 0) return null;
  const youngest = above.map(({ sets_95 }) => Math.min(...sets_95.map((set) => set.younger_cal_bp)));
  const oldest = below.map(({ sets_95 }) => Math.max(...sets_95.map((set) => set.older_cal_bp)));
  return {
    youngest_cal_bp: youngest.length === 0 ? null : Math.max(...youngest),
    oldest_cal_bp: oldest.length === 0 ? null : Math.min(...oldest),
  };
}
