/**
 * How hard the water inside holds the sediment down: the levels as last read, weighed with the water that stands on
 * either side. Fresh water weighs less than sea water, and must stand higher by 2.5 % of its column.
 */
import {
  bore_mm,
  type ExitGradient,
  exitGradient,
  fastestLift_m_s,
  pressureHead_m,
  runLowers_m,
  type WaterColumns,
} from '@stillstand/science/rig';
import type { HoleState } from './state.ts';

/** What a number rests on that nobody measured: as the crew said it, or as it is assumed until they do. */
export interface Basis {
  says: string;
  assumed: boolean;
}

export interface WeighedHead {
  /** Inside above outside, by the levels alone. */
  level_m: number;
  /** The same weighed: metres of the water outside, positive holds the sediment down. */
  head_m: number;
  columns: WaterColumns;
  exit: ExitGradient;
  basis: Basis[];
}

/** Null while a level is not known. */
export function weighedHead(now: HoleState): WeighedHead | null {
  const { inside_m, outside_m, head_m } = now.water;
  const stickUp = now.last?.stick_up_m ?? null;
  const length = now.fold.collar_to_shoe_m;
  if (head_m === null || inside_m === null || outside_m === null || stickUp === null || length === null)
    return null;
  const inside = now.water.kind;
  const outside = now.settings.water_outside;
  const plug = now.last?.plug_m ?? 0;
  const columns: WaterColumns = {
    // not sounded, the water may stand on the shoe: the longest column, the worst case for the lighter water
    to_sediment_m: now.sediment.sounded_m ?? length - plug,
    to_water_inside_m: inside_m + stickUp,
    to_water_outside_m: outside_m + stickUp,
    inside: inside ?? 'sea',
    outside,
  };
  const pressure = pressureHead_m(columns);
  return {
    level_m: head_m,
    head_m: pressure,
    columns,
    exit: exitGradient(pressure, Math.max(0, plug), now.settings.plug_kind),
    basis: [
      { says: `${outside} water outside`, assumed: !now.given.has('water_outside') },
      { says: `${inside ?? 'sea'} inside`, assumed: inside === null },
      { says: `${now.settings.plug_kind} plug`, assumed: !now.given.has('plug_kind') },
    ],
  };
}

/**
 * Fastest lift whose suction the head left after this run can bear, m/s, rounded down; null where the shapes or the
 * levels are not known, or where it would be faster than anybody lifts.
 */
export function fastestLift(now: HoleState): { speed_m_s: number; assumed: boolean } | null {
  const { pipe, sampler, run } = now;
  const water = weighedHead(now);
  if (pipe === null || water === null || sampler?.outside_mm == null || sampler.length_m === null)
    return null;
  const bore = bore_mm(pipe);
  const shape = {
    outside_mm: sampler.outside_mm,
    bore_mm: sampler.bore_mm ?? sampler.outside_mm,
    length_m: sampler.length_m,
  };
  if (shape.outside_mm >= bore) return null;
  const taken =
    run?.start_mark_m == null || run.end_mark_m === null ? 0 : Math.max(0, run.end_mark_m - run.start_mark_m);
  const { columns } = water;
  const lowers = runLowers_m(bore, taken, shape, columns.to_water_inside_m < 0.1);
  const after = pressureHead_m({
    ...columns,
    to_sediment_m: columns.to_sediment_m + taken,
    to_water_inside_m: columns.to_water_inside_m + lowers,
  });
  const fastest = fastestLift_m_s(Math.max(0, after), bore, shape, columns.inside);
  if (fastest === null || fastest >= 2) return null;
  return { speed_m_s: Math.floor(fastest * 10) / 10, assumed: water.basis.some((b) => b.assumed) };
}
