/**
 * Which curves there are, and of which sites. Two coasts have two seas, so points of two sites share a curve only where
 * somebody says so: in the column `curve` of the sites, or for the curve of the report in the setting `curve_sites`. Else
 * each site has a curve of its own, and that of the report is of the site with the most index points, the first in the
 * table `sites` of those with as many. Points without a site count as one site without a name.
 */
import { MAIN_CURVE, siteName } from '@stillstand/campaign/results';
import type { AskedSites } from '@stillstand/campaign/settings';

/** A point a curve could use. */
export interface PointOfSite {
  /** Label; null for none. */
  site: string | null;
  kind: 'index' | 'terrestrial' | 'marine';
}

/** A site, and the curve its points belong to where somebody named one. */
export interface SiteInCurve {
  site: string;
  curve: string | null;
}

interface SitesOfCurve {
  /** Unique; the first is that of the report. */
  id: string;
  sites: readonly (string | null)[];
}

export interface CurvesOfSites {
  /** That of the report first; empty without points. */
  curves: readonly SitesOfCurve[];
  /** Every site that has points, in the order of the table, with how many. */
  found: readonly { site: string | null; points: number; index: number }[];
  /** Sites whose points are in no curve: they have too few index points for one, and nobody named one. */
  without: readonly (string | null)[];
  /** Labels asked for that no usable point has. */
  unknown: readonly string[];
}

/** With fewer a site gets a curve only where somebody names one: a single point shows no rate. */
const LEAST_INDEX_POINTS = 2;

/** `asked`: for the curve of the report; null: nobody said. `sites`: the table, in its order. */
export function chooseCurves(
  points: readonly PointOfSite[],
  asked: AskedSites | null,
  sites: readonly SiteInCurve[],
): CurvesOfSites {
  const place = new Map<string | null, number>(sites.map(({ site }, at) => [site, at]));
  const named = new Map<string | null, string | null>(sites.map(({ site, curve }) => [site, curve]));
  const placeOf = (site: string | null): number =>
    site === null ? Infinity : (place.get(site) ?? sites.length);
  const found = [...Map.groupBy(points, (point) => point.site)]
    .map(([site, of]) => ({
      site,
      points: of.length,
      index: of.filter(({ kind }) => kind === 'index').length,
    }))
    .sort((a, b) => (placeOf(a.site) === placeOf(b.site) ? 0 : placeOf(a.site) - placeOf(b.site)));
  const labels = asked === null || asked === 'all' ? [] : asked;
  const unknown = labels.filter((label) => !found.some(({ site }) => site === label));

  const groups = [...Map.groupBy(found, ({ site }) => named.get(site) ?? site)].map(([name, of]) => ({
    name,
    sites: of.map(({ site }) => site),
    index: of.reduce((sum, { index }) => sum + index, 0),
    isNamed: of.some(({ site }) => (named.get(site) ?? null) !== null),
  }));
  const most = groups.reduce<(typeof groups)[number] | null>(
    (best, each) => (best === null || each.index > best.index ? each : best),
    null,
  );
  const ofThem = found.filter(({ site }) => site !== null && labels.includes(site));
  const main =
    asked === 'all'
      ? found.map(({ site }) => site)
      : ofThem.length > 0
        ? ofThem.map(({ site }) => site)
        : (most?.sites ?? []);
  if (main.length === 0) return { curves: [], found, without: [], unknown };

  const isMain = (of: (typeof groups)[number]): boolean =>
    of.sites.every((site) => main.includes(site)) && (!of.isNamed || of.sites.length === main.length);
  const others = groups.filter((of) => !isMain(of) && (of.isNamed || of.index >= LEAST_INDEX_POINTS));
  const curves: SitesOfCurve[] = [{ id: MAIN_CURVE, sites: main }];
  for (const { name, sites: theirs } of others)
    curves.push({ id: unlike(siteName(name), curves), sites: theirs });
  const without = found.flatMap(({ site }) => (curves.some((of) => of.sites.includes(site)) ? [] : [site]));
  return { curves, found, without, unknown };
}

/** A name no curve has yet. */
function unlike(name: string, curves: readonly SitesOfCurve[]): string {
  let free = name;
  for (let n = 2; curves.some(({ id }) => id === free); n++) free = `${name} (${n})`;
  return free;
}

/** "points of 2 sites: A 4, B 3". */
export const countedSites = (found: CurvesOfSites['found']): string =>
  `points of ${found.length} sites: ${found.map(({ site, points }) => `${siteName(site)} ${points}`).join(', ')}`;
