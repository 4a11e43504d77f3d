/** One hole of a section: its column at elevation, or calmly what is known of a lost one. */

import { isGivenUp } from '@stillstand/campaign/holes';
import {
  box,
  Contact,
  DOTTED,
  LINE,
  line,
  move,
  Pattern,
  type Scale,
  sedimentOfUnit,
  Text,
  textWidth,
  useInk,
  vertical,
} from '@stillstand/output/drawing';
import { printed } from '@stillstand/output/words';
import { AXIS, type Stand } from './layout.ts';

/** Width of a unit by its grain size, from 0.55 of the column's for clay. */
export const unitWidth = (grain: number, width: number): number => width * (0.55 + (0.45 * grain) / 5);

interface ColumnProps {
  stand: Stand;
  y: Scale;
  /** Its place in the section, for ids and patterns. */
  number: number;
  /** Where the next hole begins, or the drawing ends. */
  limit: number;
}

export function SectionLog({ stand, y, number, limit }: ColumnProps) {
  const ink = useInk();
  const { hole, x, width } = stand;
  const units = hole.units
    .map((unit) => {
      const sediment = sedimentOfUnit(unit);
      return {
        unit,
        sediment,
        width: unitWidth(sediment.grain, width),
        top: y(stand.ground_m - unit.depth_top_m.value),
        bottom: y(stand.ground_m - unit.depth_bottom_m.value),
      };
    })
    .sort((a, b) => a.top - b.top);
  const foot = y(stand.bottom_m);
  const stringX = x + width * AXIS;
  const lost = isGivenUp(hole.state);
  const fate = `${hole.state} at ${printed(stand.ground_m - stand.bottom_m, 2)} m`;
  const fateX = units.length > 0 ? x : stringX - 3;
  // The caption says it in any case.
  const isWritten = lost && stand.labels.length === 0 && fateX + textWidth(fate) + 2 < limit;
  return (
    <g id={`section-hole-${number}`}>
      {units.map((u, i) => (
        <Pattern
          key={u.unit.row_id}
          sediment={u.sediment}
          at={{ x1: x, y1: u.top, x2: x + u.width, y2: u.bottom }}
          id={`section-${number}-${i + 1}`}
          seed={number * 50 + i}
        />
      ))}
      <path
        d={units.map((u) => vertical(x, u.top, u.bottom) + vertical(x + u.width, u.top, u.bottom)).join('')}
        stroke={ink.ink}
        strokeWidth={LINE.edge}
        fill="none"
      />
      {hole.not_represented.map((gap) => {
        const y1 = y(stand.ground_m - gap.top_m);
        const y2 = y(stand.ground_m - gap.bottom_m);
        const x2 = x + width * 0.55;
        return (
          <path
            key={gap.top_m}
            d={`${box(x, y1, x2, y2)}${move(x, y1)}${line(x2, y2)}${move(x, y2)}${line(x2, y1)}`}
            fill={ink.paper}
            stroke={ink.ink}
            strokeWidth={0.5}
          />
        );
      })}
      {units.map((u, i) => {
        const below = units[i + 1];
        const reach = Math.max(u.width, below !== undefined && below.top - u.bottom < 0.5 ? below.width : 0);
        return <Contact key={u.unit.row_id} kind={u.unit.contact_below} x1={x} x2={x + reach} y={u.bottom} />;
      })}
      {units.length > 0 ? null : (
        <g fill="none" stroke={ink.ink2}>
          <path
            d={
              vertical(stringX - 2, y(stand.ground_m), foot) + vertical(stringX + 2, y(stand.ground_m), foot)
            }
            strokeWidth={LINE.edge}
            {...DOTTED}
          />
          {lost ? <path d={`${move(stringX - 3, foot - 3)}l6 6m0 -6l-6 6`} strokeWidth={LINE.edge} /> : null}
        </g>
      )}
      {isWritten ? (
        <Text x={fateX} y={foot + 9} voice="ink2" halo>
          {fate}
        </Text>
      ) : null}
    </g>
  );
}
