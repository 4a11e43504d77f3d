/**
 * Holes and points as GeoJSON (RFC 7946): longitude before latitude, WGS 84. Heights stand in the properties with their
 * datum, not as third coordinates, which the standard reads as heights above the ellipsoid. What has no position keeps
 * its place with a null geometry (§3.2).
 */
import type { HoleResult, PointResult, Results } from '@stillstand/campaign/results';
import { decimalsFor } from '@stillstand/output/words';
import { pointSigma2 } from './point-error.ts';

/** About a decimetre; more digits would claim what no hand-held receiver knows (§11.2). */
const PLACES = 6;

/** A FeatureCollection as text, indented by one space. The same results give the same text. */
export function resultsGeoJson(results: Results): string {
  const holes = new Map(results.holes.map((hole) => [hole.hole, hole]));
  return `${JSON.stringify(
    {
      type: 'FeatureCollection',
      features: [
        ...results.holes.map((hole) => feature(`hole/${hole.hole}`, hole, holeProperties(hole, results))),
        ...results.points.map((point) =>
          feature(
            `point/${point.point}`,
            holes.get(point.hole ?? '') ?? null,
            pointProperties(point, results),
          ),
        ),
      ],
    },
    null,
    1,
  )}\n`;
}

/** What has a position, degrees on WGS 84; null where it is not known. */
interface Placed {
  readonly longitude_deg: number | null;
  readonly latitude_deg: number | null;
}

/** Longitude before latitude, degrees on WGS 84, as maps get them; null where either is not known. */
export function coordinatesOf(placed: Placed | null): [longitude: number, latitude: number] | null {
  const { longitude_deg, latitude_deg } = placed ?? { longitude_deg: null, latitude_deg: null };
  if (longitude_deg === null || latitude_deg === null) return null;
  return [rounded(longitude_deg, PLACES), rounded(latitude_deg, PLACES)];
}

function feature(id: string, hole: HoleResult | null, properties: object): object {
  const coordinates = coordinatesOf(hole);
  const geometry = coordinates === null ? null : { type: 'Point', coordinates };
  return { type: 'Feature', id, geometry, properties };
}

function holeProperties(hole: HoleResult, { datum }: Results): object {
  return {
    what: 'hole',
    hole: hole.hole,
    site: hole.site,
    site_name: hole.site_name,
    method: hole.method,
    state: hole.state,
    datum: datum.label,
    ground_elevation_m: measured(hole.ground_elevation_m?.value, hole.ground_elevation_m?.sigma),
    ground_elevation_2sigma_m: measured(
      twice(hole.ground_elevation_m?.sigma),
      hole.ground_elevation_m?.sigma,
    ),
    penetration_m: measured(hole.penetration_m, null),
  };
}

function pointProperties(point: PointResult, { datum }: Results): object {
  const sigma2 = pointSigma2(point);
  return {
    what: 'point',
    point: point.point,
    hole: point.hole,
    sample: point.sample,
    lab_code: point.lab_code,
    kind: point.kind,
    indicator: point.indicator,
    position: point.position,
    status: point.status,
    reason: point.reason,
    age_median_cal_bp: Math.round(point.age.median_cal_bp),
    age_older_2sigma_cal_bp: Math.round(point.age.older95_cal_bp),
    age_younger_2sigma_cal_bp: Math.round(point.age.younger95_cal_bp),
    datum: datum.label,
    /** Of a limit: the sea was below (terrestrial) or above (marine) it. */
    rsl_m: measured(point.rsl_m, sigma2 / 2),
    rsl_2sigma_m: measured(sigma2, sigma2 / 2),
  };
}

const twice = (sigma: number | undefined): number | undefined =>
  sigma === undefined ? undefined : 2 * sigma;

/** Rounded as its uncertainty deserves, never coarser than a centimetre. */
function measured(value: number | null | undefined, sigma: number | null | undefined): number | null {
  if (value === null || value === undefined || !Number.isFinite(value)) return null;
  return rounded(value, decimalsFor(2 * (sigma ?? Number.NaN), 2));
}

const rounded = (value: number, places: number): number => Number(value.toFixed(places));
