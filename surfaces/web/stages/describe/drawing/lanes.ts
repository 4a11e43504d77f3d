/**
 * Where things stand in the drawing of a hole, in points (7 pt are 13 px on the screen, as in print): lanes from left to
 * right, and one scale of metres for the core as it came up and for the ground, each from the top of what is shown.
 */

import type { Core } from '@stillstand/campaign/chain';
import { type Scale, scale, staffStep } from '@stillstand/output/drawing';

/** Pixels of the screen for one point. */
export const PX = 13 / 7;

/** Room for the heads of the lanes. */
export const HEAD = 30;
const FOOT = 8;

export interface Lanes {
  photo: readonly [number, number] | null;
  /** Left edge of the staff along the core; its labels stand left of it. */
  coreStaff: number;
  bar: readonly [number, number];
  core: readonly [number, number];
  ties: readonly [number, number];
  depthStaff: number;
  /** Left edge of the column, and the widths of clay and gravel. */
  column: number;
  clay: number;
  gravel: number;
  seen: number | null;
  sample: number;
  sampleLabel: number;
  words: readonly [number, number];
}

export function lanesFor(
  width: number,
  has: { core: boolean; photos: 'along the core' | 'in the ground' | null; seen: boolean },
): Lanes {
  const isWide = width > 300;
  const isNarrow = width - (has.photos === null ? 0 : 30) < 200;
  const gap = isWide ? 4 : 2.5;
  let x = 0;
  const take = (room: number, after = gap): [number, number] => {
    const lane: [number, number] = [x, x + room];
    x += room + after;
    return lane;
  };
  const photoRoom = isWide ? 44 : 26;
  let photo = has.photos === 'along the core' ? take(photoRoom) : null;
  let coreStaff = 0;
  let bar: [number, number] = [0, 0];
  let core: [number, number] = [0, 0];
  let ties: [number, number] = [0, 0];
  if (has.core) {
    take(isWide ? 16 : 13, 3);
    coreStaff = take(4, gap)[0];
    bar = take(6, 2);
    core = take(isWide ? 46 : isNarrow ? 22 : 30, 2);
    ties = take(isWide ? 30 : isNarrow ? 11 : 16, 0);
  }
  // Ties lead to where a picture lies in the ground.
  if (has.photos === 'in the ground') photo = take(photoRoom);
  take(isNarrow ? 13 : 17, 3);
  const depthStaff = take(4, gap + 2)[0];
  const gravel = isWide ? 64 : isNarrow ? 28 : 38;
  const clay = gravel * 0.56;
  const column = take(gravel, gap + 3)[0];
  const seen = isWide && has.seen ? take(16, 3)[0] + 8 : null;
  const sample = take(7, 2)[0] + 3.5;
  const sampleLabel = isWide ? 34 : 0;
  take(sampleLabel, isNarrow ? 2 : gap + 4);
  return {
    photo,
    coreStaff,
    bar,
    core,
    ties,
    depthStaff,
    column,
    clay,
    gravel,
    seen,
    sample,
    sampleLabel,
    words: [Math.min(x, width - 18), width],
  };
}

export interface Frame {
  lanes: Lanes;
  width: number;
  height: number;
  /** Bottom of what is drawn. */
  bottom: number;
  /** Along everything that entered. */
  core: Scale;
  /** In-situ depth. */
  depth: Scale;
  /** The one core shown, or null for the whole hole. */
  one: Core | null;
}

/** The whole hole from the ground down, or one core from its own top: core and ground side by side at one scale. */
export function frameFor(
  width: number,
  height: number,
  lanes: Lanes,
  bottom_m: number,
  one: Core | null,
): Frame {
  const room = height - HEAD - FOOT;
  const coreTop = one?.entered?.top_m ?? 0;
  const depthTop = one?.depth.top_m ?? 0;
  const span =
    one === null
      ? bottom_m
      : Math.max(
          one.depth.bottom_m - one.depth.top_m,
          one.entered === null ? 0 : one.entered.bottom_m - one.entered.top_m,
          0.05,
        );
  const from = HEAD + (one === null ? 0 : room * 0.03 + fallInRoom(one, room / span));
  const end = HEAD + room * (one === null ? 1 : 0.97);
  return {
    lanes,
    width,
    height,
    bottom: HEAD + room,
    core: scale(coreTop, coreTop + span, from, end),
    depth: scale(depthTop, depthTop + span, from, end),
    one,
  };
}

/** What fell in lies on top of the core, above anything that has a place in the ground. */
const fallInRoom = (core: Core, k: number): number => core.fall_in_m * k;

/** Where a length along a core is drawn, on the core's side; null where there is none. */
export function coreY(frame: Frame, core: Core, x_m: number): number | null {
  const entered = core.enteredAt(x_m);
  if (entered === null) return null;
  const above = Math.max(0, core.fall_in_m - x_m);
  return frame.core(entered) - above * frame.core.k;
}

/** Where a length along a core is drawn in the lane of photographs: next to that core, or in the ground. */
export const photoY = (frame: Frame, core: Core, x_m: number): number =>
  (frame.one === null ? null : coreY(frame, core, x_m)) ?? frame.depth(core.depthAt(x_m));

/** The length along a core that is drawn at y on the given side: the inverse, by bisection. */
export function lengthAt(frame: Frame, core: Core, y: number, side: 'core' | 'ground'): number {
  const place = (x: number): number =>
    side === 'core' && core.entered !== null ? coreY(frame, core, x)! : frame.depth(core.depthAt(x));
  let low = 0;
  let high = core.length_m;
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2;
    if (place(middle) < y) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Bands of the staffs: a decimetre at the finest, which a tape shows and a label has room for. */
export const staffBands = (k: number): { step: number; every: number } =>
  k * 0.1 >= 12 ? { step: 0.1, every: 1 } : staffStep(k, 12, 16);

/** Width of the column for a grain from 0 (clay) to 5 (gravel). */
export const grainWidth = (lanes: Lanes, grain: number): number =>
  lanes.clay + ((lanes.gravel - lanes.clay) * grain) / 5;
