/**
 * What a large misclosure most likely is, as questions: a staff misread by a round number, or a reading in the wrong
 * column. Nothing is corrected by it.
 */
import type { LevelSight } from './level-book.ts';
import type { LevelLine } from './levelling.ts';

/** Nearer than this a misclosure counts as the slip itself, m; the rest is ordinary levelling. */
const NEAR_M = 0.005;
/** Wrong figures that a staff gives: a metre, a decimetre (common practice, no source). */
const ROUND_M = [1, 0.1] as const;

interface RoundSlip {
  kind: 'round';
  slip_m: number;
  /** It lies after the first of these lines and up to the second, by points sighted twice; null where nothing says so. */
  between: { from: string; to: string } | null;
}

interface ColumnSlip {
  kind: 'column';
  row_id: string;
  point: string;
  reading_m: number;
  /** The column it is in. */
  in: 'back' | 'fore';
}

export type Slip = RoundSlip | ColumnSlip;

/**
 * Slips that give this misclosure within 5 mm. `misclosure_m`: levelled minus known. `lines`: those of the same book,
 * reduced, in the same order as `sights`.
 */
export function likelySlips(
  sights: readonly LevelSight[],
  lines: readonly LevelLine[],
  misclosure_m: number,
): Slip[] {
  const round = ROUND_M.filter((slip) => Math.abs(Math.abs(misclosure_m) - slip) <= NEAR_M).map(
    (slip_m): Slip => ({ kind: 'round', slip_m, between: between(lines, misclosure_m) }),
  );
  // A back sight r written as a fore sight, or the other way round, moves the end of the line by 2r.
  const column = sights.flatMap(({ row_id, point, backsight_m, foresight_m }): Slip[] => {
    const of = (reading_m: number | null, where: 'back' | 'fore', sign: number): Slip[] =>
      reading_m !== null && reading_m > 0 && Math.abs(misclosure_m - sign * 2 * reading_m) <= NEAR_M
        ? [{ kind: 'column', row_id, point, reading_m, in: where }]
        : [];
    return [...of(backsight_m, 'back', 1), ...of(foresight_m, 'fore', -1)];
  });
  return [...round, ...column];
}

/** A point sighted twice holds the slip between its sights where they differ by it, and not where they agree. */
function between(lines: readonly LevelLine[], misclosure_m: number): RoundSlip['between'] {
  const suspects = new Set(lines.keys());
  suspects.delete(0);
  const first = new Map<string, number>();
  for (const [i, { point, reduced_m }] of lines.entries()) {
    if (reduced_m === null) continue;
    const before = first.get(point);
    first.set(point, before ?? i);
    if (before === undefined) continue;
    const apart = reduced_m - lines[before]!.reduced_m!;
    const isInside = Math.abs(apart - misclosure_m) <= 2 * NEAR_M;
    if (!isInside && Math.abs(apart) > 2 * NEAR_M) return null;
    for (const at of suspects) {
      if ((at > before && at <= i) !== isInside) suspects.delete(at);
    }
  }
  const left = [...suspects];
  const [from, to] = [left[0], left.at(-1)];
  if (from === undefined || to === undefined || left.length >= lines.length - 1) return null;
  return to - from + 1 === left.length ? { from: lines[from - 1]!.row_id, to: lines[to]!.row_id } : null;
}
