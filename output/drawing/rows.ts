/** One thing after another in rows, as the entries of a legend are. */

/** Places of things that need so much room each, in rows no wider than `width`; `gap` lies between two in a row, points. */
export function inRows<T>(
  items: readonly T[],
  width: number,
  gap: number,
  roomOf: (item: T) => number,
): { item: T; x: number; row: number }[] {
  let x = 0;
  let row = 0;
  return items.map((item) => {
    const room = roomOf(item);
    if (x > 0 && x + room > width) {
      x = 0;
      row += 1;
    }
    const placed = { item, x, row };
    x += room + gap;
    return placed;
  });
}
