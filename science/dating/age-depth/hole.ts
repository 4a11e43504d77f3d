/** A hole made ready for the chains: sections, breaks, and where each horizon lies in each state of the hole. */
import { median } from '@stillstand/science/base';
import { type Axis, axisOf, counted } from './axis.ts';
import { bedsOf, withoutBeds } from './beds.ts';
import { type DateLikelihood, dateLikelihood } from './date-likelihood.ts';
import { type Grid, gridOf } from './grid.ts';
import type { AgeDepthInput, Bed, Break, DatedHorizon, Layer, NotEnough, Profile } from './model.ts';
import { type Places, placesOf } from './places.ts';
import { type PlacedProfile, placed } from './profiles.ts';
import { edgesOf, nearestEdge } from './section.ts';
import type { AgeDepthSettings } from './settings.ts';

/** Its places are those of the horizons. */
export interface Hole extends Places {
  settings: AgeDepthSettings;
  surface: AgeDepthInput['surface'];
  sections: number;
  /** Depths here are metres as they count on this axis, where nothing else is said. */
  axis: Axis;
  /** Thickness of each section, and depths of their boundaries. */
  thickness_m: Float64Array;
  edge_m: Float64Array;
  /** Thickness of each in metres of ground, over which accumulation persists. */
  ground_thickness_m: Float64Array;
  /** Depths reported, below the ground. */
  grid: Grid;
  /** Draws of the depths, horizons and breaks alike. */
  states: number;
  horizons: { id: string; depth_m: Float64Array; median_m: number; age: DatedHorizon['age'] }[];
  dates: DateLikelihood[];
  /** With their depths below the ground. */
  breaks: { id: string; depth_m: Float64Array; below_ground_m: Float64Array }[];
  beds: readonly Bed[];
  profiles: PlacedProfile[];
  /** 1 where memory is cut at the top of a section: the boundary nearest to a break's median. */
  isCut: Uint8Array;
}

