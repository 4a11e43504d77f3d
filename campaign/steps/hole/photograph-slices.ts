/** Where the core on a photograph lay in the ground, in slices that are straight from end to end. */
import type { PhotographResult } from '@stillstand/campaign/results';
import { step } from '../runner/step.ts';
import { type Core, type CorePlace, type NotPlaced, placeCore } from './place.ts';

type Slice = PhotographResult['slices'][number];

/** Of slices before straight ones are joined, m. */
const SLICE_M = 0.1;
/** Slices whose ends lie no farther than this from one straight line are one: 0.02 pt where 1 m is 50 pt on paper. */
const STRAIGHT_M = 0.0005;

/** What of the core a picture shows, and the contacts in it. */
export interface Shown {
  place: CorePlace;
  contacts_m: readonly number[];
}

export type Sliced = { ok: true; slices: Slice[]; how: string; doubt: Doubt } | NotPlaced;
type Doubt = { found: string; expected: string } | null;

export const slicesOfPhotographs = step(
  'slices of photographs',
  ({ core, shown }: { core: Core; shown: readonly Shown[] }): Sliced[] =>
    shown.map((each) => slicesOf(core, each)),
);

function slicesOf(core: Core, { place, contacts_m }: Shown): Sliced {
  const whole = placeCore(core, place);
  if (!whole.ok) return whole;
  const { basis, label, bottom_m } = place;
  // Fall-in has no place in the ground.
  const fallIn = basis === 'run' ? (core.rig?.runs.find(({ run }) => run === label)?.fall_in_m ?? 0) : 0;
  const top_m = Math.max(place.top_m, fallIn);
  const steps = Math.max(1, Math.ceil((bottom_m - top_m) / SLICE_M));
  const ends = [
    ...Array.from({ length: steps }, (_, i) => top_m + ((bottom_m - top_m) * i) / steps),
    bottom_m,
    ...contacts_m.filter((at) => at > top_m && at < bottom_m),
  ].sort((a, b) => a - b);
  const slices: Slice[] = [];
  let deepest = 0;
  for (let i = 1; i < ends.length; i++) {
    const [from_m, to_m] = [ends[i - 1]!, ends[i]!];
    const at = from_m < to_m ? placeCore(core, { ...place, top_m: from_m, bottom_m: to_m }) : null;
    if (at === null || !at.ok) continue;
    // Medians of draws may go back by less than their own noise.
    const depth_from_m = Math.max(deepest, at.top.value);
    deepest = Math.max(depth_from_m, at.bottom.value);
    slices.push({ from_m, to_m, depth_from_m, depth_to_m: deepest });
  }
  return { ok: true, slices: joined(slices), how: whole.how, doubt: whole.doubt };
}

/** As few slices as keep every end where it is, within `STRAIGHT_M`. */
function joined(slices: readonly Slice[]): Slice[] {
  const out: Slice[] = [];
  let first = 0;
  for (const [i, slice] of slices.entries()) {
    const next = slices[i + 1];
    if (next !== undefined && isStraight(slices.slice(first, i + 2))) continue;
    out.push({ ...slices[first]!, to_m: slice.to_m, depth_to_m: slice.depth_to_m });
    first = i + 1;
  }
  return out;
}

function isStraight(slices: readonly Slice[]): boolean {
  const { from_m, depth_from_m } = slices[0]!;
  const { to_m, depth_to_m } = slices.at(-1)!;
  const slope = (depth_to_m - depth_from_m) / (to_m - from_m);
  return slices.every(
    (slice) => Math.abs(depth_from_m + (slice.to_m - from_m) * slope - slice.depth_to_m) <= STRAIGHT_M,
  );
}
