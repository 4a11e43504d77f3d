/** Path data with coordinates rounded to 0.01 pt, which keeps files small and the same in every engine. */

/** Rounded to 0.01, never −0. */
export function r2(x: number): number {
  const v = Math.round(x * 100) / 100;
  return v === 0 ? 0 : v;
}

export const move = (x: number, y: number): string => `M${r2(x)} ${r2(y)}`;
export const line = (x: number, y: number): string => `L${r2(x)} ${r2(y)}`;
export const horizontal = (x1: number, x2: number, y: number): string => `M${r2(x1)} ${r2(y)}H${r2(x2)}`;
export const vertical = (x: number, y1: number, y2: number): string => `M${r2(x)} ${r2(y1)}V${r2(y2)}`;
export const box = (x1: number, y1: number, x2: number, y2: number): string =>
  `M${r2(x1)} ${r2(y1)}H${r2(x2)}V${r2(y2)}H${r2(x1)}Z`;
/** A box with its diagonals: what did not come up, or did not enter. */
export const crossed = (x1: number, y1: number, x2: number, y2: number): string =>
  `${box(x1, y1, x2, y2)}${move(x1, y1)}${line(x2, y2)}${move(x1, y2)}${line(x2, y1)}`;
/** A dot, drawn with a round cap. */
export const dot = (x: number, y: number): string => `M${r2(x)} ${r2(y)}h.01`;

export function polyline(points: readonly (readonly [number, number])[]): string {
  let d = '';
  for (const [i, [x, y]] of points.entries()) d += i === 0 ? move(x, y) : line(x, y);
  return d;
}

export const polygon = (points: readonly (readonly [number, number])[]): string => `${polyline(points)}Z`;

/** A horizontal wave of whole half-waves from x1 to x2, the first half up. */
export function wave(x1: number, x2: number, y: number, half: number, height: number): string {
  const n = Math.max(2, Math.round((x2 - x1) / half));
  const step = (x2 - x1) / n;
  let d = move(x1, y);
  for (let i = 0; i < n; i++) {
    const up = i % 2 === 0 ? -height : height;
    d += `q${r2(step / 2)} ${r2(up * 2)} ${r2(step)} 0`;
  }
  return d;
}
