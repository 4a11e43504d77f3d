/** Which columns of a table of probability are years, and which of them a curve. */
import { eraOfHeading } from './density-years.ts';
import type { Heading } from './heading.ts';
import { isErrorHeading, isFlagHeading } from './known-headings.ts';
import type { MappedColumn } from './mapping.ts';

/**
 * A heading of years says in its text how it counts them. “Density” is the name of a curve only where there is a weight
 * too; a column of numbers that no heading explains is a curve of its own, named by it, where nothing else is a weight.
 */
export function densities(
  columns: readonly MappedColumn[],
  headings: readonly Heading[],
  isNumbers: (at: number) => boolean,
): void {
  const find = (to: string): number => columns.findIndex((column) => column.to === to);
  for (const [at, column] of columns.entries()) {
    const era = eraOfHeading(headings[at]!.text);
    if (column.to?.startsWith('age_') && era !== null && find(era) === -1) column.to = era;
  }
  const named = find('density');
  if (named !== -1 && find('weight') === -1 && isNumbers(named)) columns[named]!.to = 'weight';
  if (find('weight') !== -1) return;
  for (const [at, column] of columns.entries()) {
    const { text, words } = headings[at]!;
    if (column.to !== null || text === '' || !isNumbers(at)) continue;
    if (NO_CURVE.test(words) || isErrorHeading(words) || isFlagHeading(words)) continue;
    column.to = 'weight of';
    column.property = text;
  }
}

/** Numbers beside years that are no probability: other ages, and sums of what stands above. */
const NO_CURVE =
  /^(?:no|nr|id|row|line|index)\b|depth|14 ?c|c ?14|\bbp\b|cumulative|\bcdf\b|years?|\bages?\b/;
