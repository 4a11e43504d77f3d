/** Names beside the points of the curve, where there is room for them. */
import type { PointResult } from '@stillstand/campaign/results';
import {
  CautionMark,
  LINE,
  placeBeside,
  polyline,
  type Rect,
  SIZE,
  Text,
  textWidth,
  useInk,
} from '@stillstand/output/drawing';
import { decimalsDrawn, printed, signed } from '@stillstand/output/words';
import { square } from '@stillstand/science/base';
import { disagreeing } from '@stillstand/science/curve';
import { memo } from 'react';
import { markRect } from './layout.ts';
import { MARK_ROOM } from './panel.tsx';
import { DATES_ROOM, type Panels } from './panels.ts';

/** From the nearest edge of a label to the nearest edge of its mark. */
function leader(label: Rect, mark: Rect): [[number, number], [number, number]] {
  const near = (low: number, high: number, otherLow: number, otherHigh: number): [number, number] =>
    low > otherHigh
      ? [low, otherHigh]
      : high < otherLow
        ? [high, otherLow]
        : [(Math.max(low, otherLow) + Math.min(high, otherHigh)) / 2, (otherLow + otherHigh) / 2];
  const [x1, x2] = near(label.x1, label.x2, mark.x1 + 1, mark.x2 - 1);
  const [y1, y2] = near(label.y1, label.y2, mark.y1 + 1, mark.y2 - 1);
  return [
    [x1, y1],
    [x2, y2],
  ];
}

const sameRect = (a: Rect, b: Rect): boolean =>
  a.x1 === b.x1 && a.x2 === b.x2 && a.y1 === b.y1 && a.y2 === b.y2;

function runsOver([[x1, y1], [x2, y2]]: ReturnType<typeof leader>, rect: Rect): boolean {
  // Every half point along it.
  const steps = Math.ceil(Math.sqrt(square(x2 - x1) + square(y2 - y1)) * 2);
  return Array.from({ length: steps }, (_, i) => i / steps).some((t) => {
    const x = x1 + t * (x2 - x1);
    const y = y1 + t * (y2 - y1);
    return x > rect.x1 && x < rect.x2 && y > rect.y1 && y < rect.y2;
  });
}

/** What is written at a point: its name; its height too where it is set off. */
function labelOf(point: PointResult, telling: string | null): { name: string; height: string } {
  if (point.point !== telling) return { name: point.point, height: '' };
  const decimals = decimalsDrawn(2 * point.rsl_sigma_m);
  return {
    name: point.point,
    height: ` ${signed(point.rsl_m, decimals)} ±${printed(2 * point.rsl_sigma_m, decimals)} m`,
  };
}

/** Names of points where there is room: the one set off first, then those that disagree, marked, then by influence. */
export const PointLabels = memo(function PointLabels({
  panels: p,
  taken,
  written,
  telling,
  named,
}: {
  panels: Panels;
  taken: readonly Rect[];
  /** Of that, what is words. */
  written: readonly Rect[];
  telling: string | null;
  named: ReadonlySet<string> | null;
}) {
  const ink = useInk();
  const influence = new Map(p.curve?.points.map((point) => [point.id, point.influence]) ?? []);
  const odd = new Set(p.curve === null ? [] : disagreeing(p.curve).map(({ id }) => id));
  const rank = (point: PointResult): number => {
    if (point.point === telling) return Infinity;
    return odd.has(point.point) ? Number.MAX_VALUE : (influence.get(point.point) ?? 0);
  };
  const frame = p.levelFrame;
  const bounds = { x1: frame.x1 + 2, y1: frame.y1 + 2, x2: frame.x2 - 2, y2: frame.y2 - DATES_ROOM + 4 };
  const used: Rect[] = [...taken];
  const names: Rect[] = [];
  const labels = p.points
    .filter(
      ({ point }) =>
        named === null || named.has(point.point) || odd.has(point.point) || point.point === telling,
    )
    .sort((a, b) => rank(b.point) - rank(a.point) || b.point.rsl_m - a.point.rsl_m)
    .flatMap((each) => {
      const { point } = each;
      const isTold = point.point === telling;
      const isOdd = odd.has(point.point);
      const { name, height } = labelOf(point, telling);
      const style = { size: SIZE.text, weight: isTold || isOdd ? 600 : 400 } as const;
      const size = { width: textWidth(name + height, style) + 1 + (isOdd ? MARK_ROOM : 0), height: 7.4 };
      const mark = markRect(each);
      // The one set off and one that disagrees stand over marks sooner than nowhere, but over nothing written.
      const place =
        placeBeside(mark, size, bounds, used) ??
        (isOdd ? placeBeside(mark, size, bounds, [mark, ...written, ...names]) : null) ??
        (isTold ? placeBeside(mark, size, bounds, [mark]) : null);
      if (place === null) return [];
      const lead = place.far ? leader(place, mark) : null;
      // No name rather than one whose leader runs over another mark, a name or the curve.
      if (
        !isTold &&
        !isOdd &&
        lead !== null &&
        used.some((rect) => !sameRect(rect, mark) && runsOver(lead, rect))
      )
        return [];
      used.push(place);
      names.push(place);
      return [{ point, place, lead, name, height, isTold, isOdd, style }];
    });
  return (
    <g>
      {labels.map(({ point, place, lead, name, height, isTold, isOdd, style }) => (
        <g key={point.row_id}>
          {lead === null ? null : (
            <path d={polyline(lead)} stroke={ink.ink2} strokeWidth={LINE.fine} fill="none" />
          )}
          {isOdd ? <CautionMark x={place.x1 + 4} y={place.y2 - 1.2} /> : null}
          <Text
            x={place.x1 + 0.5 + (isOdd ? MARK_ROOM : 0)}
            y={place.y2 - 1.4}
            {...style}
            halo
            struck={point.status === 'rejected' && !isTold}
            voice={isOdd ? 'caution' : isTold ? 'ink' : 'ink2'}
          >
            {name}
            {height}
          </Text>
        </g>
      ))}
    </g>
  );
});
