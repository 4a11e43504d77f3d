/** Accepted points older or younger than the ages drawn: an arrow at the edge, with the point's name and age. */
import type { PointResult } from '@stillstand/campaign/results';
import { EDGE_ARROW, EdgeArrow, overlaps, type Rect, Text, textWidth } from '@stillstand/output/drawing';
import { DATES_ROOM, type Panels } from './panels.ts';

export interface FarPoint {
  point: PointResult;
  /** Whether it lies beyond the left edge: older than the axis, where time runs to the right. */
  isLeft: boolean;
  /** Name and age; where that has no room only the name is written, or nothing next to the arrow. */
  words: string;
  written: string;
  at: Rect;
}

/** More of them stand at no edge: ages that were asked for leave many out, which are counted. */
const MOST = 4;
const HEIGHT = 8;

/** Those of `outside` that lie beyond an end of the ages, placed as near their level as is free. */
export function farPoints(p: Panels, taken: readonly Rect[]): FarPoint[] {
  const { x1, x2, y1, y2 } = p.levelFrame;
  const across = ({ age }: PointResult): number => p.time(age.median_cal_bp);
  const beyond = p.outside.filter(
    (point) => point.status === 'accepted' && (across(point) < x1 || across(point) > x2),
  );
  if (beyond.length > MOST) return [];
  const [top, foot] = [y1 + 3, y2 - DATES_ROOM - HEIGHT - 3];
  const used = [...taken];
  return beyond.flatMap((point) => {
    const isLeft = across(point) < x1;
    const words = `${point.point}, ${p.timeAxis.written(point.age.median_cal_bp)}`;
    const wanted = Math.min(foot, Math.max(top, p.level(point.rsl_m) - HEIGHT / 2));
    const heights = Array.from(
      { length: 60 },
      (_, i) => wanted + (i % 2 === 0 ? -1 : 1) * Math.ceil(i / 2) * 5,
    );
    const place = [words, point.point, '']
      .flatMap((written) => {
        const width = EDGE_ARROW + (written === '' ? 0 : 4 + textWidth(written));
        const left = isLeft ? x1 + 2 : x2 - 2 - width;
        return heights
          .filter((y) => y >= top && y <= foot)
          .map((y) => ({ written, at: { x1: left, x2: left + width, y1: y, y2: y + HEIGHT } }));
      })
      .find(({ at }) => !used.some((other) => overlaps(at, other)));
    if (place === undefined) return [];
    used.push(place.at);
    return [{ point, isLeft, words, ...place }];
  });
}

export function FarPoints({ points }: { points: readonly FarPoint[] }) {
  return (
    <g>
      {points.map(({ point, isLeft, written, at }) => {
        const [edge, way] = isLeft ? [at.x1, 1] : [at.x2, -1];
        const y = (at.y1 + at.y2) / 2;
        return (
          <g key={point.row_id}>
            <EdgeArrow x={edge} y={y} isLeft={isLeft} />
            <Text x={edge + way * (EDGE_ARROW + 3)} y={y + 2.4} anchor={isLeft ? 'start' : 'end'} halo>
              {written}
            </Text>
          </g>
        );
      })}
    </g>
  );
}
