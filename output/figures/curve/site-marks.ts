/** Which mark a site has in the drawing of a curve of several. */
import { siteName } from '@stillstand/campaign/results';
import { SITE_MARKS } from '@stillstand/output/drawing';

/** Sites beyond the marks there are share the last. */
export const markOfSite = (sites: readonly (string | null)[], site: string | null): number =>
  Math.min(Math.max(0, sites.indexOf(site)), SITE_MARKS - 1);

/** What each mark stands for, in order. */
export function namesOfMarks(sites: readonly (string | null)[]): string[] {
  const names = sites.map(siteName);
  return names.length <= SITE_MARKS ? names : [...names.slice(0, SITE_MARKS - 1), 'other sites'];
}
