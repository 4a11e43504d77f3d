/**
 * Another state of the hole, the joint draws of its depth model, with the dated horizons at other depths and of the ages they
 * have: the history bends for it (`bending.ts`), by the bends of the blocks between the horizons at their median depths. So
 * there is one history in each state in which the horizons have these ages, and the same ones from whichever is set out from;
 * among a few the chain chooses by their density over |∂T/∂c|. The shift by a guide (`states.ts`) moves the ages of a
 * stretch alike; where a centimetre is decades, few states fit so.
 */
import { exp, log, type RandomStream } from '@stillstand/science/base';
import { type Bending, bendBetween, bendingOf, bendTo, logVolume, makeBends, setBlock } from './bending.ts';
import { datesBent, profilesBent } from './bent.ts';
import { gapsAbove, type History, tell } from './history.ts';
import type { Hole } from './hole.ts';
import { logSections } from './law.ts';
import { logRough, type Rough, roughBy, roughOf } from './rough.ts';
import { sectionAt } from './section.ts';

export interface Depths {
  /** Horizons whose ages are kept, by depth: some way apart. */
  kept: Int32Array;
  age_cal_bp: Float64Array;
  bending: Bending;
  rough: Rough;
  /** In the bend that costs least. */
  least_yr_per_m: Float64Array;
  /** In the state that is tried. */
  u: Float64Array;
}

/** States to choose among besides the present one. */
const AMONG = 12;
/** Equations for more horizons take too long. */
const MOST = 16;
/** Least distance of horizons that are kept, in sections. */
const APART = 0.5;

/** Null where there is one state, or too many horizons. */
export function depthsOf(hole: Hole): Depths | null {
  const { sections, edge_m, thickness_m, states, horizons } = hole;
  const sorted = [...horizons.keys()].sort((a, b) => horizons[a]!.median_m - horizons[b]!.median_m);
  const kept: number[] = [];
  let above = 0;
  for (const i of sorted) {
    const { median_m } = horizons[i]!;
    if (median_m < above + APART * thickness_m[sectionAt(edge_m, median_m)]!) continue;
    kept.push(i);
    above = median_m;
  }
  if (states === 1 || kept.length === 0 || kept.length > MOST) return null;
  const bending = bendingOf(hole, kept.length);
  bending.blocks = kept.length;
  above = 0;
  for (const [k, i] of kept.entries()) {
    const { median_m } = horizons[i]!;
    for (let j = 0; j < sections; j++) {
      bending.w[k * sections + j] = Math.max(
        0,
        Math.min(median_m, edge_m[j + 1]!) - Math.max(above, edge_m[j]!),
      );
    }
    above = median_m;
  }
  return {
    kept: Int32Array.from(kept),
    age_cal_bp: new Float64Array(kept.length),
    bending,
    rough: roughOf(kept.length),
    least_yr_per_m: new Float64Array(sections),
    u: new Float64Array(sections),
  };
}

/** Chooses a state again; returns whether it is another. */
export function drawDepths(h: History, room: Depths, stream: RandomStream): boolean {
  const { hole, law } = h;
  const { kept, age_cal_bp, bending, rough, u } = room;
  const { sections, states } = hole;
  bendBetween(h, bending, 0, sections);
  makeBends(bending, sections);
  for (let k = 0; k < kept.length; k++) {
    const i = kept[k]!;
    age_cal_bp[k] = h.bare_cal_bp[i]! + h.gaps_yr[i]!;
  }
  // Rough by the median depths, so that it is the same from every state.
  blocksAt(hole, room, -1);
  if (!roughBy(h, bending, rough)) return false;
  room.least_yr_per_m.set(bending.yr_per_m);
  const roughHere = roughIn(h, room, h.state);
  if (!(roughHere > -Infinity)) return false;
  let peak = roughHere - log(stream.exponential());
  let state = h.state;
  let roughThere = roughHere;
  for (let m = 0; m < AMONG; m++) {
    const other = stream.integer(states);
    const noise = -log(stream.exponential());
    if (other === h.state) continue;
    const value = roughIn(h, room, other);
    if (!(value + noise > peak)) continue;
    peak = value + noise;
    state = other;
    roughThere = value;
  }
  if (state === h.state) return false;

  // The exact density decides.
  blocksAt(hole, room, h.state);
  const here = logVolume(h, bending);
  if (!(here > -Infinity)) return false;
  let gain =
    inState(h, room, state) -
    roughThere -
    (logSections(h.u, hole.isCut, law.mean, h.variation, h.memory) - here - roughHere);
  for (let i = 0; i < h.level.length; i++) gain -= h.level[i]!;
  gain -= h.ofProfiles;
  if (!(gain >= 0 || stream.uniform() < exp(gain))) return false;
  h.u.set(u);
  h.state = state;
  tell(h);
  return true;
}

