import {
  Contact,
  crossed,
  DOTTED,
  horizontal,
  LINE,
  Pattern,
  type Scale,
  useInk,
  vertical,
} from '@stillstand/output/drawing';
import { type Column, grainWidth } from './lanes.ts';

/** The column itself. */
export function Ground({ column, depth, id }: { column: Column; depth: Scale; id: string }) {
  const ink = useInk();
  const x = column.lane.column;
  const at = column.units.map(({ unit, sediment }) => ({
    unit,
    sediment,
    width: grainWidth(column.lane, sediment.grain),
    top: depth(unit.depth_top_m.value),
    bottom: depth(unit.depth_bottom_m.value),
  }));
  const bars = at
    .map(({ unit }) => unit.depth_bottom_m)
    .filter((e) => (e.upper95 - e.lower95) * depth.k > 1.2)
    .map((e) => vertical(x - 3, depth(e.lower95), Math.min(depth(e.upper95), depth(column.bottom_m) + 3)))
    .join('');
  // Nothing described: the hole itself, as far down as it went.
  const bare =
    column.units.length > 0
      ? ''
      : [8, 16].map((dx) => vertical(x + dx, depth(0), depth(column.bottom_m))).join('');
  return (
    <g>
      <path d={bare} stroke={ink.ink2} strokeWidth={LINE.edge} {...DOTTED} fill="none" />
      {at.map((u, i) => (
        <Pattern
          key={u.unit.row_id}
          sediment={u.sediment}
          at={{ x1: x, y1: u.top, x2: x + u.width, y2: u.bottom }}
          id={`${id}-unit-${i + 1}`}
          seed={i}
        />
      ))}
      <path
        d={at.map((u) => `${vertical(x, u.top, u.bottom)}${vertical(x + u.width, u.top, u.bottom)}`).join('')}
        stroke={ink.ink}
        strokeWidth={LINE.edge}
        fill="none"
      />
      {column.hole.not_represented.map((gap) => {
        const y1 = depth(gap.top_m);
        const y2 = depth(gap.bottom_m);
        const x2 = x + column.lane.clayWidth;
        return (
          <path
            key={gap.top_m}
            d={crossed(x, y1, x2, y2)}
            fill={ink.paper}
            stroke={ink.ink}
            strokeWidth={0.55}
          />
        );
      })}
      {at.map((u, i) => {
        const below = at[i + 1];
        const joined = below !== undefined && below.top - u.bottom < 1;
        const reach = Math.max(u.width, joined ? below.width : 0);
        return <Contact key={u.unit.row_id} kind={u.unit.contact_below} x1={x} x2={x + reach} y={u.bottom} />;
      })}
      <path d={bars} stroke={ink.ink} strokeWidth={0.8} fill="none" />
      <path
        d={horizontal(column.lane.depthStaff - 1, x + column.lane.gravelWidth + 3, depth(0))}
        stroke={ink.ink}
        strokeWidth={1.7}
        fill="none"
      />
    </g>
  );
}
