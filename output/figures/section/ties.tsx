/** Contacts correlated between two holes of a section: a line from the base of a unit to that of another. */
import type { CorrelationResult } from '@stillstand/campaign/results';
import { LINE, polyline, type Scale, sedimentOfUnit, useInk } from '@stillstand/output/drawing';
import { unitWidth } from './hung-column.tsx';
import type { Stand } from './layout.ts';

/** How a line is broken by how certain the correlation is; one that is not said is drawn as probable. */
export const tieDashes = (confidence: string | null): string | undefined =>
  confidence === 'certain' ? undefined : confidence === 'possible' ? '0.01 2.2' : '4 2.4';

type Ends = Pick<CorrelationResult, 'hole_a' | 'unit_a_row_id' | 'hole_b' | 'unit_b_row_id'>;

/** From the edge of the left column to the next one, points; null where one of the two is not drawn. */
export function tieLine(
  { hole_a, unit_a_row_id, hole_b, unit_b_row_id }: Ends,
  stands: readonly Stand[],
  y: Scale,
): [number, number][] | null {
  const a = baseAt(stands, hole_a, unit_a_row_id, y);
  const b = baseAt(stands, hole_b, unit_b_row_id, y);
  if (a === null || b === null) return null;
  const [left, right] = a.x <= b.x ? [a, b] : [b, a];
  return [
    [left.edge, left.y],
    [right.x, right.y],
  ];
}

function baseAt(stands: readonly Stand[], label: string, row_id: string, y: Scale) {
  const stand = stands.find((s) => s.hole.hole === label);
  const unit = stand?.hole.units.find((u) => u.row_id === row_id);
  if (stand === undefined || unit === undefined) return null;
  return {
    x: stand.x,
    edge: stand.x + unitWidth(sedimentOfUnit(unit).grain, stand.width),
    y: y(stand.ground_m - unit.depth_bottom_m.value),
  };
}

export function Ties({
  ties,
  stands,
  y,
}: {
  ties: readonly CorrelationResult[];
  stands: readonly Stand[];
  y: Scale;
}) {
  const ink = useInk();
  if (ties.length === 0) return null;
  return (
    <g id="section-ties" fill="none" stroke={ink.ink2} strokeWidth={LINE.edge} strokeLinecap="round">
      {ties.map((tie) => {
        const line = tieLine(tie, stands, y);
        return line === null ? null : (
          <path key={tie.row_id} d={polyline(line)} strokeDasharray={tieDashes(tie.confidence)} />
        );
      })}
    </g>
  );
}
