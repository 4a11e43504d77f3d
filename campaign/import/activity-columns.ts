/** Which columns of a laboratory's table of slices are activities, their errors, their limits of detection, and density. */
import { LEAD_NAMES, leadMeasurement } from '@stillstand/science/lead';
import type { Heading } from './heading.ts';
import { isErrorHeading, isFlagHeading } from './known-headings.ts';
import type { MappedColumn } from './mapping.ts';

const LIMIT =
  /\b(?:l\.?o\.?[dq]|m\.?d\.?[al]|d\.?l|l\.?d|(?:detection|minimum detectable) (?:limit|activity)|limit of detection)\b/;
const ERROR_WORDS =
  /[±σ]|\+\s*\/?\s*-|\b(?:err(?:ors?)?|unc(?:ertainty|ert)?|sigma|s\.?[de]\.?|std|precision|accuracy|of|in|[12])\b/g;
/** What is said of an error and names nothing that was measured. */
const GENERAL = /^(?:count(?:ing|s)?|measurement|analytical|total|rel(?:ative)?|abs(?:olute)?)?$/;

/** An error or a limit belongs to what its heading names, else to the column before it. */
export function activities(columns: readonly MappedColumn[], headings: readonly Heading[]): void {
  const taken = new Set<string>();
  let before: string | null = null;
  const fill = (column: MappedColumn, to: string, property: string | null, unit: string | null): void => {
    if (property === null || !taken.has(property) || taken.has(`${to} ${property}`)) return;
    taken.add(`${to} ${property}`);
    column.to = to;
    column.property = property;
    column.unit =
      unit ?? columns.find((c) => c.to === 'measurement' && c.property === property)?.unit ?? null;
  };
  for (const [at, column] of columns.entries()) {
    const { words, unit, text } = headings[at]!;
    if (column.to !== null || text === '' || isFlagHeading(words)) continue;
    if (LIMIT.test(words)) {
      fill(column, 'measurement limit', meant(words.replace(LIMIT, ' '), before), unit);
      continue;
    }
    if (isErrorHeading(words)) {
      fill(column, 'measurement error', meant(words.replace(ERROR_WORDS, ' '), before), unit);
      continue;
    }
    const what = leadMeasurement(words);
    before = null;
    if (what === null || taken.has(LEAD_NAMES[what])) continue;
    before = LEAD_NAMES[what];
    taken.add(before);
    column.to = 'measurement';
    column.property = before;
  }
}

function meant(rest: string, before: string | null): string | null {
  const stem = rest.replace(/\s+/g, ' ').trim();
  const what = leadMeasurement(stem);
  if (what !== null) return LEAD_NAMES[what];
  return GENERAL.test(stem) ? before : null;
}
