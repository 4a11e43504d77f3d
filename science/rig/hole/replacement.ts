/**
 * A second hole beside a lost one. The link is a fact of the campaign (`replaces`, `distance_to_replaced_m`); here it is followed, and
 * what cannot be true of it is said.
 */
import { geodesic } from '@stillstand/science/survey';

export interface LinkedHole {
  hole: string;
  replaces: string | null;
  distance_to_replaced_m: number | null;
  state: string | null;
  latitude_deg: number | null;
  longitude_deg: number | null;
}

export interface HoleLink {
  hole: string;
  /** Lost hole first; the hole itself is not in it. */
  before: { hole: string; distance_to_replaced_m: number | null }[];
  /** Holes that replace this one. */
  after: { hole: string; distance_to_replaced_m: number | null }[];
  /** What cannot be so, or is not said. */
  doubts: string[];
}

/** Positions from a hand-held receiver: 1 sigma of their distance, common practice, no source. */
const POSITION_SIGMA_M = 5;

/** Links of each hole, in the order they came. Never throws; a circle is followed once round and named. */
export function linkHoles(holes: readonly LinkedHole[]): HoleLink[] {
  const byName = new Map(holes.map((h) => [h.hole, h]));
  return holes.map((hole) => {
    const doubts: string[] = [];
    const before: HoleLink['before'] = [];
    const seen = new Set([hole.hole]);
    for (let at: LinkedHole | undefined = hole; at !== undefined && at.replaces !== null; ) {
      const lost: LinkedHole | undefined = byName.get(at.replaces);
      if (lost === undefined) {
        doubts.push(`${at.hole} as the replacement of ${at.replaces}, which is not a hole of this campaign`);
        break;
      }
      if (seen.has(lost.hole)) {
        doubts.push(`${at.hole} as the replacement of ${lost.hole}, which in turn is that of ${at.hole}`);
        break;
      }
      seen.add(lost.hole);
      before.unshift({ hole: lost.hole, distance_to_replaced_m: at.distance_to_replaced_m });
      if (at === hole) doubts.push(...doubtsOf(hole, lost));
      at = lost;
    }
    const after = holes
      .filter((h) => h.replaces === hole.hole && h.hole !== hole.hole)
      .map((h) => ({ hole: h.hole, distance_to_replaced_m: h.distance_to_replaced_m }));
    if (hole.state === 'lost' && after.length === 0)
      doubts.push(`${hole.hole} is lost and has no replacement hole`);
    return { hole: hole.hole, before, after, doubts };
  });
}

function doubtsOf(hole: LinkedHole, lost: LinkedHole): string[] {
  const doubts: string[] = [];
  if (
    lost.state !== null &&
    lost.state !== 'lost' &&
    lost.state !== 'abandoned' &&
    lost.state !== 'refused'
  ) {
    doubts.push(`${hole.hole} as the replacement of ${lost.hole}, which is ${lost.state}`);
  }
  if (hole.distance_to_replaced_m === null) {
    doubts.push(`no distance from ${lost.hole} is stated`);
    return doubts;
  }
  const a = placeOf(hole);
  const b = placeOf(lost);
  if (a === null || b === null) return doubts;
  const apart = geodesic(a, b).distance_m;
  if (Math.abs(apart - hole.distance_to_replaced_m) > 3 * POSITION_SIGMA_M) {
    doubts.push(
      `stated ${hole.distance_to_replaced_m.toFixed(1)} m from ${lost.hole}, ${apart.toFixed(1)} m by their positions`,
    );
  }
  return doubts;
}

function placeOf(hole: LinkedHole): { latitude_deg: number; longitude_deg: number } | null {
  const { latitude_deg, longitude_deg } = hole;
  return latitude_deg === null || longitude_deg === null ? null : { latitude_deg, longitude_deg };
}
