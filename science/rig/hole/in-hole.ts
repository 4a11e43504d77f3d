/**
 * What stands in a hole now, from its folded readings: the string, the run in hand, the sediment and the water as last
 * read and what has moved them since, the clearance. Pure, never throws; null is what nobody has read or what is not
 * known any more.
 */

import { isSounded, type RigReading, type RunReading } from '../reading.ts';
import { type Clearance, clearanceOf } from '../sampler/sampler.ts';
import type { RigSettings } from '../settings.ts';
import type { AccountItem } from '../string/string.ts';
import type { WaterKind } from '../water/water.ts';
import { type ReducedHole, type RigState, reduceHole } from './hole.ts';

/** A water level as last read. */
export interface LevelRead {
  /** Metres below the reference, downwards positive. */
  below_reference_m: number;
  row_id: string;
  seq: number;
  /** What has moved it since: a drive carries the water inside down with the pipe, a run lifts some out. */
  moved_by: 'drive' | 'run' | null;
}

export interface WaterInHole {
  /** As last read, however long ago; null where nobody read it, or where the collar was not known then. */
  inside: LevelRead | null;
  outside: LevelRead | null;
  /** The level inside as it stands now, below the reference; null once something has moved it. */
  inside_m: number | null;
  /** Sea or water table, below the reference. */
  outside_m: number | null;
  /** Inside above outside, metres; null while a level is not known or nothing is in the hole. */
  head_m: number | null;
  /** Fresh as soon as any fresh water went in, else as filled; null where nobody said. */
  kind: WaterKind | null;
}

export interface InHole {
  settings: RigSettings;
  /** In the order of `seq`. */
  readings: readonly RigReading[];
  fold: ReducedHole;
  /** After the last reading. */
  last: RigState | null;
  /** Items in the string from the shoe up, drive heads left out. */
  string: AccountItem[];
  /** The run whose sampler is still in the string. */
  run: RunReading | null;
  /** What was done to the string with that sampler in it: its tip is not known since. */
  run_moved_by: 'drive' | 'string' | null;
  /** Tip of that sampler below the collar, as last read. */
  tip_m: number | null;
  /** Null too once the string was driven or changed with the sampler in it. */
  clearance: Clearance | null;
  /** Tip below the collar at the margin; null while the length of the string is not known. */
  stop_m: number | null;
  sediment: {
    /** Collar to sediment as last sounded; null once the string, a drive or a run has changed it. */
    sounded_m: number | null;
    /** What has changed it since it was last sounded, the run in hand left out. */
    since: RigReading[];
  };
  water: WaterInHole;
  /** Ground below the reference as last read. */
  ground_m: number | null;
}

/** What stands in a hole after these readings, given in the order of `seq`. */
export function inHole(readings: readonly RigReading[], settings: RigSettings): InHole {
  const fold = reduceHole(readings, settings);
  const string = stringOf(fold);
  const run = runInHand(readings);
  const run_moved_by = run === null ? null : movedSince(readings, run);
  const tip_m = run === null ? null : (run.end_mark_m ?? run.start_mark_m);
  const length = fold.collar_to_shoe_m;
  const clear = (tip: number): Clearance | null =>
    length === null ? null : clearanceOf(tip, length, fold.joints_in, settings);
  const margin_m = length === null ? null : clear(length)!.margin_m;
  return {
    settings,
    readings,
    fold,
    last: fold.states.at(-1) ?? null,
    string,
    run,
    run_moved_by,
    tip_m,
    clearance: tip_m === null || run_moved_by !== null ? null : clear(tip_m),
    stop_m: length === null || margin_m === null ? null : length - margin_m,
    sediment: sedimentOf(readings, run),
    water: waterOf(fold, readings, run, string.length > 0),
    ground_m: lastGround(readings),
  };
}

/**
 * The run whose sampler is still in the string: begun, and neither lifted nor followed by a sounding of the sediment,
 * which no sampler in the way allows. A drive or a joint does not lift it.
 */
function runInHand(readings: readonly RigReading[]): RunReading | null {
  const last = readings.findLast((r) => r.kind === 'run' || isSounded(r) || isTakenOut(r));
  if (last?.kind !== 'run') return null;
  return last.outcome === null && last.recovered_m === null && last.loss_position === null ? last : null;
}

/** The string comes out, and what hung in it is out first. */
const isTakenOut = (r: RigReading): boolean => r.kind === 'joint' && r.action !== 'add';

function movedSince(readings: readonly RigReading[], run: RunReading): InHole['run_moved_by'] {
  const moved = readings
    .slice(readings.indexOf(run) + 1)
    .find((r) => r.kind === 'drive' || r.kind === 'joint');
  return moved === undefined ? null : moved.kind === 'drive' ? 'drive' : 'string';
}

function sedimentOf(readings: readonly RigReading[], run: RunReading | null): InHole['sediment'] {
  const at = readings.findLastIndex(isSounded);
  const since = readings
    .slice(at + 1)
    .filter((r) => r.kind === 'drive' || r.kind === 'joint' || (r.kind === 'run' && r !== run));
  const sounding = readings[at];
  const isRead = sounding !== undefined && isSounded(sounding) && since.length === 0;
  return { sounded_m: isRead ? sounding.to_sediment_m : null, since };
}

function waterOf(
  fold: ReducedHole,
  readings: readonly RigReading[],
  run: RunReading | null,
  isStringIn: boolean,
): WaterInHole {
  const stickUps = new Map(fold.states.map((s) => [s.row_id, s.stick_up_m]));
  let inside = null as LevelRead | null;
  let outside = null as LevelRead | null;
  let kind = null as WaterKind | null;
  for (const r of readings) {
    const read = (below_reference_m: number): LevelRead => {
      const { row_id, seq } = r;
      return { below_reference_m, row_id, seq, moved_by: null };
    };
    const stickUp = stickUps.get(r.row_id) ?? null;
    if (r.kind === 'sounding') {
      if (r.water_outside_m !== null) outside = read(r.water_outside_m);
      if (r.to_water_inside_m !== null && stickUp !== null) inside = read(r.to_water_inside_m - stickUp);
    } else if (r.kind === 'water') {
      if (r.water !== null && kind !== 'fresh') kind = r.water;
      if (r.to_water_after_m !== null && stickUp !== null) inside = read(r.to_water_after_m - stickUp);
    } else if (inside !== null && (r.kind === 'drive' || (r.kind === 'run' && r !== run))) {
      inside = { ...inside, moved_by: inside.moved_by ?? r.kind };
    }
  }
  const inside_m = inside === null || inside.moved_by !== null ? null : inside.below_reference_m;
  const outside_m = outside?.below_reference_m ?? null;
  const head_m = inside_m === null || outside_m === null || !isStringIn ? null : outside_m - inside_m;
  return { inside, outside, inside_m, outside_m, head_m, kind };
}

function lastGround(readings: readonly RigReading[]): number | null {
  const last = readings.findLast(
    (r) =>
      r.kind === 'ground' &&
      r.ground_below_reference_m !== null &&
      Number.isFinite(r.ground_below_reference_m),
  );
  return last?.kind === 'ground' ? last.ground_below_reference_m : null;
}

/** In the string, from the shoe up: the first shoe stands at the bottom whenever it was added. */
function stringOf(fold: ReducedHole): AccountItem[] {
  const within = fold.account.filter(
    (i) => i.item !== 'drive_head' && (i.fate === 'in the string' || i.fate === 'missing'),
  );
  const shoe = within.findIndex((i) => i.item === 'shoe');
  return shoe > 0 ? [within[shoe]!, ...within.filter((_, i) => i !== shoe)] : within;
}
