/** Ties between the bases of units of two holes, as they were drawn by hand or found by correlation. */
import { LINE, polyline, type Scale, sedimentOfUnit, useInk } from '@stillstand/output/drawing';
import { unitWidth } from './hung-column.tsx';
import type { Stand } from './layout.ts';

/** A tie between the bases of two units, as drawn by hand or found by correlation. */
export interface SectionTie {
  hole_a: string;
  /** Unit of that hole whose base is tied. */
  unit_a: string;
  hole_b: string;
  unit_b: string;
  confidence: 'certain' | 'probable' | 'possible' | null;
}

const DASHES = { certain: undefined, probable: '4 2.4', possible: '0.01 2.2' } as const;

export function Ties({
  ties,
  stands,
  y,
}: {
  ties: readonly SectionTie[];
  stands: readonly Stand[];
  y: Scale;
}) {
  const ink = useInk();
  const base = (label: string, contact: string) => {
    const stand = stands.find((s) => s.hole.hole === label);
    const unit = stand?.hole.units.find((u) => u.unit === contact);
    if (stand === undefined || unit === undefined) return null;
    return {
      stand,
      y: y(stand.ground_m - unit.depth_bottom_m.value),
      width: unitWidth(sedimentOfUnit(unit).grain, stand.width),
    };
  };
  return (
    <g fill="none" stroke={ink.ink2} strokeWidth={LINE.edge} strokeLinecap="round">
      {ties.map((tie) => {
        const a = base(tie.hole_a, tie.unit_a);
        const b = base(tie.hole_b, tie.unit_b);
        if (a === null || b === null) return null;
        const [l, r] = a.stand.x <= b.stand.x ? [a, b] : [b, a];
        return (
          <path
            key={`${tie.hole_a} ${tie.unit_a} ${tie.hole_b} ${tie.unit_b}`}
            d={polyline([
              [l.stand.x + l.width, l.y],
              [r.stand.x, r.y],
            ])}
            strokeDasharray={DASHES[tie.confidence ?? 'probable']}
          />
        );
      })}
    </g>
  );
}
