/**
 * Access to the holes and its lowest (by boat, highest) point, kept in words in the day's note, where any program can
 * read them: "way: on foot, lowest +0.40 m, margin 0.30 m, takes 30 min".
 */
import { atLeast, atMost } from '@stillstand/science/base';

export interface Way {
  kind: 'foot' | 'boat';
  /** Lowest point of the route on foot; by boat the level the water must reach: highest ground, and the draught. */
  level_m: number;
  /** Kept below the one, above the other. */
  margin_m: number;
  /** From the last tool packed to beyond that point. */
  minutes: number;
}

/** Another kind of access has another level, which nobody has stated yet: NaN. */
export const switchedTo = (kind: Way['kind'], way: Way): Way => ({ ...way, kind, level_m: Number.NaN });

/** As it is kept: the level of a route and the margin to the centimetre, the time to the minute, on the safe side. */
export const asKept = (way: Way): Way => ({
  ...way,
  level_m: way.kind === 'foot' ? atMost(way.level_m, 2) : atLeast(way.level_m, 2),
  margin_m: atLeast(way.margin_m, 2),
  minutes: atLeast(way.minutes, 0),
});

const SEGMENT = /(?:^|;\s*)way: ([^;]*)/;
const FOOT = /^on foot, lowest ([+-]?[\d.]+) m, margin ([\d.]+) m, takes ([\d.]+) min$/;
const BOAT = /^by boat, water at least ([+-]?[\d.]+) m, margin ([\d.]+) m, takes ([\d.]+) min$/;

/** Null where the note states none that can be read. */
export function wayIn(note: string): Way | null {
  const text = SEGMENT.exec(note)?.[1]?.trim() ?? '';
  for (const [kind, pattern] of [
    ['foot', FOOT],
    ['boat', BOAT],
  ] as const) {
    const found = pattern.exec(text)?.slice(1).map(Number);
    if (found?.every(Number.isFinite)) {
      return { kind, level_m: found[0]!, margin_m: found[1]!, minutes: found[2]! };
    }
  }
  return null;
}

/** The note with this access; everything else in it stays. */
export function withWay(note: string, stated: Way): string {
  const way = asKept(stated);
  const sign = way.level_m < 0 ? '-' : '+';
  const level = `${sign}${Math.abs(way.level_m).toFixed(2)} m`;
  const words = way.kind === 'foot' ? `on foot, lowest ${level}` : `by boat, water at least ${level}`;
  const segment = `way: ${words}, margin ${way.margin_m.toFixed(2)} m, takes ${way.minutes} min`;
  const own = note.replace(SEGMENT, '').trim().replace(/^;\s*/, '');
  return [own, segment].filter(Boolean).join('; ');
}
