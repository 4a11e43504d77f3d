/** A hole made ready for the chains: sections, breaks, and where each horizon lies in each state of the hole. */
import { median } from '@stillstand/science/base';
import { type DateLikelihood, dateLikelihood } from './date-likelihood.ts';
import type { AgeDepthInput, Break, DatedHorizon, NotEnough, Profile } from './model.ts';
import { type Places, placesOf } from './places.ts';
import { type PlacedProfile, placed } from './profiles.ts';
import { edgesOf, nearestEdge } from './section.ts';
import type { AgeDepthSettings } from './settings.ts';

/** Its places are those of the horizons. */
export interface Hole extends Places {
  settings: AgeDepthSettings;
  surface: AgeDepthInput['surface'];
  sections: number;
  /** Thickness of each section, and depths of their boundaries. */
  thickness_m: Float64Array;
  edge_m: Float64Array;
  /** Draws of the depths, horizons and breaks alike. */
  states: number;
  horizons: { id: string; depth_m: Float64Array; median_m: number; age: DatedHorizon['age'] }[];
  dates: DateLikelihood[];
  breaks: { id: string; depth_m: Float64Array }[];
  profiles: PlacedProfile[];
  /** 1 where memory is cut at the top of a section: the boundary nearest to a break's median. */
  isCut: Uint8Array;
}

/** @throws RangeError where depths are no numbers or not as many everywhere, the bottom is no depth, or a profile lies outside or on a break. */
export function makeHole(input: AgeDepthInput, settings: AgeDepthSettings): Hole | NotEnough {
  const { surface, bottom_m } = input;
  const states = (input.horizons[0] ?? input.breaks[0])?.depth_m.length ?? 0;
  let deepest = bottom_m;
  for (const { id, depth_m } of [...input.horizons, ...input.breaks]) {
    if (depth_m.length !== states || states === 0)
      throw new RangeError(
        `ageDepth: ${depth_m.length} depths of ${id}; expected ${Math.max(1, states)}, as of the others`,
      );
    for (const d of depth_m) {
      if (!Number.isFinite(d)) throw new RangeError(`ageDepth: a depth of ${id} is ${d}; expected a number`);
      deepest = Math.max(deepest, d);
    }
  }
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
  for (const profile of profiles) demandProfile(profile, deepest, input.breaks);
  const edge_m = edgesOf(
    deepest,
    settings.sections,
    profiles.map(({ ends_m }) => ends_m),
  );
  const sections = edge_m.length - 1;
  const thickness_m = Float64Array.from({ length: sections }, (_, j) => edge_m[j + 1]! - edge_m[j]!);
  const isCut = new Uint8Array(sections);
  for (const { depth_m } of input.breaks) {
    const boundary = nearestEdge(edge_m, median(depth_m));
    if (boundary > 0 && boundary < sections) isCut[boundary] = 1;
  }
  return {
    settings,
    surface,
    sections,
    thickness_m,
    edge_m,
    states,
    horizons: used.map(({ id, depth_m, age }) => ({
      id,
      depth_m,
      median_m: median(depth_m),
      age,
    })),
    dates,
    breaks: input.breaks.map(({ id, depth_m }) => ({ id, depth_m })),
    profiles: profiles.map((profile) => placed(profile, edge_m)),
    isCut,
    ...placesOf(
      edge_m,
      input.breaks,
      used.map(({ depth_m }) => depth_m),
      states,
    ),
  };
}

function demandProfile({ id, ends_m }: Profile, deepest_m: number, breaks: readonly Break[]): void {
  const isFine = ends_m.length > 0 && ends_m.every((end, e) => end >= 0 && (e === 0 || end > ends_m[e - 1]!));
  if (!isFine)
    throw new RangeError(
      `ageDepth: depths of ${id} are ${ends_m.join(', ')}; expected some, downward from 0 m on`,
    );
  const lowest = ends_m.at(-1)!;
  if (!(lowest <= deepest_m))
    throw new RangeError(`ageDepth: ${id} reaches ${lowest} m; expected at most ${deepest_m} m, the bottom`);
  const among = breaks.find(({ depth_m }) => depth_m.some((d) => d < lowest));
  if (among !== undefined)
    throw new RangeError(`ageDepth: ${among.id} lies among the depths of ${id}; expected no break there`);
}
