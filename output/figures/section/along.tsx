/** What lies along a section: the distance staff with the place of each hole, and whether the drawing is to its scale. */
import {
  LINE,
  LyingStaff,
  polyline,
  type Scale,
  staffStep,
  Text,
  useInk,
  vertical,
} from '@stillstand/output/drawing';
import { printed } from '@stillstand/output/words';
import { AXIS, type SectionLayout } from './layout.ts';

/** Between the drawing and the staff, points: more where leads have far to go across. */
export function roomOfLeads({ stands, distance }: SectionLayout): number {
  if (distance === null) return 0;
  const far = Math.max(0, ...stands.map((s) => Math.abs(s.x + s.width * AXIS - s.at!)));
  return 30 + Math.min(30, far / 6);
}

/** The exaggeration where every hole is drawn at its place; else that none can be stated. */
export function scaleAlong({ distance, toScale, stands }: SectionLayout, y: Scale): string {
  if (stands.length < 2) return '';
  if (distance === null || !toScale) return 'not to scale along the line';
  const exaggeration = Math.abs(y.k / distance.k);
  return `vertical exaggeration ${printed(exaggeration, exaggeration < 10 ? 1 : 0)}`;
}

/** The distance staff, and lines from the holes to where they are on it. */
export function Distance({
  layout,
  distance,
  y,
  bottom,
}: {
  layout: SectionLayout;
  distance: Scale;
  y: number;
  bottom: number;
}) {
  const ink = useInk();
  const step = staffStep(distance.k, 14, 26);
  return (
    <g>
      <path
        d={layout.stands
          .map((s) => {
            const x = s.x + s.width * AXIS;
            return polyline([
              [x, bottom + 11],
              [x, bottom + 15],
              [s.at!, y - 4],
              [s.at!, y],
            ]);
          })
          .join('')}
        stroke={ink.line}
        strokeWidth={LINE.fine}
        fill="none"
      />
      <path
        d={layout.stands.map((s) => vertical(s.at!, y - 2, y)).join('')}
        stroke={ink.ink}
        strokeWidth={LINE.bold}
        fill="none"
      />
      <g id="section-distance">
        <LyingStaff y={y} scale={distance} low={distance.from} high={distance.to} labels="below" {...step} />
      </g>
      <Text x={0} y={y + 3.6} voice="ink2">
        metres
      </Text>
      <Text x={0} y={y + 12} voice="ink2">
        along
      </Text>
    </g>
  );
}
