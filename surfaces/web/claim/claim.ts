/** A point's claim on the sea worked out at once while it is edited, by the functions the computation itself uses. */
import type { Campaign } from '@stillstand/campaign/document';
import type { PointResult, Results } from '@stillstand/campaign/results';
import { parseTideWord } from '@stillstand/campaign/tables';
import {
  type DeclaredError,
  declaredError,
  type HeightError,
  type IndexPoint,
  indexPoint,
  type LimitingPoint,
  limitingPoint,
  meanTideLevel,
  type NotUsable,
  type SiteTideLevel,
  type TideThen,
} from '@stillstand/science/points';
import { shiftBetween } from '@stillstand/science/survey';

export type Made = IndexPoint | LimitingPoint;
export type Claim = Made | NotUsable;

/** Parts the point itself makes from its meaning; they are not declared beside it. */
const OWN_PARTS: ReadonlySet<string> = new Set([
  'indicative_range',
  'tide_levels',
  'tidal_range',
  'tidal_range_age',
]);
export const isOwnPart = (component: string): boolean => OWN_PARTS.has(component);

/** What is claimed: kind, and the tide words as typed. */
export interface Meaning {
  kind: PointResult['kind'];
  lower: string;
  upper: string;
}

/** Tide levels of a site on the campaign datum; those no datum shift leads to are left out. */
export function tideOf(campaign: Campaign, site: string | null, datum: string): SiteTideLevel[] {
  const shifts = campaign.rows.datum_shifts.map((row) => ({ ...row, sigma_m: row.sigma_m ?? 0 }));
  return campaign.rows.tide_levels.flatMap((row) => {
    if (row.site !== site) return [];
    const shift =
      row.datum === null || row.datum === datum ? 0 : shiftBetween(shifts, row.datum, datum)?.shift_m;
    if (shift === undefined) return [];
    return [{ level: row.level, elevation_m: row.elevation_m + shift, sigma_m: row.sigma_m }];
  });
}

/** The tide at the time of a computed point, as the computation took it; null where its range was today's. */
export function tideThenOf(
  { tidal_range: range, components }: PointResult,
  tide: readonly SiteTideLevel[],
  datumKind: Results['datum']['kind'],
): TideThen | null {
  const mean = meanTideLevel(tide, datumKind === 'mean_sea_level');
  if (range === null || mean === null) return null;
  const shared = components.find(({ component }) => component === 'tidal_range');
  return {
    range,
    mean,
    group: shared?.shared_group?.replace(/^tide_range:/, '') ?? '',
    source: shared?.source ?? '',
  };
}

/** The claim of a computed point with another meaning, or one part of its error replaced or added. */
export function claimAtOnce(
  point: PointResult,
  meaning: Meaning,
  edited: DeclaredError | null,
  tide: readonly SiteTideLevel[],
  site: string | null,
  then: TideThen | null,
): Claim {
  const errors: HeightError[] = point.components.filter((part) => !isOwnPart(part.component));
  if (edited !== null) {
    const at = errors.findIndex((part) => part.component === edited.component);
    errors.splice(at === -1 ? errors.length : at, at === -1 ? 0 : 1, declaredError(edited));
  }
  const common = {
    elevation_m: point.elevation_m,
    tide_levels: tide,
    tide_group: site,
    tide_then: then,
    errors,
  };
  const lower = parseTideWord(meaning.lower);
  const upper = parseTideWord(meaning.upper);
  if (meaning.kind === 'index') {
    if (!lower.ok) return unreadable(lower);
    return upper.ok ? indexPoint({ ...common, lower, upper }) : unreadable(upper);
  }
  const bound = meaning.kind === 'terrestrial' ? lower : upper;
  return bound.ok ? limitingPoint({ ...common, kind: meaning.kind, bound }) : unreadable(bound);
}

const unreadable = (fault: { found: string; expected: string; fix: string }): NotUsable => ({
  ok: false,
  reason: 'meaning_missing',
  found: fault.found,
  expected: fault.expected,
  fix: fault.fix,
});

/** How a part would be declared as it stands: two sigma of a normal, half width of a uniform, scale of a one-sided. */
export function asDeclared(part: HeightError): DeclaredError {
  const size = part.shape === 'normal' ? 2 : part.shape === 'uniform' ? Math.sqrt(3) : 1;
  return {
    component: part.component,
    value_m: Math.round(part.sigma_m * size * 1e4) / 1e4,
    sigma_level: 2,
    shape: part.shape,
    shared_group: part.shared_group,
    source: 'declared',
  };
}

/** Longest first; ties by name. */
export const longestFirst = (parts: readonly HeightError[]): HeightError[] =>
  [...parts].sort((a, b) => b.sigma_m - a.sigma_m || (a.component < b.component ? -1 : 1));
