/**
 * The profile as a column without gaps, from the surface to the last slice that can have unsupported lead-210: measured
 * cells, and cells between them and at the surface that are estimated and said.
 */
import type { LeadFault, LeadSlice } from './profile.ts';
import { SAME_M, span } from './slices.ts';
import type { Supported } from './supported.ts';

export interface Cell {
  top_m: number;
  bottom_m: number;
  /** Number of the used slice; null where nothing was measured at all. */
  slice: number | null;
  /** The used slices whose lead-210 it has: itself; the one above and the one below; the uppermost. */
  lead: readonly [number] | readonly [number, number];
  /** Between those two, how far down, 0–1. */
  share: number;
  /** Null where no slice of the profile has one. */
  density_g_cm3: number | null;
}

export interface Column {
  cells: readonly Cell[];
  /** False where so much of the surface is missing that what lay in it cannot be estimated. */
  has_surface: boolean;
}

/** Null where no slice has lead-210 above the tail. */
export function columnOf(
  slices: readonly LeadSlice[],
  { tail }: Pick<Supported, 'tail'>,
): { column: Column | null; faults: LeadFault[] } {
  const faults: LeadFault[] = [];
  const end = tail[0] ?? slices.length;
  const measured = [...slices.keys()].filter((i) => i < end && slices[i]!.total !== null);
  const [first, last] = [measured[0], measured.at(-1)];
  if (first === undefined || last === undefined) return { column: null, faults };
  const densities = densityAt(slices);
  const cells: Cell[] = [];
  const add = (top_m: number, bottom_m: number, slice: number | null): void => {
    const middle_m = (top_m + bottom_m) / 2;
    const above = measured.findLast((i) => i === slice || middleOf(slices[i]!) < middle_m);
    const below = measured.find((i) => i === slice || middleOf(slices[i]!) > middle_m);
    const isWhole = above === undefined || below === undefined || above === below;
    const share = isWhole
      ? 0
      : (middle_m - middleOf(slices[above]!)) / (middleOf(slices[below]!) - middleOf(slices[above]!));
    const lead = isWhole ? ([above ?? below!] as const) : ([above, below] as const);
    cells.push({ top_m, bottom_m, slice, lead, share, density_g_cm3: densities(middle_m) });
  };

  const top_m = slices[0]!.top_m;
  const missing_m = slices[first]!.top_m;
  const thickness_m = slices[first]!.bottom_m - slices[first]!.top_m;
  const has_surface = missing_m <= thickness_m + SAME_M;
  if (missing_m > SAME_M) {
    faults.push({
      code: 'surface',
      severity: has_surface ? 'warning' : 'error',
      slice: slices[first]!.id,
      found: `no lead-210 above ${span(slices[first]!)}`,
      expected: 'slices from the surface down',
      fix: has_surface
        ? 'Measure it if it was kept. It is taken to be like the slice below it until then.'
        : 'Measure the surface. Constant supply and constant concentration give no age without it; the ages of constant flux and sedimentation are carried up to the surface by the mean rate.',
    });
    if (top_m > SAME_M) add(0, top_m, null);
  }
  let reached_m = Math.max(0, top_m);
  for (let i = 0; i <= last; i++) {
    const slice = slices[i]!;
    if (slice.top_m > reached_m + SAME_M) add(reached_m, slice.top_m, null);
    add(slice.top_m, slice.bottom_m, i);
    reached_m = slice.bottom_m;
  }
  const gaps = cells.filter(({ lead }) => lead.length === 2);
  if (gaps.length > 0)
    faults.push({
      code: 'gap',
      severity: 'note',
      slice: null,
      found: `no lead-210 at ${gaps.map(span).join(', ')}`,
      expected: 'slices one below the other',
      fix: 'No action needed: it is interpolated between its neighbours, with an error as wide as they differ.',
    });
  if (cells.some(({ density_g_cm3 }) => density_g_cm3 === null))
    faults.push({
      code: 'no_density',
      severity: 'error',
      slice: null,
      found: 'no dry density',
      expected: 'a dry density of each slice, g/cm³',
      fix: 'Enter it. Constant supply gives no age without it; constant flux and sedimentation is fitted against depth.',
    });
  return { column: { cells, has_surface }, faults };
}

const middleOf = ({ top_m, bottom_m }: LeadSlice): number => (top_m + bottom_m) / 2;

/** Dry density at a depth: that of the slices, straight between their middles, as at the ends beyond them. */
function densityAt(slices: readonly LeadSlice[]): (depth_m: number) => number | null {
  const known = slices.filter(({ density_g_cm3 }) => density_g_cm3 !== null);
  return (depth_m) => {
    const above = known.findLast((slice) => middleOf(slice) <= depth_m);
    const below = known.find((slice) => middleOf(slice) >= depth_m);
    const a = (above ?? below)?.density_g_cm3 ?? null;
    const b = (below ?? above)?.density_g_cm3 ?? null;
    if (a === null || b === null) return null;
    if (above === undefined || below === undefined || above === below) return a;
    const share = (depth_m - middleOf(above)) / (middleOf(below) - middleOf(above));
    return a + share * (b - a);
  };
}

/** Dry mass over area, kg/m²; NaN without a density. */
export const massOf = ({ top_m, bottom_m, density_g_cm3 }: Cell): number =>
  (density_g_cm3 ?? NaN) * 1000 * (bottom_m - top_m);
