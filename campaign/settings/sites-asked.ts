/** The sites whose points a person wants on one curve. */
import { listed } from '@stillstand/campaign/tables';

/** Labels a person named, or all. */
export type AskedSites = readonly string[] | 'all';

/** As in the setting `curve_sites`: labels separated by semicolons, or `all`; null where nobody said. */
export function readSites(text: string): AskedSites | null {
  const words = listed(text);
  if (words.length === 0) return null;
  return words.length === 1 && words[0]!.toLowerCase() === 'all' ? 'all' : words;
}
