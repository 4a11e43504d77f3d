/**
 * What the drawing of a hole needs, from its folded readings: everything in metres, down from the ground as it is now
 * or from the collar. Null is what nobody has read yet; it is left blank in the drawing.
 */
import {
  type CableMark,
  clearanceOf,
  type HoleFold,
  type RigReading,
  type RigSettings,
} from '@stillstand/science/rig';

interface HoleViewItem {
  label: string | null;
  item: 'joint' | 'shoe' | 'coupling';
  /** What it adds to the string, thread overlap taken off; null while its length is missing. */
  made_up_m: number | null;
  tight: boolean | null;
}

export interface HoleViewUnit {
  top_m: number;
  bottom_m: number;
  sediment: string;
  second: string | null;
  contact_below: string | null;
}

export interface HoleView {
  hole: string;
  /** From the shoe up. */
  items: HoleViewItem[];
  collar_to_shoe_m: number | null;
  /** Null while a string is being pulled, or before the first stick-up. */
  collar_above_ground_m: number | null;
  reference_above_ground_m: number;
  /** Shoe below the ground; after a loss or a pull the deepest it has been. */
  shoe_depth_m: number | null;
  plug_m: number | null;
  /** The longest the plug can be while it is unknown: what it was and all that was driven since. */
  plug_at_most_m: number;
  /** Below the collar. */
  water_inside_m: number | null;
  /** Below the ground; negative where the sea stands over it. */
  water_outside_m: number | null;
  /** Inside above outside. */
  head_m: number | null;
  sampler: { tip_m: number; length_m: number; start_m: number | null } | null;
  /** Tip below the collar at the margin. */
  stop_m: number | null;
  verdict: 'clear' | 'near stop' | 'stop' | 'past shoe' | null;
  /** Where tape was said to be on the cable. */
  marks: (CableMark & { label: string })[];
  /** A sampler hangs in the string and nobody has said that its cable is marked. */
  unmarked: boolean;
  /** In-situ depth below the ground. */
  units: HoleViewUnit[];
  /** How far down the ground has been sampled. */
  sampled_to_m: number | null;
  /** What stayed in the ground, from the top down. */
  left: { label: string; top_m: number; bottom_m: number }[];
}

export interface HoleViewInput {
  hole: string;
  fold: HoleFold;
  /** In the order of `seq`, as they were folded. */
  readings: readonly RigReading[];
  settings: RigSettings;
  /** Depths below the ground at the start of the hole. */
  units?: readonly HoleViewUnit[];
  sampled_to_m?: number | null;
  sampler_length_m?: number | null;
  /** Tape that was said to be on the cable; null where nobody has said so. */
  marks?: readonly (CableMark & { label: string })[] | null;
}

/** Length of a sampler nobody has measured, for the drawing only: common practice, no source. */
const SAMPLER_LENGTH_M = 1.5;

/** The run whose sampler is still in the string: begun, and neither lifted nor followed by another reading of the string. */
export function runInHand(readings: readonly RigReading[]): Extract<RigReading, { kind: 'run' }> | null {
  const last = readings.findLast(
    (r) =>
      r.kind === 'joint' ||
      r.kind === 'drive' ||
      r.kind === 'run' ||
      (r.kind === 'sounding' && r.to_sediment_m !== null && r.purpose !== 'zero_check'),
  );
  if (last?.kind !== 'run') return null;
  return last.outcome === null && last.recovered_m === null && last.loss_at === null ? last : null;
}

/**
 * Water levels as last read, below the reference. A drive carries the water inside down with the pipe, and a run lifts
 * some out: until it is read or filled again, the level inside is not known.
 */
export function waterLevels(
  fold: HoleFold,
  readings: readonly RigReading[],
): { inside_m: number | null; outside_m: number | null } {
  const stickUps = new Map(fold.states.map((s) => [s.row_id, s.stick_up_m]));
  const inHand = runInHand(readings)?.row_id;
  let inside_m: number | null = null;
  let outside_m: number | null = null;
  for (const r of readings) {
    const stickUp = stickUps.get(r.row_id) ?? null;
    if (r.kind === 'sounding') {
      if (r.water_outside_m !== null) outside_m = r.water_outside_m;
      if (r.to_water_inside_m !== null && stickUp !== null) inside_m = r.to_water_inside_m - stickUp;
    } else if (r.kind === 'water' && r.to_water_after_m !== null && stickUp !== null) {
      inside_m = r.to_water_after_m - stickUp;
    } else if (r.kind === 'drive' || (r.kind === 'run' && r.row_id !== inHand)) {
      inside_m = null;
    }
  }
  return { inside_m, outside_m };
}

