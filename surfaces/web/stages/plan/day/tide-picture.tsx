/** The tide through one day, drawn on two staffs: height upright, hours flat; ground, way, and when it is open. */

import { clockAt, type DayTide, type Way } from '../../../days/index.ts';
import { Staff, signed, useWidth } from '../../../parts/index.ts';
import { OpenStrip, STRIP } from './open-strip.tsx';
import './tide-picture.css';

const HEIGHT = 340;
const LEFT = 52;
const RIGHT = 12;
const TOP = 54;
const BOTTOM = HEIGHT - 36;
const STEP_MS = 10 * 60_000;

export function TidePicture({
  tide,
  grounds,
  way,
  datum,
  offset_min,
  leave_by_ms,
}: {
  tide: DayTide;
  grounds: readonly { hole: string; elevation_m: number }[];
  way: Way | null;
  datum: string;
  offset_min: number;
  leave_by_ms: number | null;
}) {
  const [frame, width] = useWidth(640);
  const path = heights(tide);
  const known = path.filter(({ height_m }) => Number.isFinite(height_m));
  const band_m = tide.source === 'constants' ? 2 * tide.sd_m : 0;
  const levels = [
    ...known.flatMap(({ height_m }) => [height_m - band_m, height_m + band_m]),
    ...(way === null ? [] : [way.level_m]),
  ];
  // Room above and below for the waters' words.
  const room_m = 0.17 * (Math.max(...levels) - Math.min(...levels));
  const low = Math.floor(2 * (Math.min(...levels) - room_m)) / 2;
  const high = Math.ceil(2 * (Math.max(...levels) + room_m)) / 2;
  const x = (time_ms: number): number =>
    LEFT + ((time_ms - tide.from_ms) / (tide.to_ms - tide.from_ms)) * (width - LEFT - RIGHT);
  const y = (m: number): number => BOTTOM - ((m - low) / (high - low)) * (BOTTOM - TOP);
  const inDay = (time_ms: number): number => Math.max(tide.from_ms, Math.min(tide.to_ms, time_ms));
  const line = (at: (h: number) => number): string =>
    known
      .map(({ time_ms, height_m }, i) => `${i === 0 ? 'M' : 'L'}${f(x(time_ms))} ${f(y(at(height_m)))}`)
      .join('');
  const first = known[0]?.time_ms ?? tide.from_ms;
  const last = known.at(-1)?.time_ms ?? tide.to_ms;
  const open = tide.spans.map((span) => ({
    a: inDay(span.from_ms ?? first),
    b: inDay(span.to_ms ?? last),
  }));
  const isBoat = way?.kind === 'boat';
  const pegs = apart(
    grounds
      .filter(({ elevation_m }) => elevation_m > low && elevation_m < high)
      .map(({ hole, elevation_m }) => ({ hole, y: y(elevation_m) })),
  );
  const hours = width < 520 ? 6 : 3;

  return (
    <figure ref={frame} className="tide-picture">
      <svg viewBox={`0 0 ${width} ${HEIGHT}`} role="img" aria-label={inWords(tide, way, datum, offset_min)}>
        <rect className="plot" x={LEFT} y={TOP} width={width - LEFT - RIGHT} height={BOTTOM - TOP} />
        {known.length === 0 ? null : (
          <>
            <path
              className="water"
              d={`${line((h) => h)}L${f(x(last))} ${BOTTOM}L${f(x(first))} ${BOTTOM}Z`}
            />
            {band_m === 0 ? null : (
              <>
                <path className="weather" d={line((h) => h + band_m)} />
                <path className="weather" d={line((h) => h - band_m)} />
              </>
            )}
            <path className="surface" d={line((h) => h)} />
          </>
        )}
        {leave_by_ms === null || leave_by_ms < tide.from_ms || leave_by_ms >= tide.to_ms ? null : (
          <g className="leave-line">
            <path d={`M${f(x(leave_by_ms))} ${STRIP.y + STRIP.height}V${BOTTOM}`} />
            <text
              x={x(leave_by_ms) + (x(leave_by_ms) > width / 2 ? -6 : 6)}
              y={TOP - 6}
              textAnchor={x(leave_by_ms) > width / 2 ? 'end' : 'start'}
            >
              leave by {clockAt(leave_by_ms, offset_min)}
            </text>
          </g>
        )}
        {way === null || tide.limit_m === null ? null : (
          <>
            <path className="way" d={`M${LEFT} ${f(y(way.level_m))}H${width - RIGHT}`} />
            <path className="limit" d={`M${LEFT} ${f(y(tide.limit_m))}H${width - RIGHT}`} />
            <text
              className="way-word"
              x={width - RIGHT - 4}
              y={y(way.level_m) + (isBoat ? 16 : -6)}
              textAnchor="end"
            >
              {isBoat ? 'boat needs' : 'lowest point'} {signed(way.level_m, 2)}
            </text>
          </>
        )}
        {pegs.map(({ hole, y: level, isNamed }) => (
          <g key={hole} className="peg">
            <path d={`M${LEFT} ${f(level)}h10`} />
            {isNamed ? (
              <text x={LEFT + 13} y={level + 4.5}>
                {hole}
              </text>
            ) : null}
          </g>
        ))}
        {tide.waters.map((water) => (
          <WaterMark
            key={water.time_ms}
            x={Math.max(LEFT + 30, Math.min(width - RIGHT - 30, x(water.time_ms)))}
            y={y(water.height_m) + (water.kind === 'high' ? -1 : 1) * (y(0) - y(band_m))}
            isHigh={water.kind === 'high'}
            clock={clockAt(water.time_ms, offset_min)}
            height={signed(water.height_m, 2)}
          />
        ))}
        {way === null ? null : <OpenStrip open={open} x={x} from={first} to={last} isBoat={isBoat} />}
        <Staff
          from={low}
          to={high}
          at={[BOTTOM, TOP]}
          across={LEFT - 8}
          unit={0.5}
          labelEvery={high - low > 6 ? 2 : 1}
          write={(v) => signed(v, 0)}
        />
        <Staff
          from={0}
          to={24}
          at={[LEFT, width - RIGHT]}
          across={BOTTOM}
          unit={1}
          labelEvery={hours}
          lies="flat"
          labels="after"
          write={(v) => String(v).padStart(2, '0')}
        />
      </svg>
    </figure>
  );
}

