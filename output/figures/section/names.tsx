/**
 * The names of the holes of a section, each whole. Where every one has room it stands over its hole; else all stand in rows
 * over the section, alternately, and a line leads from each to its hole, between the names of the rows it passes.
 */
import type { Results } from '@stillstand/campaign/results';
import {
  LINE,
  overlaps,
  placeAlong,
  polyline,
  type Rect,
  type Scale,
  shortened,
  Text,
  textWidth,
  useInk,
} from '@stillstand/output/drawing';
import { type Ground, touchesGround } from './ground.tsx';
import { AXIS, type Stand } from './layout.ts';

export interface PlacedName extends Rect {
  row_id: string;
  /** Its lines, the name last and at the foot. */
  words: string[];
  /** From the hole up to the name; null where it stands over it. */
  lead: [number, number][] | null;
}

const BOLD = { weight: 600 } as const;
const ROW = 8.4;
/** A row of names and the slant of leads under it, points. */
const TIER = 13.5;
/** Room of a lead between names, points. */
const LEAD = 4;
/** Rows tried before a name that is far from its hole is taken; more only where no fewer have room. */
const MOST_TIERS = 6;
/** A name this far from its hole asks for another row, points. */
const FAR = 14;

/** Above its own hole or up to two lines higher; null where one of them has no place so. */
export function namesOverHoles(
  stands: readonly Stand[],
  words: (stand: Stand) => string[],
  y: Scale,
  ground: Ground,
  top: number,
  right: number,
): PlacedName[] | null {
  const placed: PlacedName[] = [];
  for (const stand of [...stands].reverse()) {
    const lines = words(stand);
    const width = Math.max(...lines.map((line, i) => textWidth(line, i === lines.length - 1 ? BOLD : {})));
    const foot = y(stand.ground_m) - 3;
    const x1 = Math.min(stand.x, right - width);
    const axis = stand.x + stand.width * AXIS;
    const free = [0, 1, 2]
      .map((up): PlacedName => {
        const y2 = foot - up * ROW;
        const lead: [number, number][] = [
          [axis, foot + 1],
          [axis, y2],
        ];
        return {
          row_id: stand.hole.row_id,
          words: lines,
          x1,
          x2: x1 + width,
          y1: y2 - lines.length * ROW + 1.4,
          y2,
          lead: up === 0 ? null : lead,
        };
      })
      .find(
        (name) =>
          name.y1 >= top &&
          !touchesGround(ground, name) &&
          !placed.some(
            (other) => overlaps(apart(name), other) || crosses(name.lead, other) || crosses(other.lead, name),
          ),
      );
    if (free === undefined) return null;
    placed.push(free);
  }
  return placed;
}

const apart = (rect: Rect): Rect => ({ ...rect, x1: rect.x1 - 2, x2: rect.x2 + 2 });

const crosses = (lead: PlacedName['lead'], rect: Rect): boolean =>
  lead?.some(([x]) => x > rect.x1 - 1 && x < rect.x2 + 1) === true &&
  Math.min(...lead.map(([, y]) => y)) < rect.y2 &&
  Math.max(...lead.map(([, y]) => y)) > rect.y1;

/** In rows from `top` down, the fewest that bring every name near its hole. */
export function namesInRows(
  stands: readonly Stand[],
  top: number,
  left: number,
  right: number,
  y: (stand: Stand) => number,
): PlacedName[] {
  const tried = Array.from({ length: Math.max(MOST_TIERS, stands.length) }, (_, i) =>
    inTiers(stands, i + 1, left, right),
  );
  // More rows than names would leave some empty.
  const few = tried.slice(0, Math.min(MOST_TIERS, Math.max(1, stands.length)));
  const tiers =
    few.find((rows) => rows !== null && rows.far < FAR) ??
    few.findLast((rows) => rows !== null) ??
    tried.find((rows) => rows !== null);
  if (tiers === undefined || tiers === null) return [];
  const count = tiers.rows.length;
  return stands.map((stand, i) => {
    const own = i % count;
    const width = textWidth(stand.hole.hole, BOLD);
    const foot = (tier: number): number => top + (count - tier) * TIER - 5;
    const axis = stand.x + stand.width * AXIS;
    const lead: [number, number][] = [
      [axis, y(stand) - 1],
      [axis, foot(0) + 5],
    ];
    for (let tier = 0; tier < own; tier++) {
      lead.push([tiers.rows[tier]!.get(i)!, foot(tier) + 0.5], [tiers.rows[tier]!.get(i)!, foot(tier) - ROW]);
    }
    const x = tiers.rows[own]!.get(i)!;
    lead.push([x, foot(own) + 0.8]);
    return {
      row_id: stand.hole.row_id,
      words: [stand.hole.hole],
      x1: x - width / 2,
      x2: x + width / 2,
      y1: foot(own) - ROW + 1.4,
      y2: foot(own),
      lead,
    };
  });
}

