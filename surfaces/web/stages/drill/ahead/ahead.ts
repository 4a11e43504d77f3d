/** Of what is expected in a hole, what the crew is shown: a few lines of words, and layers to draw ahead of the shoe. */
import type { HoleViewAhead } from '@stillstand/output/figures';
import type { ExpectedHere } from './expected-here.ts';

/** What is less probable is not shown; above the shoe, where it should have come up, no less than even. Ours. */
const SHOWN = 0.3;
const EVEN = 0.5;
/** Lines that are read at arm's length. */
const LINES = 4;

export interface AheadLine {
  key: string;
  /** Of the layer whose base it is; null: not described. */
  sediment: string | null;
  horizon: string | null;
  environment: string | null;
  /** Median, upper and lower end of 95 %, m: below the ground now, or elevations where it is not levelled. */
  base: { median: number; upper: number; lower: number };
  /** Probability that it is there. */
  present: number;
  age_cal_bp: { younger: number; older: number } | null;
  /** The shoe is below it and it is not described. */
  isAbove: boolean;
}

export interface Ahead {
  /** From the top down. */
  lines: AheadLine[];
  isDepth: boolean;
  /** Holes that the lines come from, the nearest first. */
  from: { hole: string; distance_m: number }[];
}

/**
 * @param shoe_m shoe, or the lowest push, below the ground as it is now
 * @param sank how much deeper below the ground everything is since the start, m
 * @returns null where no line is to be shown
 */
export function aheadOf(expected: ExpectedHere, shoe_m: number, sank: number): Ahead | null {
  const { ground_m } = expected;
  const isDepth = ground_m !== null;
  const at = (elevation_m: number): number => (isDepth ? ground_m - elevation_m + sank : elevation_m);
  const all = expected.contacts
    .filter(({ present }) => present >= SHOWN)
    .map(({ elevation_m, units, ...contact }) => ({
      ...contact,
      units,
      key: units[0]?.unit_row_id ?? '',
      base: {
        median: at(elevation_m.median),
        upper: at(elevation_m.upper95),
        lower: at(elevation_m.lower95),
      },
      isAbove: isDepth && at(elevation_m.median) <= shoe_m,
    }))
    .sort((a, b) => (isDepth ? 1 : -1) * (a.base.median - b.base.median));
  const above = all.filter(({ isAbove, present }) => isAbove && present >= EVEN).slice(-1);
  const lines = [
    ...above,
    ...next(
      all.filter(({ isAbove }) => !isAbove),
      LINES - above.length,
    ),
  ];
  if (lines.length === 0) return null;
  const saying = new Set(lines.flatMap(({ units }) => units.map(({ hole }) => hole)));
  return {
    lines: lines.map(({ key, sediment, horizon, environment, base, present, age_cal_bp, isAbove }) => ({
      ...{ key, sediment, horizon, environment, base, present, age_cal_bp, isAbove },
    })),
    isDepth,
    from: expected.asked.filter(({ hole }) => saying.has(hole)),
  };
}

/** The next ones; the first named horizon is among them, however deep: it is what the hole is for. */
function next<T extends { horizon: string | null }>(below: readonly T[], count: number): T[] {
  const first = below.slice(0, count);
  const named = below.find(({ horizon }) => horizon !== null);
  return named === undefined || first.includes(named) ? first : [...first.slice(0, count - 1), named];
}

/**
 * Layers as thick as the nearest hole has them, above the base that is expected, and no two in one place: what lies
 * between them is left blank. Depths below the ground at the start.
 *
 * @param from_m above it nothing is drawn: the shoe, and what was described or sampled, below the ground at the start
 */
export function layersAhead(
  { ground_m, contacts, thickness }: ExpectedHere,
  from_m: number,
): HoleViewAhead[] {
  if (ground_m === null) return [];
  const layers: HoleViewAhead[] = [];
  let last = from_m;
  const shown = contacts
    .filter(({ present, sediment }) => present >= SHOWN && sediment !== null)
    .map(({ sediment, present, elevation_m, units }) => ({
      ...{ sediment: sediment!, present, to_m: ground_m - elevation_m.median },
      thick_m: thickness.get(units[0]?.unit_row_id ?? '') ?? 0,
    }))
    .sort((a, b) => a.to_m - b.to_m);
  for (const { sediment, present, to_m, thick_m } of shown) {
    const top = Math.max(last, to_m - thick_m);
    if (to_m <= top) continue;
    layers.push({ sediment, from_m: top, to_m, present });
    last = to_m;
  }
  return layers;
}
