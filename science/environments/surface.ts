/** The surface a hole had at an age: how high the layer of that age lies today, draw by draw. */
import { type AgedColumn, drawsOf, thatTookTime } from './column.ts';

export interface SurfaceState {
  /**
   * Draw by draw, elevation of today, m: as it lies now, lower than it was by what has sunk since. Not a number where no
   * layer of the hole is of the age.
   */
  elevation_m: Float64Array;
  /** Elevation of the contact that the age falls into where layers are missing: the least the surface had. Else not a number. */
  least_m: Float64Array;
}

export function surfaceAt(column: AgedColumn, age_cal_bp: number): SurfaceState {
  const draws = drawsOf(column);
  const layers = thatTookTime(column);
  const elevation_m = new Float64Array(draws).fill(Number.NaN);
  const least_m = new Float64Array(draws).fill(Number.NaN);
  for (let k = 0; k < draws; k++) {
    const ground = column.ground_m[k]!;
    let above: number | null = null;
    for (const { levels } of layers) {
      const [top, base] = [levels[0]!, levels.at(-1)!];
      if (age_cal_bp < top.age_cal_bp[k]!) {
        // Between two layers: what lies below was there.
        if (above !== null) least_m[k] = ground - top.depth_m[k]!;
        break;
      }
      above = base.depth_m[k]!;
      if (age_cal_bp >= base.age_cal_bp[k]!) continue;
      const below = levels.findIndex(({ age_cal_bp: ages }) => ages[k]! > age_cal_bp);
      const [young, old] = [levels[below - 1]!, levels[below]!];
      const [from, to] = [young.age_cal_bp[k]!, old.age_cal_bp[k]!];
      const part = (age_cal_bp - from) / (to - from);
      elevation_m[k] = ground - (young.depth_m[k]! + part * (old.depth_m[k]! - young.depth_m[k]!));
      break;
    }
  }
  return { elevation_m, least_m };
}
