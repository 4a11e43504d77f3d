/** One hole of a section: its column at elevation, or calmly what is known of a lost one, and its ages beside it. */

import { isGivenUp } from '@stillstand/campaign/holes';
import {
  box,
  Contact,
  DOTTED,
  isMarine,
  LINE,
  Lozenge,
  line,
  move,
  Pattern,
  placeAlong,
  polyline,
  type Scale,
  sedimentOfUnit,
  shortened,
  Text,
  textWidth,
  useInk,
  vertical,
} from '@stillstand/output/drawing';
import { printed, years } from '@stillstand/output/words';
import { AXIS, type Stand } from './layout.ts';

/** Width of a unit by its grain size, from 0.55 of the column's for clay. */
export const unitWidth = (grain: number, width: number): number => width * (0.55 + (0.45 * grain) / 5);

interface ColumnProps {
  stand: Stand;
  y: Scale;
  /** Its place in the section, for ids and patterns. */
  number: number;
  /** Right edge of the drawing. */
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
  return (
    <g>
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
      <Ages stand={stand} y={y} />
      {lost ? (
        <Text
          x={Math.min(units.length > 0 ? x : stringX - 3, limit - textWidth(fate))}
          y={foot + 9}
          voice="ink2"
          halo
        >
          {fate}
        </Text>
      ) : null}
    </g>
  );
}

function Ages({ stand, y }: { stand: Stand; y: Scale }) {
  const ink = useInk();
  const { dates, hole, x, width } = stand;
  const places = placeAlong(
    dates.map((d) => ({ at: y(d.elevation_m), size: 7.4 })),
    y(stand.ground_m) + 1,
    y(stand.bottom_m) + 30,
  );
  /** Edge of the column where a depth lies; of the widest unit a label beside it may touch. */
  const edge = (elevations: readonly number[]): number => {
    const widths = hole.units
      .filter((u) =>
        elevations.some(
          (e) => stand.ground_m - e >= u.depth_top_m.value && stand.ground_m - e <= u.depth_bottom_m.value,
        ),
      )
      .map((u) => unitWidth(sedimentOfUnit(u).grain, width));
    return x + Math.max(width * 0.55, ...widths);
  };
  const reach = 3.5 / Math.abs(y.k);
  const labels = dates.map(({ date, elevation_m }, i) => {
    const centre = stand.ground_m - (places[i]! - y(stand.ground_m)) / Math.abs(y.k);
    const around = [elevation_m, centre]
      .flatMap((e) => [e, e - reach, e + reach])
      .map((e) => Math.min(e, stand.ground_m));
    const at = edge(around);
    return { date, at, y: y(elevation_m), label: places[i]! };
  });
  /** Right of every lozenge a label would touch. */
  const clear = (label: number): number =>
    Math.max(...labels.filter((other) => Math.abs(other.y - label) < 6.4).map((other) => other.at), x);
  return (
    <g>
      {labels.map(({ date, at, y: mark, label }) => {
        const labelX = Math.max(at, clear(label)) + 8.6;
        const rejected = date.status === 'rejected';
        return (
          <g key={date.row_id}>
            <Lozenge x={at + 3.4} y={mark} filled={!rejected} size={1.9} />
            {Math.abs(label - mark) > 1 ? (
              <path
                d={polyline([
                  [at + 5.8, mark],
                  [labelX - 0.6, label],
                ])}
                stroke={ink.line}
                strokeWidth={LINE.hair}
                fill="none"
              />
            ) : null}
            <Text
              x={labelX}
              y={label + 2.1}
              voice={rejected ? 'ink2' : isMarine(date) ? 'sea' : 'ink'}
              face={ink.grey && isMarine(date) ? 'water' : 'text'}
              struck={rejected}
              halo
            >
              {years(date.median_cal_bp)}
            </Text>
          </g>
        );
      })}
    </g>
  );
}

interface HeadProps {
  stand: Stand;
  y: number;
  /** Up to the next hole, points. */
  room: number;
  replacedBy: string | null;
}

/** Name over the hole, and how it stands where it is not simply finished. */
export function HoleHead({ stand, y, room, replacedBy }: HeadProps) {
  const { hole, x } = stand;
  const words =
    replacedBy !== null
      ? `${hole.state ?? 'left'}, see ${replacedBy}`
      : hole.replaces !== null
        ? `replaces ${hole.replaces}`
        : '';
  return (
    <g>
      <Text x={x} y={y} weight={600} halo>
        {shortened(hole.hole, room, { weight: 600 })}
      </Text>
      {words === '' ? null : (
        <Text x={x} y={y - 8} voice="ink2" halo>
          {shortened(words, room)}
        </Text>
      )}
    </g>
  );
}
