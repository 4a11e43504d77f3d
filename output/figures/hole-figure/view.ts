/**
 * What the drawing of a hole needs, from its folded readings: everything in metres, down from the ground as it is now
 * or from the collar. Null is what nobody has read yet; it is left blank in the drawing.
 */
import {
  type CableMark,
  type InHole,
  type ReducedDrive,
  type ReducedHole,
  threadLoss,
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
  secondary_sediment: string | null;
  contact_below: string | null;
}

/** A layer that is expected below, by what other holes have: nothing that was seen. Depths below the ground. */
export interface HoleViewAhead {
  sediment: string;
  from_m: number;
  to_m: number;
  /** Probability that it is there, 0 to 1. */
  present: number;
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
  /** On the rig's screen only, from the top down. */
  ahead: HoleViewAhead[];
  /**
   * Timed drives, depths below the ground: while the last thing done was one of them, and they are wanted in the place
   * of the enlarged ends; else null.
   */
  drives:
    | (Pick<ReducedDrive, 'row_id' | 'from_m' | 'to_m' | 'pace' | 'usual_m_per_min'> & {
        rate_m_per_min: number;
      })[]
    | null;
  /** What stayed in the ground, from the top down. */
  left: { label: string; top_m: number; bottom_m: number }[];
}

export interface HoleViewInput {
  hole: string;
  /** What stands in it. */
  now: InHole;
  /** Depths below the ground at the start of the hole. */
  units?: readonly HoleViewUnit[];
  sampled_to_m?: number | null;
  /** What is expected below, depths as of the units; only what lies below the shoe is drawn. */
  ahead?: readonly HoleViewAhead[];
  sampler_length_m?: number | null;
  /** Whether the rates of the drives may take the place of the ends. */
  rates?: boolean;
  /** Tape that was said to be on the cable; null where nobody has said so. */
  marks?: readonly (CableMark & { label: string })[] | null;
}

/** Length of a sampler nobody has measured, for the drawing only: common practice, no source. */
const SAMPLER_LENGTH_M = 1.5;

export function holeView(input: HoleViewInput): HoleView {
  const { fold, last, run, settings, stop_m, string, tip_m: tip, water } = input.now;
  const groundNow = input.now.ground_m ?? fold.ground_start_m;
  const sank = fold.ground_start_m - groundNow;
  let threaded = 0;
  const items = string.map((i): HoleViewItem => {
    const length = i.length_m === null ? (i.item === 'joint' ? null : 0) : i.length_m - i.cut_m;
    const parts = i.item === 'joint' || i.length_m !== null;
    const loss = parts && threaded++ > 0 ? threadLoss(i, settings.makeup_loss_m) : 0;
    return {
      label: i.label,
      item: i.item as HoleViewItem['item'],
      made_up_m: length === null ? null : length - loss,
      tight: i.tight,
    };
  });
  const shoe = last?.penetration_now_m ?? (fold.deepest_m === null ? null : fold.deepest_m + sank);
  const stickUp = last?.stick_up_m ?? null;
  const length = fold.collar_to_shoe_m;
  const { inside_m, outside_m } = water;
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
    shoe_depth_m: shoe,
    plug_m: items.length === 0 ? null : plugSounded,
    plug_at_most_m: (plugBefore?.plug_m ?? 0) + driven,
    water_inside_m: inside_m === null || stickUp === null ? null : inside_m + stickUp,
    water_outside_m: outside_m === null ? null : outside_m - groundNow,
    head_m: stickUp === null ? null : water.head_m,
    sampler:
      tip === null
        ? null
        : {
            tip_m: tip,
            length_m: input.sampler_length_m ?? SAMPLER_LENGTH_M,
            start_m: run?.start_mark_m ?? null,
          },
    stop_m,
    verdict: input.now.clearance?.verdict ?? null,
    marks: [...(input.marks ?? [])],
    unmarked: tip !== null && input.marks === null,
    units: (input.units ?? []).map((u) => ({ ...u, top_m: u.top_m + sank, bottom_m: u.bottom_m + sank })),
    sampled_to_m: input.sampled_to_m == null ? null : input.sampled_to_m + sank,
    drives: input.rates === true ? drivesOf(input.now, sank) : null,
    left: leftBehind(fold, sank),
    ahead: (input.ahead ?? [])
      .map((a) => ({ ...a, from_m: Math.max(shoe ?? 0, a.from_m + sank), to_m: a.to_m + sank }))
      .filter(({ from_m, to_m }) => to_m > from_m),
  };
}

function drivesOf({ fold, readings }: InHole, sank: number): HoleView['drives'] {
  const timed = fold.drives.flatMap((d) => {
    const { row_id, pace, usual_m_per_min, rate_m_per_min } = d;
    const [from_m, to_m] = [d.from_m + sank, d.to_m + sank];
    return rate_m_per_min === null ? [] : [{ row_id, from_m, to_m, pace, usual_m_per_min, rate_m_per_min }];
  });
  return timed.length > 0 && timed.at(-1)!.row_id === readings.at(-1)?.row_id ? timed : null;
}

/** What was left or lost and where it lies: no deeper than the shoe last was known to be. */
function leftBehind(fold: ReducedHole, sank: number): HoleView['left'] {
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
