/** The lines between the slots of two holes: where each runs at each of a few places on the way. */
import { heightAt } from './ground.ts';
import type { Point } from './shape.ts';
import type { Said, Shape } from './shapes-between.ts';
import { isOneSided, type Slot } from './slots.ts';
import { type Stack, thickness } from './stack.ts';

/** Lines between two holes, from the top down. */
export interface Lines {
  /** Shares of the way, ascending from 0 to 1. */
  t: readonly number[];
  /** Elevation of line k at place i: `y[k][i]`; line 0 is the ground, line k the base of slot k − 1. */
  y: number[][];
  /** Lift of each line as drawn at the middle of its way, m. */
  lifted_m: (number | null)[];
}

const EVEN = Array.from({ length: 17 }, (_, i) => i / 16);
/** Of the room to the next line that is held, a lift may take no more than this share. */
const MOST_OF_ROOM = 0.98;
/** A slot that ends on the way becomes at most this many times thicker, and one, by a lift of its top or its base. */
const MOST_SWELL = 2;

/** Lines nearer than this are one, m. */
const NOTHING_M = 1e-9;

interface Panel {
  left: Stack;
  right: Stack;
  slots: readonly Slot[];
  shapes: readonly Shape[];
  said: readonly (Said | null)[];
  /** Places at which lines may bend besides, shares of the way. */
  also: readonly number[];
  ground: readonly Point[];
}

export function linesOf(panel: Panel): Lines {
  const { left, right, slots, shapes, said } = panel;
  const t = placesOf(panel);
  const base = [left, right].map(({ ground_m, layers }, side) => {
    const lowest = Math.max(-1, ...slots.flatMap(({ a, b }) => (side === 0 ? a : b)));
    return lowest === -1 ? ground_m : layers[lowest]!.bottom_m;
  }) as [number, number];
  const y = [0, ...slots.map(() => 0)].map(() => [] as number[]);
  for (const share of t) {
    const [top, bottom] = [chord(left.ground_m, right.ground_m, share), chord(base[0], base[1], share)];
    const weights = shapes.map(({ weight }) => weight(share));
    const all = weights.reduce((m, w) => m + w, 0);
    let above = 0;
    y[0]!.push(top);
    weights.forEach((weight, k) => {
      above += weight;
      // Where nothing is left all lines are one.
      const shared = all > 0 ? top - ((top - bottom) * above) / all : top;
      y[k + 1]!.push(all > 0 && k === weights.length - 1 ? bottom : shared);
    });
  }
  const lifted_m = lifts(t, y, shapes, slots, said);
  underGround(panel, t, y);
  return { t, y: exactAtHoles(panel, y), lifted_m };
}

export const chord = (from: number, to: number, t: number): number => (1 - t) * from + t * to;

function placesOf({ left, right, slots, shapes, said, also, ground }: Panel): number[] {
  const isBent = slots.some(isOneSided) || said.some((each) => each !== null && (each.lift_m ?? 0) !== 0);
  const way = right.along_m - left.along_m;
  const profile = ground.flatMap(([x]) => {
    const share = (x - left.along_m) / way;
    return share > 0 && share < 1 ? [share] : [];
  });
  const middles = said.flatMap((each, k) => {
    const [start, end] = extent(slots[k]!, shapes[k]!);
    return each?.lift_m === null || each?.lift_m === undefined ? [] : [(start + end) / 2];
  });
  const ends = shapes.flatMap(({ at }, k) => (slots[k]!.isOneBody ? [] : [at]));
  const all = [0, 1, ...profile, ...also, ...middles, ...ends];
  if (isBent || profile.length > 0) all.push(...EVEN);
  return [...new Set(all.filter((share) => share >= 0 && share <= 1))].sort((a, b) => a - b);
}

/**
 * Lifts the lines for which that is said, the lowest first. What lies between a lifted line and the next one held above or
 * below it is moved in proportion, so that no line crosses another.
 */
