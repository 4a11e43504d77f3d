/** Accepted points older or younger than the ages drawn: an arrow at the edge, with the point's name and age. */
import type { PointResult } from '@stillstand/campaign/results';
import { EDGE_ARROW, EdgeArrow, overlaps, type Rect, Text, textWidth } from '@stillstand/output/drawing';
import { years } from '@stillstand/output/words';
import { DATES_ROOM, type Panels } from './panels.ts';

export interface FarPoint {
  point: PointResult;
  /** Whether it is older than the axis, and so at its left. */
  older: boolean;
  words: string;
  at: Rect;
}

/** More of them stand at no edge: ages that were asked for leave many out, which are counted. */
const MOST = 4;
const HEIGHT = 8;

const isOlder = (point: PointResult, p: Panels): boolean => point.age.median_cal_bp > p.time.from;

/** Those of `outside` that lie beyond an end of the ages, placed as near their level as is free. */
export function farPoints(p: Panels, taken: readonly Rect[]): FarPoint[] {
  const beyond = p.outside.filter(
    (point) =>
      point.status === 'accepted' &&
      (point.age.median_cal_bp > p.time.from || point.age.median_cal_bp < p.time.to),
  );
  if (beyond.length > MOST) return [];
  const { x1, x2, y1, y2 } = p.levelFrame;
  const [top, foot] = [y1 + 3, y2 - DATES_ROOM - HEIGHT - 3];
  const used = [...taken];
  return beyond.flatMap((point) => {
    const older = isOlder(point, p);
    const words = `${point.point}, ${years(point.age.median_cal_bp)}`;
    const width = EDGE_ARROW + 4 + textWidth(words);
    const wanted = Math.min(foot, Math.max(top, p.level(point.rsl_m) - HEIGHT / 2));
    const heights = Array.from(
      { length: 60 },
      (_, i) => wanted + (i % 2 === 0 ? -1 : 1) * Math.ceil(i / 2) * 5,
    );
    const at = heights
      .filter((y) => y >= top && y <= foot)
      .map((y): Rect => {
        const left = older ? x1 + 2 : x2 - 2 - width;
        return { x1: left, x2: left + width, y1: y, y2: y + HEIGHT };
      })
      .find((rect) => !used.some((other) => overlaps(rect, other)));
    if (at === undefined) return [];
    used.push(at);
    return [{ point, older, words, at }];
  });
}

export function FarPoints({ points }: { points: readonly FarPoint[] }) {
  return (
    <g>
      {points.map(({ point, older, words, at }) => {
        const [edge, way] = older ? [at.x1, 1] : [at.x2, -1];
        const y = (at.y1 + at.y2) / 2;
        return (
          <g key={point.row_id}>
            <EdgeArrow x={edge} y={y} isLeft={older} />
            <Text x={edge + way * (EDGE_ARROW + 3)} y={y + 2.4} anchor={older ? 'start' : 'end'} halo>
              {words}
            </Text>
          </g>
        );
      })}
    </g>
  );
}
