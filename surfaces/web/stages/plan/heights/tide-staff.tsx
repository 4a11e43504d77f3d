/** The tide at the site as a levelling staff, and how high the ground of each hole stands beside it. */
import { SIZE, textWidth } from '@stillstand/output/drawing';
import { decimalsFor, Staff, signed } from '../../../parts/index.ts';
import './tide-staff.css';

export interface TideMark {
  name: string;
  elevation_m: number;
  sigma_m: number | null;
}

const WIDTH = 256;
const HEIGHT = 470;
const TOP = 26;
const BOTTOM = HEIGHT - 14;
const STAFF_X = 120;
const LABEL_STEP = 17;
/** Left end of the words about the ground. */
const GROUND_X = STAFF_X + 64;
/** More holes than this, or names wider than this, pixels, are read in the table below: the staff then says how many, from where to where. */
const MOST_NAMES = 14;
const WIDEST_NAME = 156;
const FONT = 14;

export function TideStaff({
  levels,
  grounds,
}: {
  levels: readonly TideMark[];
  grounds: readonly TideMark[];
}) {
  const all = [...levels, ...grounds].map((mark) => mark.elevation_m);
  if (all.length === 0) {
    return (
      <div className="map-empty">
        <p>Tide levels and levelled ground appear here as a staff.</p>
      </div>
    );
  }
  const low = Math.floor(Math.min(...all, 0) - 0.2);
  const high = Math.ceil(Math.max(...all, 0) + 0.2);
  const y = (m: number): number => BOTTOM - ((m - low) / (high - low)) * (BOTTOM - TOP);
  const left = spread(levels.map((mark) => y(mark.elevation_m)));
  const right = spread(grounds.map((mark) => y(mark.elevation_m)));
  const widest = Math.max(0, ...grounds.map((mark) => widthOf(`${mark.name} ${height(mark)}`)));
  const isNamed = grounds.length <= MOST_NAMES && widest <= WIDEST_NAME;
  const width = isNamed ? Math.max(WIDTH, GROUND_X + widest) : WIDTH;
  const words = [
    ...levels.map((mark) => `${mark.name} ${signed(mark.elevation_m, 2)} m`),
    ...grounds.map((mark) => `ground at ${mark.name} ${signed(mark.elevation_m, 2)} m`),
  ];
  return (
    <svg
      className="tide-staff"
      width={width}
      viewBox={`0 0 ${width} ${HEIGHT}`}
      role="img"
      aria-label={words.join(', ')}
    >
      <text className="of water" x={STAFF_X - 14} y={12} textAnchor="end">
        tide
      </text>
      <text className="of" x={STAFF_X + 62} y={12}>
        ground, m
      </text>
      <Staff
        from={low}
        to={high}
        at={[BOTTOM, TOP]}
        across={STAFF_X}
        unit={0.5}
        labelEvery={1}
        labels="after"
        write={(v) => signed(v, 0)}
      />
      {levels.map((mark, i) => (
        <g key={mark.name} className="level">
          <path d={`M${STAFF_X} ${y(mark.elevation_m)}H${STAFF_X - 10}L${STAFF_X - 18} ${left[i]!}`} />
          <text x={STAFF_X - 22} y={left[i]! + 4.5} textAnchor="end">
            {mark.name} {signed(mark.elevation_m, 2)}
          </text>
        </g>
      ))}
      {isNamed
        ? grounds.map((mark, i) => (
            <g key={mark.name} className="ground">
              <path
                d={`M${STAFF_X + 40} ${y(mark.elevation_m)}H${STAFF_X + 52}L${STAFF_X + 60} ${right[i]!}`}
              />
              <text x={GROUND_X} y={right[i]! + 4.5}>
                <tspan className="name">{mark.name}</tspan> {height(mark)}
              </text>
            </g>
          ))
        : groundsTogether(grounds, y)}
    </svg>
  );
}

const widthOf = (words: string): number => Math.ceil((textWidth(words, { weight: 600 }) * FONT) / SIZE.text);

const height = ({ elevation_m, sigma_m }: TideMark): string =>
  signed(elevation_m, decimalsFor(sigma_m === null ? null : 2 * sigma_m, 2, 2));

/** A tick for each hole, and the highest and the lowest in figures. */
function groundsTogether(grounds: readonly TideMark[], y: (m: number) => number) {
  const order = [...grounds].sort((a, b) => b.elevation_m - a.elevation_m);
  const [highest, lowest] = [order[0]!, order.at(-1)!];
  const top = y(highest.elevation_m);
  const bottom = y(lowest.elevation_m);
  const middle = (top + bottom) / 2;
  const apart = Math.max(2 * LABEL_STEP, bottom - top) / 2;
  return (
    <g className="ground">
      {order.map(({ name, elevation_m }) => (
        <path key={name} d={`M${STAFF_X + 40} ${y(elevation_m)}H${STAFF_X + 52}`} />
      ))}
      <path d={`M${STAFF_X + 52} ${top}L${STAFF_X + 60} ${middle - apart}`} />
      <path d={`M${STAFF_X + 52} ${bottom}L${STAFF_X + 60} ${middle + apart}`} />
      <text x={GROUND_X} y={middle - apart + 4.5}>
        {height(highest)}
      </text>
      <text x={GROUND_X} y={middle + 4.5}>
        <tspan className="name">{grounds.length} holes</tspan>
      </text>
      <text x={GROUND_X} y={middle + apart + 4.5}>
        {height(lowest)}
      </text>
    </g>
  );
}

/** Label heights kept apart, as near as they can be to where they belong. */
function spread(wanted: readonly number[]): number[] {
  const order = wanted.map((_, i) => i).sort((a, b) => wanted[a]! - wanted[b]!);
  const placed = [...wanted];
  for (let pass = 0; pass < 200; pass++) {
    let moved = false;
    for (let k = 1; k < order.length; k++) {
      const gap = placed[order[k]!]! - placed[order[k - 1]!]!;
      if (gap >= LABEL_STEP - 0.01) continue;
      const push = (LABEL_STEP - gap) / 2;
      placed[order[k]!]! += push;
      placed[order[k - 1]!]! -= push;
      moved = true;
    }
    if (!moved) break;
  }
  return placed;
}
