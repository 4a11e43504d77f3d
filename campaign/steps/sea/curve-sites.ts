/**
 * Which sites a curve is of. Two coasts have two seas, so points of two sites share a curve only where somebody says so:
 * else the curve is of the site with the most index points, the first in the table `sites` of those with as many. Points
 * without a site count as one site without a name.
 */
import type { AskedSites } from '@stillstand/campaign/settings';

/** A point the curve could use. */
export interface PointOfSite {
  /** Label; null for none. */
  site: string | null;
  kind: 'index' | 'terrestrial' | 'marine';
}

export interface SitesOfCurve {
  /** Of the curve. */
  sites: readonly (string | null)[];
  /** Every site that has points, in the order of the table, with how many. */
  found: readonly { site: string | null; points: number }[];
  /** Labels asked for that no usable point has. */
  unknown: readonly string[];
}

/** `asked` null: nobody said. `order` are the labels of the table `sites`. */
export function chooseSites(
  points: readonly PointOfSite[],
  asked: AskedSites | null,
  order: readonly string[],
): SitesOfCurve {
  const place = ({ site }: { site: string | null }): number => {
    if (site === null) return Infinity;
    const at = order.indexOf(site);
    return at === -1 ? order.length : at;
  };
  const found = [...Map.groupBy(points, (point) => point.site)]
    .map(([site, of]) => ({
      site,
      points: of.length,
      index: of.filter(({ kind }) => kind === 'index').length,
    }))
    .sort((a, b) => (place(a) === place(b) ? 0 : place(a) - place(b)));
  const named = asked === null || asked === 'all' ? [] : asked;
  const unknown = named.filter((label) => !found.some(({ site }) => site === label));
  const ofThem = found.filter(({ site }) => site !== null && named.includes(site));
  const most = found.reduce<(typeof found)[number] | null>(
    (best, each) => (best === null || each.index > best.index ? each : best),
    null,
  );
  const chosen = asked === 'all' ? found : ofThem.length > 0 ? ofThem : most === null ? [] : [most];
  return {
    sites: chosen.map(({ site }) => site),
    found: found.map(({ site, points: count }) => ({ site, points: count })),
    unknown,
  };
}

/** "points of 2 sites: A 4, B 3". */
export const countedSites = (found: SitesOfCurve['found']): string =>
  `points of ${found.length} sites: ${found.map(({ site, points }) => `${siteName(site)} ${points}`).join(', ')}`;

/** For people. */
export const siteName = (site: string | null): string => site ?? 'no site';