function lifts(
  t: readonly number[],
  y: number[][],
  shapes: readonly Shape[],
  slots: readonly Slot[],
  said: readonly (Said | null)[],
): (number | null)[] {
  const before = y.map((line) => [...line]);
  const drawn: (number | null)[] = y.map(() => null);
  const last = y.length - 1;
  const held = new Set([0, last]);
  const asked = said.flatMap((each, k) =>
    each?.lift_m === null || each?.lift_m === undefined ? [] : [{ line: k + 1, lift_m: each.lift_m }],
  );
  for (const { line, lift_m } of asked.sort((a, b) => b.line - a.line)) {
    const up = Math.max(...[...held].filter((k) => k < line));
    const down = line === last ? null : Math.min(...[...held].filter((k) => k > line));
    const [start, end] = extent(slots[line - 1]!, shapes[line - 1]!);
    const isEnding = (k: number): boolean =>
      slots.slice(Math.min(k, line), Math.max(k, line)).every(isOneSided);
    let [atMiddle, nearest] = [0, 1];
    t.forEach((share, i) => {
      const u = (share - start) / (end - start);
      if (!(u > 0 && u < 1)) return;
      const now = y[line]![i]!;
      // Towards a held line as far as there is room. Away from it what lies between swells: slots that end only so far, and
      // where there is nothing between, nothing fills the room.
      const towards = (k: number): number => MOST_OF_ROOM * (y[k]![i]! - now);
      const away = (k: number): number => {
        const between = now - y[k]![i]!;
        if (Math.abs(between) < NOTHING_M) return 0;
        return isEnding(k) ? MOST_SWELL * between : Math.sign(between) * Infinity;
      };
      const most = Math.min(towards(up), down === null ? Infinity : away(down));
      const least = Math.max(down === null ? -Infinity : towards(down), away(up));
      const wanted = before[line]![i]! + 4 * u * (1 - u) * lift_m - now;
      const move = Math.min(most, Math.max(least, wanted));
      if (Math.abs(u - 0.5) < nearest) {
        nearest = Math.abs(u - 0.5);
        atMiddle = move + now - before[line]![i]!;
      }
      for (let k = up + 1; k < (down ?? last + 1); k++) {
        if (k === line) continue;
        const stop = k < line ? up : down!;
        const span = now - y[stop]![i]!;
        if (span !== 0) y[k]![i] = y[k]![i]! + (move * (y[k]![i]! - y[stop]![i]!)) / span;
      }
      y[line]![i] = now + move;
    });
    held.add(line);
    drawn[line] = atMiddle;
  }
  return drawn;
}

/** Shares of the way between which the base of a slot is a line of its own. */
export function extent(slot: Slot, { at }: Shape): readonly [number, number] {
  if (slot.tie !== null || !isOneSided(slot)) return [0, 1];
  return slot.b.length === 0 ? [0, at] : [at, 1];
}

/** Where the ground stands above the straight line between the holes, the uppermost band reaches it; below, it cuts. */
function underGround({ left, right, slots, ground }: Panel, t: readonly number[], y: number[][]): void {
  const first = Math.max(1, slots.findIndex(({ tie }) => tie !== null) + 1);
  t.forEach((share, i) => {
    const straight = y[0]![i]!;
    const real = heightAt(ground, chord(left.along_m, right.along_m, share)) ?? straight;
    if (real > straight) {
      // Where nothing is left of the uppermost band, the first line below that has something above it is the foot.
      const isLower = (line: readonly number[]): boolean => line[i]! < straight - NOTHING_M;
      const foot = isLower(y[first] ?? []) ? first : y.findIndex(isLower);
      // Where nothing is left at all, all lines are the ground.
      if (foot === -1) for (const line of y) line[i] = real;
      for (let k = 1; k < foot; k++) {
        const share = (y[k]![i]! - y[foot]![i]!) / (straight - y[foot]![i]!);
        y[k]![i] = y[foot]![i]! + share * (real - y[foot]![i]!);
      }
    }
    y[0]![i] = real;
    for (let k = 1; k < y.length; k++) y[k]![i] = Math.min(y[k]![i]!, real);
  });
}

/** At a hole the lines are its contacts to the last digit. */
function exactAtHoles({ left, right, slots }: Panel, y: number[][]): number[][] {
  for (const [stack, side] of [
    [left, 'a'],
    [right, 'b'],
  ] as const) {
    let at_m = stack.ground_m;
    slots.forEach((slot, k) => {
      const lowest = slot[side].at(-1);
      if (lowest !== undefined) at_m = stack.layers[lowest]!.bottom_m;
      const line = y[k + 1]!;
      line[side === 'a' ? 0 : line.length - 1] = at_m;
    });
    y[0]![side === 'a' ? 0 : y[0]!.length - 1] = stack.ground_m;
  }
  return y;
}

/** Shares of the thickness of several layers, from 0 at the top to 1 at the base of each. */
export function sharesOf(stack: Stack, places: readonly number[]): number[] {
  const each = places.map((i) => thickness(stack.layers[i]!));
  const all = each.reduce((m, h) => m + h, 0);
  let done = 0;
  return each.map((h, i) => {
    done += h;
    return i === each.length - 1 ? 1 : all > 0 ? done / all : (i + 1) / each.length;
  });
}
