/** Access to the holes and its lowest (by boat, highest) point, as a day keeps it in its columns. */
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

type Cells = Readonly<Record<string, string>>;

/** Null where the day states none, or not all of it in numbers. */
export function wayIn(cells: Cells): Way | null {
  const kind = (cells['access'] ?? '').trim();
  const number = (column: string): number => {
    const typed = (cells[column] ?? '').trim().replace('−', '-').replace(',', '.');
    return typed === '' ? Number.NaN : Number(typed);
  };
  const way = {
    level_m: number('access_level_m'),
    margin_m: number('access_margin_m'),
    minutes: number('access_minutes'),
  };
  if ((kind !== 'foot' && kind !== 'boat') || !Object.values(way).every(Number.isFinite)) return null;
  return { kind, ...way };
}

/** The cells of a day with this access. */
export function withWay(stated: Way): Cells {
  const way = asKept(stated);
  return {
    access: way.kind,
    access_level_m: way.level_m.toFixed(2),
    access_margin_m: way.margin_m.toFixed(2),
    access_minutes: String(way.minutes),
  };
}
