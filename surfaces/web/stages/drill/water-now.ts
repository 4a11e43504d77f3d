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
  type WaterKind,
} from '@stillstand/science/rig';
import type { Basis } from './basis.ts';
import { soundedNow } from './cable.ts';
import type { HoleNow } from './hole-now.ts';

export interface WaterNow {
  /** Inside above outside, by the levels alone. */
  level_m: number;
  /** The same weighed: metres of the water outside, positive holds the sediment down. */
  head_m: number;
  columns: WaterColumns;
  exit: ExitGradient;
  basis: Basis[];
}

/** Null while a level is not known. */
export function waterNow(now: HoleNow): WaterNow | null {
  const { inside_m, outside_m, head_m } = now.water;
  const stickUp = now.last?.stick_up_m ?? null;
  const length = now.fold.collar_to_shoe_m;
  if (head_m === null || inside_m === null || outside_m === null || stickUp === null || length === null)
    return null;
  const inside = insideKind(now);
  const outside = now.settings.water_outside;
  const plug = now.last?.plug_m ?? 0;
  const columns: WaterColumns = {
    // not sounded, the water may stand on the shoe: the longest column, the worst case for the lighter water
    to_sediment_m: soundedNow(now) ?? length - plug,
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

/** Fresh as soon as any fresh water went in, else as filled; null where nobody said. */
export function insideKind(now: HoleNow): WaterKind | null {
  let kind: WaterKind | null = null;
  for (const r of now.readings) {
    if (r.kind !== 'water' || r.water === null) continue;
    if (r.water === 'fresh') return 'fresh';
    kind = r.water;
  }
  return kind;
}

/**
 * Fastest lift whose suction the head left after this run can bear, m/s, rounded down; null where the shapes or the
 * levels are not known, or where it would be faster than anybody lifts.
 */
export function fastestLift(now: HoleNow): { speed_m_s: number; assumed: boolean } | null {
  const { pipe, sampler, run } = now;
  const water = waterNow(now);
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