export function holeView(input: HoleViewInput): HoleView {
  const { fold, readings, settings } = input;
  const last = fold.states.at(-1) ?? null;
  const ground_m =
    readings.findLast(
      (r) =>
        r.kind === 'ground' &&
        r.ground_below_reference_m !== null &&
        Number.isFinite(r.ground_below_reference_m),
    ) ?? null;
  const groundNow =
    ground_m?.kind === 'ground'
      ? (ground_m.ground_below_reference_m ?? fold.ground_start_m)
      : fold.ground_start_m;
  const sank = fold.ground_start_m - groundNow;
  const string = fold.account.filter((i) => i.item !== 'drive_head' && inString(i.fate));
  const ordered = [...string.filter((i) => i.item === 'shoe').slice(0, 1), ...string.filter(notFirstShoe())];
  let threaded = 0;
  const items = ordered.map((i): HoleViewItem => {
    const length = i.length_m === null ? (i.item === 'joint' ? null : 0) : i.length_m - i.cut_m;
    const parts = i.item === 'joint' || i.length_m !== null;
    const loss = parts && threaded++ > 0 ? settings.makeup_loss_m : 0;
    return {
      label: i.label,
      item: i.item as HoleViewItem['item'],
      made_up_m: length === null ? null : length - loss,
      tight: i.tight,
    };
  });
  const stickUp = last?.stick_up_m ?? null;
  const length = fold.collar_to_shoe_m;
  const { inside_m, outside_m } = waterLevels(fold, readings);
  const run = runInHand(readings);
  const tip = run === null ? null : (run.end_mark_m ?? run.start_mark_m);
  const joints = items.filter((i) => i.item === 'joint').length;
  const clearance = tip === null || length === null ? null : clearanceOf(tip, length, joints, settings);
  const margin = length === null ? null : clearanceOf(length, length, joints, settings).margin_m;
  const plugBefore = fold.states.findLast((s) => s.plug_m !== null);
  const driven =
    last?.penetration_m == null || plugBefore?.penetration_m == null
      ? 0
      : Math.max(0, last.penetration_m - plugBefore.penetration_m);
  // while the sampler stands in it, the plug is drawn as it was sounded
  const plugSounded =
    run === null
      ? (last?.plug_m ?? null)
      : (fold.states.findLast((s) => s.seq < run.seq)?.plug_m ?? last?.plug_m ?? null);
  return {
    hole: input.hole,
    items,
    collar_to_shoe_m: items.length === 0 ? null : length,
    collar_above_ground_m: stickUp === null || items.length === 0 ? null : stickUp + groundNow,
    reference_above_ground_m: groundNow,
    shoe_depth_m: last?.penetration_now_m ?? (fold.deepest_m === null ? null : fold.deepest_m + sank),
    plug_m: items.length === 0 ? null : plugSounded,
    plug_at_most_m: (plugBefore?.plug_m ?? 0) + driven,
    water_inside_m: inside_m === null || stickUp === null ? null : inside_m + stickUp,
    water_outside_m: outside_m === null ? null : outside_m - groundNow,
    head_m:
      inside_m === null || outside_m === null || items.length === 0 || stickUp === null
        ? null
        : outside_m - inside_m,
    sampler:
      tip === null
        ? null
        : {
            tip_m: tip,
            length_m: input.sampler_length_m ?? SAMPLER_LENGTH_M,
            start_m: run?.start_mark_m ?? null,
          },
    stop_m: length === null || margin === null ? null : length - margin,
    verdict: clearance?.verdict ?? null,
    marks: [...(input.marks ?? [])],
    unmarked: tip !== null && input.marks === null,
    units: (input.units ?? []).map((u) => ({ ...u, top_m: u.top_m + sank, bottom_m: u.bottom_m + sank })),
    sampled_to_m: input.sampled_to_m == null ? null : input.sampled_to_m + sank,
    left: leftBehind(fold, sank),
  };
}

const inString = (fate: string): boolean => fate === 'in the string' || fate === 'missing';

/** Every item but the first shoe, which stands at the bottom whenever it was added. */
function notFirstShoe(): (i: { item: string }) => boolean {
  let seen = false;
  return (i) => {
    if (i.item !== 'shoe' || seen) return true;
    seen = true;
    return false;
  };
}

/** What was left or lost and where it lies: no deeper than the shoe last was known to be. */
function leftBehind(fold: HoleFold, sank: number): HoleView['left'] {
  return fold.account
    .flatMap((i) =>
      (i.fate === 'left' || i.fate === 'lost') && i.lies_from_m !== null && i.lies_to_m !== null
        ? [
            {
              label: i.label ?? i.item.replace('_', ' '),
              top_m: i.lies_from_m + sank,
              bottom_m: i.lies_to_m + sank,
            },
          ]
        : [],
    )
    .sort((a, b) => a.top_m - b.top_m);
}