/** @throws RangeError where depths are no numbers or not as many everywhere, the bottom is no depth, a profile lies outside or on a break or bed, or a usual accumulation is none. */
export function makeHole(input: AgeDepthInput, settings: AgeDepthSettings): Hole | NotEnough {
  const { surface, bottom_m, beds = [], layers = [] } = input;
  const states =
    ((input.horizons[0] ?? input.breaks[0])?.depth_m ?? (beds[0] ?? layers[0])?.top_m)?.length ?? 0;
  let deepest = bottom_m;
  for (const { id, depth_m } of [...input.horizons, ...input.breaks]) {
    demandDepths(id, depth_m, states);
    for (const d of depth_m) deepest = Math.max(deepest, d);
  }
  for (const { id, top_m, bottom_m: base_m } of beds)
    for (const depths of [top_m, base_m]) demandDepths(id, depths, states);
  for (const layer of layers) demandLayer(layer, states);
  if (!(deepest > 0 && deepest < Infinity))
    throw new RangeError(`ageDepth: bottom at ${bottom_m} m; expected a depth below the ground`);
  if (
    surface !== null &&
    !(Number.isFinite(surface.age_cal_bp) && surface.sd_yr >= 0 && surface.sd_yr < Infinity)
  )
    throw new RangeError(
      `ageDepth: ground of ${surface.age_cal_bp} ± ${surface.sd_yr} cal BP; expected numbers`,
    );

  const read = input.horizons.map(({ age }) =>
    dateLikelihood(age, settings.outlier, settings.outlier_scales_yr),
  );
  const used = input.horizons.filter((_, i) => read[i] !== null);
  const dates = read.filter((date) => date !== null);
  const known = dates.length + (surface === null ? 0 : 1);
  if (dates.length === 0 || known < 2) {
    return {
      kind: 'not_enough',
      reason: `${dates.length} dated ${dates.length === 1 ? 'horizon' : 'horizons'} ${surface === null ? 'and a ground of unknown age' : 'and the ground'}; expected a date and the age of the ground, or two dates`,
    };
  }

  const profiles = input.profiles ?? [];
  for (const profile of profiles) demandProfile(profile, deepest, input.breaks, beds);
  const gone = beds.length === 0 ? [] : bedsOf(beds, states);
  let ground = beds.length === 0 ? deepest : 0;
  for (let k = 0; k < gone.length; k++) ground = Math.max(ground, withoutBeds(gone, deepest, k));
  if (!(ground > 0))
    return {
      kind: 'not_enough',
      reason: 'beds laid down at once from the ground to the bottom; expected sediment that took time',
    };
  const ends_m = profiles.map((profile) => profile.ends_m);
  const ground_m = edgesOf(ground, settings.sections, ends_m);
  const axis = axisOf(gone, ground_m, layers, states, settings.accumulation_mm_yr);
  const edge_m = axis.counted_m;
  const sections = edge_m.length - 1;
  const between = (edges: Float64Array): Float64Array =>
    Float64Array.from({ length: sections }, (_, j) => edges[j + 1]! - edges[j]!);
  const thickness_m = between(edge_m);
  const onAxis = (depth_m: Float64Array): Float64Array =>
    depth_m.map((d, k) => counted(axis, Math.max(0, d), k));
  const isCut = new Uint8Array(sections);
  const breaks = input.breaks.map(({ id, depth_m }) => ({
    id,
    depth_m: onAxis(depth_m),
    below_ground_m: depth_m,
  }));
  for (const { depth_m } of breaks) {
    const boundary = nearestEdge(edge_m, median(depth_m));
    if (boundary > 0 && boundary < sections) isCut[boundary] = 1;
  }
  return {
    settings,
    surface,
    sections,
    axis,
    thickness_m,
    edge_m,
    ground_thickness_m: between(ground_m),
    grid: gridOf(axis, beds, deepest),
    states,
    horizons: used.map(({ id, depth_m, age }) => {
      const at_m = onAxis(depth_m);
      return { id, depth_m: at_m, median_m: median(at_m), age };
    }),
    dates,
    breaks,
    beds,
    profiles: profiles.map((profile) =>
      placed({ ...profile, ends_m: profile.ends_m.map((d) => counted(axis, d, 0)) }, edge_m),
    ),
    isCut,
    ...placesOf(
      axis,
      input.breaks.map(({ depth_m }) => depth_m),
      used.map(({ depth_m }) => depth_m),
      states,
    ),
  };
}

function demandDepths(id: string, depths_m: Float64Array, states: number): void {
  if (depths_m.length !== states || states === 0)
    throw new RangeError(
      `ageDepth: ${depths_m.length} depths of ${id}; expected ${Math.max(1, states)}, as of the others`,
    );
  for (const d of depths_m)
    if (!Number.isFinite(d)) throw new RangeError(`ageDepth: a depth of ${id} is ${d}; expected a number`);
}

function demandLayer({ top_m, bottom_m, usual_mm_yr }: Layer, states: number): void {
  for (const depths of [top_m, bottom_m]) demandDepths('a layer', depths, states);
  if (!(usual_mm_yr > 0 && usual_mm_yr < Infinity))
    throw new RangeError(`ageDepth: a layer of ${usual_mm_yr} mm/yr as usual; expected a number above 0`);
}

function demandProfile(
  { id, ends_m }: Profile,
  deepest_m: number,
  breaks: readonly Break[],
  beds: readonly Bed[],
): void {
  const isFine = ends_m.length > 0 && ends_m.every((end, e) => end >= 0 && (e === 0 || end > ends_m[e - 1]!));
  if (!isFine)
    throw new RangeError(
      `ageDepth: depths of ${id} are ${ends_m.join(', ')}; expected some, downward from 0 m on`,
    );
  const lowest = ends_m.at(-1)!;
  if (!(lowest <= deepest_m))
    throw new RangeError(`ageDepth: ${id} reaches ${lowest} m; expected at most ${deepest_m} m, the bottom`);
  const among =
    breaks.find(({ depth_m }) => depth_m.some((d) => d < lowest)) ??
    beds.find(({ top_m }) => top_m.some((d) => d < lowest));
  if (among !== undefined)
    throw new RangeError(
      `ageDepth: ${among.id} lies among the depths of ${id}; expected no break and no bed there`,
    );
}
