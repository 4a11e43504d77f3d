/** The map, drawn by us: graticule, holes, section line, scale and north; a coast of the campaign's own where it has one. */
import { roundLength } from '@stillstand/output/drawing';
import { type CSSProperties, useId } from 'react';
import { printed, useWidth } from '../../../parts/index.ts';
import type { Coast } from './coast.ts';
import { placeNames } from './map-labels.ts';
import { degreesWords, graticuleStep, type Place, type Plane, planeAround } from './plane.ts';
import './map.css';

export interface MappedHole {
  row_id: string;
  hole: string;
  state: string | null;
  place: Place;
}

export interface MappedSite {
  row_id: string;
  site: string;
  place: Place;
}

const EDGE = { left: 8, right: 8, top: 8, bottom: 8 };
/** Shown around the holes at least, m. */
const LEAST_SPAN_M = 120;

export function CampaignMap({
  holes,
  sites,
  coasts,
  chosen,
  onChoose,
}: {
  holes: readonly MappedHole[];
  /** Stand on the map until a hole has its place. */
  sites: readonly MappedSite[];
  coasts: readonly Coast[];
  chosen: string | null;
  onChoose: (row_id: string) => void;
}) {
  const clip = useId();
  const [frame, width] = useWidth(420);
  const height = Math.max(260, Math.min(470, Math.round(width * 0.8)));
  const placed = holes.length > 0 ? holes : sites;
  if (placed.length === 0) {
    return (
      <div className="map-empty">
        <p>The map is drawn as soon as a hole or site has its latitude and longitude.</p>
      </div>
    );
  }
  const view = viewOf(
    placed.map(({ place }) => place),
    width,
    height,
  );
  const section = sectionLine(holes, view);
  const { lines, labels } = graticule(view);
  const bar_m = roundLength((width * 0.28) / view.px_per_m);
  return (
    <div ref={frame} className="map-frame">
      {/* biome-ignore lint/a11y/useSemanticElements: a drawing with holes to press in it */}
      <svg
        className="map"
        viewBox={`0 0 ${width} ${height}`}
        role="group"
        aria-label={
          holes.length > 0
            ? `Map of ${holes.length} holes: ${holes.map((h) => h.hole).join(', ')}`
            : `Map of ${sites.map((s) => s.site).join(', ')}; no hole has its place yet`
        }
      >
        <clipPath id={clip}>
          <rect x={EDGE.left} y={EDGE.top} width={width - 16} height={height - 16} />
        </clipPath>
        <g clipPath={`url(#${clip})`}>
          <path className="graticule" d={lines} />
          {coasts.map((coast, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: coasts stay in their order
            <path key={i} className="coast" d={coastPath(coast, view)} />
          ))}
          {section === null ? null : <path className="section" d={section} />}
        </g>
        <rect className="edge" x={EDGE.left} y={EDGE.top} width={width - 16} height={height - 16} />
        {labels.map(({ x, y, text, anchor }) => (
          <text key={`${x} ${y}`} className="degrees" x={x} y={y} textAnchor={anchor}>
            {text}
          </text>
        ))}
        {holes.length > 0
          ? null
          : sites.map(({ row_id, site, place }) => {
              const { x, y } = view.at(place);
              return (
                <g key={row_id} className="site">
                  <path d={`M${x - 8} ${y}H${x + 8}M${x} ${y - 8}V${y + 8}`} />
                  <text x={x + 12} y={y - 6}>
                    {site}
                  </text>
                </g>
              );
            })}
        {placedLabels(holes, view, width, height, labels).map(({ hole, x, y, label }) => (
          // biome-ignore lint/a11y/useSemanticElements: a button cannot stand inside a drawing
          <g
            key={hole.row_id}
            className={`hole ${hole.row_id === chosen ? 'chosen' : ''}`}
            role="button"
            tabIndex={0}
            aria-label={`Hole ${hole.hole}${hole.state === null ? '' : `, ${hole.state}`}`}
            onClick={() => onChoose(hole.row_id)}
            onKeyDown={(event) => {
              if (event.key !== 'Enter' && event.key !== ' ') return;
              // Else the same press would close the dialog that it opens.
              event.preventDefault();
              onChoose(hole.row_id);
            }}
          >
            <circle className="touch" cx={x} cy={y} r={22} />
            {label === null || label.y === y + 5 ? null : (
              <path
                className="lead"
                d={`M${x} ${y}L${label.x < x ? label.x + label.width + 3 : label.x - 3} ${label.y - 5}`}
              />
            )}
            <HoleMark x={x} y={y} state={hole.state} />
            {label === null ? (
              <title>{hole.hole}</title>
            ) : (
              <text x={label.x} y={label.y}>
                {hole.hole}
              </text>
            )}
          </g>
        ))}
        <g transform={`translate(${EDGE.left + 20} ${height - 34})`}>
          {[0, 1, 2, 3].map((i) => (
            <rect
              key={i}
              className={i % 2 === 0 ? 'bar black' : 'bar white'}
              x={(i * bar_m * view.px_per_m) / 4}
              y={0}
              width={(bar_m * view.px_per_m) / 4}
              height={8}
            />
          ))}
          <text className="scale" x={0} y={-6}>
            0
          </text>
          <text className="scale" x={bar_m * view.px_per_m} y={-6} textAnchor="middle">
            {bar_m >= 2000 ? `${printed(bar_m / 1000, 0)} km` : `${printed(bar_m, 0)} m`}
          </text>
        </g>
        <g transform={`translate(${width - 44} ${EDGE.top + 26})`}>
          <title>North is up</title>
          <path className="north" d="M0 -12L7 14L0 9L-7 14Z" />
          <text className="scale" x={0} y={32} textAnchor="middle">
            N
          </text>
        </g>
      </svg>
    </div>
  );
}

