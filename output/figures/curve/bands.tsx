/** A quantity through time with its 68 and 95 %: dotted edge, fine edge, bold median, so that they survive a copier. */

import { DOTTED, Hatching, LINE, polyline, type Rect, type Scale, useInk } from '@stillstand/output/drawing';
import type { Band } from '@stillstand/science/base';
import { memo } from 'react';

/** Points of paper between vertices of a line. */
const FINENESS = 0.8;
/** About as wide as a box that stands for a piece of the band, points. */
const BOX = 4;

export interface Ages {
  ages_cal_bp: Float64Array;
  order: readonly number[];
  time: Scale;
}

function trace(ages: Ages, values: ArrayLike<number>, y: Scale): [number, number][] {
  const line: [number, number][] = [];
  let last = Number.NaN;
  for (const [n, i] of ages.order.entries()) {
    const x = ages.time(ages.ages_cal_bp[i]!);
    if (n > 0 && n < ages.order.length - 1 && Math.abs(x - last) < FINENESS) continue;
    last = x;
    line.push([x, y(values[i]!)]);
  }
  return line;
}

interface BandsProps {
  band: Band;
  ages: Ages;
  y: Scale;
  frame: Rect;
  /** Draws, row-major [draw][age]; a few are drawn as fine lines. */
  draws: Float64Array;
  converged: boolean;
  id: string;
}

const FEW = 6;

/** Drawn again only when what it draws is another. */
export const Bands = memo(function Bands({ band, ages, y, frame, draws, converged, id }: BandsProps) {
  const ink = useInk();
  const line = (values: ArrayLike<number>) => trace(ages, values, y);
  const area = (lower: ArrayLike<number>, upper: ArrayLike<number>): string =>
    `${polyline([...line(upper), ...line(lower).reverse()])}Z`;
  const wide = area(band.lower95, band.upper95);
  const count = ages.ages_cal_bp.length;
  const rows = count === 0 ? 0 : Math.floor(draws.length / count);
  const few = Array.from({ length: Math.min(FEW, rows) }, (_, i) =>
    Math.floor(((i + 0.5) * rows) / Math.min(FEW, rows)),
  );
  return (
    <g>
      <path d={wide} fill={converged ? ink.seaWash : ink.paper} />
      <path d={area(band.lower68, band.upper68)} fill={converged ? ink.seaWash2 : ink.paper} />
      {converged ? null : <Hatching id={id} d={wide} {...frame} />}
      <g fill="none" stroke={ink.sea} strokeLinejoin="round">
        <path
          d={polyline(line(band.lower95)) + polyline(line(band.upper95))}
          strokeWidth={LINE.edge}
          {...DOTTED}
        />
        <path d={polyline(line(band.lower68)) + polyline(line(band.upper68))} strokeWidth={LINE.fine} />
        <path
          d={few.map((row) => polyline(line(draws.subarray(row * count, (row + 1) * count)))).join('')}
          strokeWidth={LINE.hair}
        />
        <path d={polyline(line(band.median))} strokeWidth={1.2} />
      </g>
    </g>
  );
});

/** The band as a row of small boxes, at most `reach` points of paper from its median, for what must keep clear of it. */
export function bandRects(band: Band, ages: Ages, y: Scale, reach = Number.POSITIVE_INFINITY): Rect[] {
  const upper = trace(ages, band.upper95, y);
  const lower = trace(ages, band.lower95, y);
  const at = trace(ages, band.median, y).map(([x, middle], i) => ({
    x,
    y1: Math.max(upper[i]![1], middle - reach),
    y2: Math.min(lower[i]![1], middle + reach),
  }));
  // Every age is in one: with few of them, as between limits of the axis, none is passed over.
  const apart = at.length < 2 ? 0 : Math.abs(at.at(-1)!.x - at[0]!.x) / (at.length - 1);
  const several = Math.max(1, Math.floor(BOX / Math.max(apart, FINENESS)));
  return at.slice(1).flatMap(({ x }, i) => {
    if (i % several !== 0) return [];
    const own = at.slice(i, i + several + 1);
    const end = own.at(-1)?.x ?? x;
    return [
      {
        x1: Math.min(at[i]!.x, end),
        x2: Math.max(at[i]!.x, end),
        y1: Math.min(...own.map(({ y1 }) => y1)),
        y2: Math.max(...own.map(({ y2 }) => y2)),
      },
    ];
  });
}
