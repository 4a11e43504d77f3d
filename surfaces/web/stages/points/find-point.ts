/** Which points of a long list are meant by what was typed. */

/** Lists longer than this have a field to find a point by. */
export const LONG_LIST = 12;
/** Labels longer than this, characters, have a line of their own. */
const LONG_LABEL = 12;

/** Each word typed is a part of something that is said of the point; case does not matter, and nothing typed finds all. */
export function isFound(typed: string, of: readonly (string | null | undefined)[]): boolean {
  const said = of.join(' ').toLowerCase();
  return typed
    .toLowerCase()
    .split(/\s+/)
    .every((word) => said.includes(word));
}

/** How a list is set: with a long label the numbers stand below it. */
export const listClass = (labels: readonly string[]): string =>
  labels.some((label) => label.length > LONG_LABEL) ? 'point-list long' : 'point-list';