/** A ring with a point; planned open, lost struck. */
function HoleMark({ x, y, state }: { x: number; y: number; state: string | null }) {
  const isPlanned = state === 'planned';
  const isLost = state === 'lost' || state === 'abandoned' || state === 'refused';
  return (
    <>
      <circle className={isPlanned ? 'ring planned' : 'ring'} cx={x} cy={y} r={7} />
      {isPlanned ? null : <circle className="dot" cx={x} cy={y} r={2.5} />}
      {isLost ? <path className="struck" d={`M${x - 10} ${y + 10}L${x + 10} ${y - 10}`} /> : null}
    </>
  );
}

interface View {
  width: number;
  height: number;
  plane: Plane;
  px_per_m: number;
  x(east_m: number): number;
  y(north_m: number): number;
  at(place: Place): { x: number; y: number };
  /** Corners, degrees. */
  low: Place;
  high: Place;
}

function viewOf(places: readonly Place[], width: number, height: number): View {
  const first = planeAround(places[0]!);
  const points = places.map(first.to);
  const east = points.map((p) => p.east_m);
  const north = points.map((p) => p.north_m);
  const middle = first.from({
    east_m: (Math.min(...east) + Math.max(...east)) / 2,
    north_m: (Math.min(...north) + Math.max(...north)) / 2,
  });
  const width_m = Math.max(LEAST_SPAN_M, Math.max(...east) - Math.min(...east)) * 1.3;
  const height_m = Math.max(LEAST_SPAN_M / 2, Math.max(...north) - Math.min(...north)) * 1.45;
  const px_per_m = Math.min((width - 40) / width_m, (height - 60) / height_m);
  const plane = planeAround(middle);
  const x = (east_m: number): number => width / 2 + east_m * px_per_m;
  const y = (north_m: number): number => height / 2 - north_m * px_per_m;
  return {
    width,
    height,
    plane,
    px_per_m,
    x,
    y,
    at: (place) => {
      const point = plane.to(place);
      return { x: x(point.east_m), y: y(point.north_m) };
    },
    low: plane.from({ east_m: -width / 2 / px_per_m, north_m: -height / 2 / px_per_m }),
    high: plane.from({ east_m: width / 2 / px_per_m, north_m: height / 2 / px_per_m }),
  };
}

