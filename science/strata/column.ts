/** The units of one hole in in-situ depth and on elevation: order, gaps, overlaps. */
import { square } from '@stillstand/science/base';

/** A number with its uncertainty; `lower95`/`upper95` bound the central 95 %. */
export interface Placement {
  value: number;
  /** 1 sigma. */
  sigma: number;
  lower95: number;
  upper95: number;
}

/** A unit on in-situ depth below ground, metres, positive down. */
export interface PlacedUnit {
  top_m: number;
  bottom_m: number;
}

export interface ColumnFlaw {
  kind: 'gap' | 'overlap' | 'reversed';
  /** Places in `units` as given: the upper (or the flawed) unit and the one below it. */
  upper: number;
  lower: number;
  top_m: number;
  bottom_m: number;
}

export interface Column {
  /** Places in `units` as given, from the top down. */
  order: number[];
  /** In order of depth. A gap is a stretch nobody described; an overlap one described twice. */
  flaws: ColumnFlaw[];
  /** Metres described, overlaps counted once. */
  described_m: number;
}

/**
 * The units from the top down, with every gap and overlap wider than `tolerance_m` (default 1 mm, what a tape is read
 * to). A unit whose bottom lies above its top is a flaw and is left out of the order; nothing is moved.
 */
export function column(units: readonly PlacedUnit[], tolerance_m = 0.001): Column {
  const flaws: ColumnFlaw[] = [];
  const order: number[] = [];
  units.forEach((unit, i) => {
    if (unit.bottom_m >= unit.top_m) order.push(i);
    else flaws.push({ kind: 'reversed', upper: i, lower: i, top_m: unit.bottom_m, bottom_m: unit.top_m });
  });
  order.sort((a, b) => units[a]!.top_m - units[b]!.top_m || units[a]!.bottom_m - units[b]!.bottom_m || a - b);

  let described_m = 0;
  // Deepest unit so far: a thin unit may lie wholly within the one above, and must not hide its overlap below.
  let deepest: number | null = null;
  for (const i of order) {
    const unit = units[i]!;
    const reached = deepest === null ? unit.top_m : units[deepest]!.bottom_m;
    described_m += Math.max(0, unit.bottom_m - Math.max(unit.top_m, reached));
    if (deepest !== null && unit.top_m - reached > tolerance_m) {
      flaws.push({ kind: 'gap', upper: deepest, lower: i, top_m: reached, bottom_m: unit.top_m });
    }
    const end = Math.min(reached, unit.bottom_m);
    if (deepest !== null && end - unit.top_m > tolerance_m) {
      flaws.push({ kind: 'overlap', upper: deepest, lower: i, top_m: unit.top_m, bottom_m: end });
    }
    if (deepest === null || unit.bottom_m > reached) deepest = i;
  }
  flaws.sort((a, b) => a.top_m - b.top_m || a.upper - b.upper || a.lower - b.lower);
  return { order, flaws, described_m };
}

/** 95 % of a normal, in sigma. */
const Z95 = 1.959963984540054;

/**
 * Elevation of a depth below ground: ground − depth. The two errors are independent; each side's 95 % half width is
 * the root-sum-square of depth's own on the other side (depths may be skewed) and the ground's.
 */
export function elevationOf(depth: Placement, ground: { value: number; sigma: number }): Placement {
  const value = ground.value - depth.value;
  const groundHalf = Z95 * ground.sigma;
  return {
    value,
    sigma: Math.sqrt(square(depth.sigma) + square(ground.sigma)),
    lower95: value - Math.sqrt(square(depth.upper95 - depth.value) + square(groundHalf)),
    upper95: value + Math.sqrt(square(depth.value - depth.lower95) + square(groundHalf)),
  };
}