/** Rough log weight of the history's form in a state; −∞ where it has none. */
function roughIn(h: History, room: Depths, state: number): number {
  const { hole } = h;
  const { kept, age_cal_bp, bending, rough, least_yr_per_m } = room;
  const { first, last, firstMetres, lastMetres } = bending;
  if (!blocksAt(hole, room, state)) return -Infinity;
  let above = h.ground_cal_bp;
  let sum = 0;
  for (let k = 0; k < kept.length; k++) {
    const bare = age_cal_bp[k]! - gapsAbove(h, kept[k]!, state);
    if (!(bare > above)) return -Infinity;
    const logTime = log(bare - above);
    sum -= logTime;
    let time = firstMetres[k]! * least_yr_per_m[first[k]!]!;
    for (let j = first[k]! + 1; j < last[k]!; j++) time += hole.thickness_m[j]! * least_yr_per_m[j]!;
    if (last[k]! > first[k]!) time += lastMetres[k]! * least_yr_per_m[last[k]!]!;
    rough.off[k] = logTime - log(time);
    above = bare;
  }
  return sum + logRough(rough, bending);
}

/** Log weight of the history's form in a state, which is left in `u`; −∞ where it has none. */
function inState(h: History, room: Depths, state: number): number {
  const { hole, law } = h;
  const { kept, age_cal_bp, bending, u } = room;
  const { wanted, added } = bending;
  if (!blocksAt(hole, room, state)) return -Infinity;
  let above = h.ground_cal_bp;
  for (let k = 0; k < kept.length; k++) {
    const bare = age_cal_bp[k]! - gapsAbove(h, kept[k]!, state);
    if (!(bare > above)) return -Infinity;
    wanted[k] = log(bare - above);
    above = bare;
  }
  const volume = bendTo(h, bending);
  if (!(volume > -Infinity)) return -Infinity;
  for (let j = 0; j < u.length; j++) u[j] = h.u[j]! + added[j]!;
  return (
    logSections(u, hole.isCut, law.mean, h.variation, h.memory) -
    volume +
    datesBent(h, bending, state, h.ground_cal_bp) +
    profilesBent(h, bending)
  );
}

/** The blocks between the kept horizons in a state, or by their medians (−1); false where they are not one below the other. */
function blocksAt(hole: Hole, { kept, bending }: Depths, state: number): boolean {
  const { section, below_m, edge_m, dates, horizons } = hole;
  let above = 0;
  let used = 0;
  for (let k = 0; k < kept.length; k++) {
    const at = state * dates.length + kept[k]!;
    const { median_m } = horizons[kept[k]!]!;
    const j = state < 0 ? sectionAt(edge_m, median_m) : section[at]!;
    const reached = state < 0 ? median_m - edge_m[j]! : below_m[at]!;
    if (j < above || (j === above && !(reached > used))) return false;
    setBlock(bending, hole, k, above, used, j, reached);
    above = j;
    used = reached;
  }
  return true;
}