export const rowsOfNames = (placed: readonly PlacedName[]): number =>
  new Set(placed.map(({ y2 }) => y2)).size;

/** Height of so many rows, points. */
export const heightOfRows = (rows: number): number => rows * TIER + 4;

/** The names of one row, and the leads that pass it on the way to higher ones. */
function inTier(stands: readonly Stand[], count: number, tier: number) {
  return stands.flatMap((stand, i) => {
    if (i % count < tier) return [];
    const size = i % count === tier ? textWidth(stand.hole.hole, BOLD) + 5 : LEAD;
    return [{ i, at: stand.x + stand.width * AXIS, size }];
  });
}

const needOf = (items: readonly { size: number }[]): number => items.reduce((sum, { size }) => sum + size, 0);

/** The least room across that rows of names need, points. */
export const leastOfRows = (stands: readonly Stand[]): number =>
  Math.min(
    ...stands
      .map((_, i) => i + 1)
      .map((count) =>
        Math.max(...Array.from({ length: count }, (_, tier) => needOf(inTier(stands, count, tier)))),
      ),
  );

/** Where each hole's name, or its lead on the way to a higher row, passes in each row; null where a row is too narrow. */
function inTiers(
  stands: readonly Stand[],
  count: number,
  left: number,
  right: number,
): { rows: Map<number, number>[]; far: number } | null {
  let far = 0;
  const rows: Map<number, number>[] = [];
  for (let tier = 0; tier < count; tier++) {
    const items = inTier(stands, count, tier);
    if (needOf(items) > right - left) return null;
    const centres = placeAlong(items, left, right);
    far = Math.max(far, ...items.map(({ at }, j) => Math.abs(centres[j]! - at)));
    rows.push(new Map(items.map(({ i }, j) => [i, centres[j]!])));
  }
  return { rows, far };
}

export function HoleNames({ names }: { names: readonly PlacedName[] }) {
  const ink = useInk();
  return (
    <g id="section-names">
      <path
        d={names.map(({ lead }) => (lead === null ? '' : polyline(lead))).join('')}
        stroke={ink.line}
        strokeWidth={LINE.fine}
        fill="none"
      />
      {names.map(({ row_id, words, x1, y2 }) => (
        <g key={row_id}>
          {words.map((line, i) => (
            <Text
              key={line}
              x={x1}
              y={y2 - 1.4 - (words.length - 1 - i) * ROW}
              halo
              {...(i === words.length - 1 ? BOLD : { voice: 'ink2' })}
            >
              {line}
            </Text>
          ))}
        </g>
      ))}
    </g>
  );
}

/** A name over its hole on a screen, where the next hole's leaves it room; read out whole. */
export function HoleHead({
  stand,
  y,
  room,
  words,
}: {
  stand: Stand;
  y: number;
  room: number;
  words: string[];
}) {
  return (
    <g>
      {words.map((line, i) => {
        const style = i === words.length - 1 ? BOLD : {};
        return (
          <Text key={line} x={stand.x} y={y - (words.length - 1 - i) * ROW} halo {...style}>
            {shortened(line, room, style)}
          </Text>
        );
      })}
    </g>
  );
}

/** Over a hole: how it is related to another, and its name. */
export function nameWords(results: Results, { hole }: Stand): string[] {
  const by = replacedBy(results, hole.hole);
  if (by !== null) return [`${hole.state ?? 'left'}, see ${by}`, hole.hole];
  return hole.replaces === null ? [hole.hole] : [`replaces ${hole.replaces}`, hole.hole];
}

export const replacedBy = (results: Results, hole: string): string | null =>
  results.holes.find((h) => h.replaces === hole)?.hole ?? null;