interface Label {
  x: number;
  y: number;
  text: string;
  anchor: CSSProperties['textAnchor'] & ('start' | 'middle' | 'end');
}

function graticule({ low, high, at, width, height }: View): { lines: string; labels: Label[] } {
  const step = graticuleStep(high.latitude_deg - low.latitude_deg, 3);
  let span = high.longitude_deg - low.longitude_deg;
  if (span < 0) span += 360;
  const across = graticuleStep(span, 3);
  let lines = '';
  const labels: Label[] = [];
  for (let i = Math.ceil(low.latitude_deg / step); i * step < high.latitude_deg; i++) {
    const { y } = at({ latitude_deg: i * step, longitude_deg: low.longitude_deg });
    lines += `M0 ${y}H${width}`;
    if (y > 30 && y < height - 60) {
      labels.push({
        x: EDGE.left + 6,
        y: y - 4,
        text: degreesWords(i * step, step, ['N', 'S']),
        anchor: 'start',
      });
    }
  }
  for (let i = Math.ceil(low.longitude_deg / across); i * across < low.longitude_deg + span; i++) {
    const { x } = at({ latitude_deg: low.latitude_deg, longitude_deg: i * across });
    lines += `M${x} 0V${height}`;
    if (x > 96 && x < width - 110) {
      labels.push({
        x: x + 4,
        y: EDGE.top + 15,
        text: degreesWords(i * across, across, ['E', 'W']),
        anchor: 'start',
      });
    }
  }
  return { lines, labels };
}

/** The line nearest to all holes, a little beyond the outermost; null for fewer than two. */
function sectionLine(holes: readonly MappedHole[], view: View): string | null {
  if (holes.length < 2) return null;
  const points = holes.map(({ place }) => view.at(place));
  const n = points.length;
  const mx = points.reduce((sum, p) => sum + p.x, 0) / n;
  const my = points.reduce((sum, p) => sum + p.y, 0) / n;
  let xx = 0;
  let yy = 0;
  let xy = 0;
  for (const p of points) {
    xx += (p.x - mx) ** 2;
    yy += (p.y - my) ** 2;
    xy += (p.x - mx) * (p.y - my);
  }
  const angle = Math.atan2(2 * xy, xx - yy) / 2;
  const along = points.map((p) => (p.x - mx) * Math.cos(angle) + (p.y - my) * Math.sin(angle));
  const [a, b] = [Math.min(...along) - 26, Math.max(...along) + 26];
  return `M${mx + a * Math.cos(angle)} ${my + a * Math.sin(angle)}L${mx + b * Math.cos(angle)} ${my + b * Math.sin(angle)}`;
}

/** Holes with their names, clear of one another, of the scale and of north. */
function placedLabels(
  holes: readonly MappedHole[],
  view: View,
  width: number,
  height: number,
  degrees: ReturnType<typeof graticule>['labels'],
) {
  const at = holes.map(({ hole, place }) => ({ name: hole, ...view.at(place) }));
  const labels = placeNames(
    at,
    { left: EDGE.left + 4, right: width - 12, top: EDGE.top + 4, bottom: height - 12 },
    [
      { left: 0, right: EDGE.left + 40 + width * 0.28, top: height - 56, bottom: height },
      { left: width - 60, right: width, top: 0, bottom: EDGE.top + 64 },
      // Of 13 px, some 9 px a character at most.
      ...degrees.map(({ x, y, text, anchor }) => {
        const long = 8 * text.length;
        const left = anchor === 'end' ? x - long : x;
        return { left, right: left + long, top: y - 11, bottom: y + 4 };
      }),
    ],
  );
  return holes.map((hole, i) => ({ hole, x: at[i]!.x, y: at[i]!.y, label: labels[i]! }));
}

function coastPath({ lines }: Coast, view: View): string {
  return lines
    .map(({ places, isClosed }) => {
      const points = places.map((place) => {
        const { x, y } = view.at(place);
        return `${x.toFixed(1)} ${y.toFixed(1)}`;
      });
      return `M${points.join('L')}${isClosed ? 'Z' : ''}`;
    })
    .join('');
}