const f = (n: number): string => n.toFixed(1);

/** Grounds from the top down; named where the name above leaves room. */
function apart(pegs: { hole: string; y: number }[]): { hole: string; y: number; isNamed: boolean }[] {
  let last = -Infinity;
  return pegs
    .sort((a, b) => a.y - b.y)
    .map((peg) => {
      const isNamed = peg.y - last > 14;
      if (isNamed) last = peg.y;
      return { ...peg, isNamed };
    });
}

function WaterMark({
  x,
  y,
  isHigh,
  clock,
  height,
}: {
  x: number;
  y: number;
  isHigh: boolean;
  clock: string;
  height: string;
}) {
  const base = isHigh ? y - 22 : y + 16;
  return (
    <text className="water-word" x={x} y={base} textAnchor="middle">
      <tspan x={x}>{clock}</tspan>
      <tspan x={x} dy={15}>
        {height}
      </tspan>
    </text>
  );
}

function heights(tide: DayTide): { time_ms: number; height_m: number }[] {
  const path = [];
  for (let time_ms = tide.from_ms; time_ms <= tide.to_ms; time_ms += STEP_MS) {
    path.push({ time_ms, height_m: tide.curve.height_m(time_ms) });
  }
  return path;
}

function inWords(tide: DayTide, way: Way | null, datum: string, offset_min: number): string {
  const clock = (time_ms: number): string => clockAt(time_ms, offset_min);
  const waters = tide.waters.map(
    ({ kind, time_ms, height_m }) => `${kind} water ${clock(time_ms)}, ${signed(height_m, 2)} m`,
  );
  const is = way?.kind === 'boat' ? 'afloat' : 'dry';
  const spans = tide.spans.map((span) => {
    const a = span.from_ms === null || span.from_ms < tide.from_ms ? 'the start' : clock(span.from_ms);
    const b = span.to_ms === null || span.to_ms > tide.to_ms ? 'the end' : clock(span.to_ms);
    return `${is} ${a} to ${b}`;
  });
  const above = `Tide through the day, metres above ${datum || 'the datum'}`;
  return [above, ...waters, ...(way === null ? [] : spans.length === 0 ? [`never ${is}`] : spans)].join('; ');
}
