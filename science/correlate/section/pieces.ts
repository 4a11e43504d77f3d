/** Parts of bodies: what one layer fills on one side of a hole, or one body between two holes. */
import { chord, type Lines, sharesOf } from './lines.ts';
import type { Point } from './shape.ts';
import type { Shape } from './shapes-between.ts';
import { isOneSided, type Slot } from './slots.ts';
import type { Stack } from './stack.ts';

export interface Piece {
  /** Its layer in the hole at its left and at its right end; null where it does not reach that hole. */
  a: string | null;
  b: string | null;
  sediment: string;
  /** From left to right. */
  upper: readonly Point[];
  lower: readonly Point[];
  /** From the end of the upper line down to that of the lower one, at the right and at the left, without these. */
  rightSide: readonly Point[];
  leftSide: readonly Point[];
}

export interface Meeting {
  slot: number;
  /** From the top down. */
  line: readonly Point[];
}

/** Fingers on each side, and how far they reach, as a share of the way. */
const FINGERS = 3;
const REACH = 0.06;

const reachOf = (at: number): number => Math.min(REACH, at / 2, (1 - at) / 2);

/** Places at which the fingers of slots end. */
export const fingerTips = (slots: readonly Slot[], shapes: readonly Shape[]): number[] =>
  slots.flatMap((slot, k) => {
    const { at, ending } = shapes[k]!;
    return isFingered(slot, ending) ? [at - reachOf(at), at + reachOf(at)] : [];
  });

const isMeeting = (slot: Slot): boolean => !slot.isOneBody && !isOneSided(slot);
const isFingered = (slot: Slot, ending: Shape['ending']): boolean =>
  isMeeting(slot) && ending === 'interfingered' && slot.a.length === 1 && slot.b.length === 1;

/** What fills the slots between two holes. Layers without a name fill nothing. */
export function piecesOf(
  left: Stack,
  right: Stack,
  slots: readonly Slot[],
  shapes: readonly Shape[],
  { t, y }: Lines,
): { pieces: Piece[]; meetings: Meeting[] } {
  const x = t.map((share) => chord(left.along_m, right.along_m, share));
  const meetings: Meeting[] = [];
  const pieces = slots.flatMap((slot, k): Piece[] => {
    const [top, base, { at, ending }] = [y[k]!, y[k + 1]!, shapes[k]!];
    const end = t.indexOf(at);
    const points = (line: readonly number[], from: number, to: number): Point[] =>
      line.slice(from, to + 1).map((e, i): Point => [x[from + i]!, e]);
    /** A layer of the left hole as far as `end`, of the right one from there, or of both. */
    const fill = (a: number | null, b: number | null, upper: readonly number[], lower: readonly number[]) => {
      const layer = a === null ? right.layers[b!]! : left.layers[a]!;
      const [from, to] = [a === null ? end : 0, b === null ? end : t.length - 1];
      const made: Piece = {
        a: a === null ? null : left.layers[a]!.id,
        b: b === null ? null : right.layers[b]!.id,
        sediment: layer.sediment,
        upper: points(upper, from, to),
        lower: points(lower, from, to),
        rightSide: [],
        leftSide: [],
      };
      return layer.id === null ? [] : [made];
    };
    if (slot.isOneBody) return fill(slot.a[0]!, slot.b[0]!, top, base);
    if (!isMeeting(slot)) return fill(slot.a[0] ?? null, slot.b[0] ?? null, top, base);

    const between = (share: number): number[] => top.map((e, i) => e + (base[i]! - e) * share);
    const stacked = (stack: Stack, places: readonly number[], side: 'a' | 'b'): Piece[] => {
      const shares = sharesOf(stack, places);
      return places.flatMap((place, i) => {
        const upper = i === 0 ? top : between(shares[i - 1]!);
        const lower = i === places.length - 1 ? base : between(shares[i]!);
        return side === 'a' ? fill(place, null, upper, lower) : fill(null, place, upper, lower);
      });
    };
    const side = isFingered(slot, ending) ? fingers(t, x, top, base, at) : [];
    meetings.push({ slot: k, line: [[x[end]!, top[end]!], ...side, [x[end]!, base[end]!]] });
    return [
      ...stacked(left, slot.a, 'a').map((piece) => ({ ...piece, rightSide: side })),
      ...stacked(right, slot.b, 'b').map((piece) => ({ ...piece, leftSide: side })),
    ];
  });
  return { pieces, meetings };
}

/** A zigzag from the upper line to the lower one, with a point wherever a line may bend, so that it crosses neither. */
function fingers(
  t: readonly number[],
  x: readonly number[],
  top: readonly number[],
  base: readonly number[],
  at: number,
): Point[] {
  const reach = reachOf(at);
  const steps = 2 * FINGERS;
  const turns = Array.from({ length: steps + 1 }, (_, j) => ({
    share: j / steps,
    t: j === 0 || j === steps ? at : j % 2 === 1 ? at + reach : at - reach,
  }));
  const path: Point[] = [];
  const add = (i: number, share: number): void => {
    path.push([x[i]!, top[i]! + (base[i]! - top[i]!) * share]);
  };
  turns.slice(1).forEach((to, j) => {
    const last = turns[j]!;
    const [from, end] = [t.indexOf(last.t), t.indexOf(to.t)];
    const way = Math.sign(end - from);
    for (let i = from + way; i !== end + way; i += way)
      add(i, last.share + ((to.share - last.share) * (t[i]! - last.t)) / (to.t - last.t));
  });
  return path.slice(0, -1);
}
