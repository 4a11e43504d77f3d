/** A history down the page: 95 % with dotted edges, 68 % darker, the median bold; of two that remain possible each median. */
import type { HoleHistory } from '@stillstand/campaign/results';
import { DASHED, DOTTED, Hatching, LINE, polyline, useInk } from '@stillstand/output/drawing';
import type { AgeDepthLayout } from './layout.ts';

type Place = Pick<AgeDepthLayout, 'time' | 'depth'>;

const edge = ({ depth_m }: HoleHistory, ages: Float64Array, { time, depth }: Place): [number, number][] =>
  Array.from(depth_m, (d, i) => [time(ages[i]!), depth(d)]);

/** `id` of its hatching, where it has not converged. */
export function Band({ history, place, id }: { history: HoleHistory; place: Place; id: string }) {
  const ink = useInk();
  const { lower68, upper68, lower95, upper95 } = history.age_cal_bp;
  const { time, depth } = place;
  // Where two histories remain possible the median of all lies between them, where neither is.
  const isOne = history.modes.length < 2;
  const isSettled = history.diagnostics.converged;
  const area = (low: Float64Array, high: Float64Array): string =>
    `${polyline([...edge(history, low, place), ...edge(history, high, place).reverse()])}Z`;
  return (
    <g fill="none">
      <path d={area(lower95, upper95)} fill={isSettled ? ink.leaf : ink.paper} />
      {isOne ? <path d={area(lower68, upper68)} fill={isSettled ? ink.rule : ink.paper} /> : null}
      {isSettled ? null : (
        <Hatching
          id={id}
          d={area(lower95, upper95)}
          x1={time(time.from)}
          x2={time(time.to)}
          y1={depth(0)}
          y2={depth(depth.to)}
        />
      )}
      <Edges d={polyline(edge(history, lower95, place)) + polyline(edge(history, upper95, place))} />
      {(isOne ? [history] : history.modes).map(({ age_cal_bp }, i) => (
        <path
          key={i === 0 ? 'likelier' : 'other'}
          d={polyline(edge(history, age_cal_bp.median, place))}
          stroke={ink.ink}
          strokeWidth={LINE.bold}
          strokeLinejoin="round"
          {...(i === 0 ? {} : DASHED)}
        />
      ))}
      {isOne ? null : <OwnEdges history={history} place={place} />}
    </g>
  );
}

/** Of each of the histories that remain possible. */
function OwnEdges({ history, place }: { history: HoleHistory; place: Place }) {
  const ink = useInk();
  const d = history.modes
    .flatMap(({ age_cal_bp: { lower95, upper95 } }) => [lower95, upper95])
    .map((ages) => polyline(edge(history, ages, place)))
    .join('');
  return <path d={d} stroke={ink.ink2} strokeWidth={LINE.hair} />;
}

/** A history that no longer counts: edges and median alone, light. */
export function FormerBand({ history, place }: { history: HoleHistory; place: Place }) {
  const ink = useInk();
  const { lower95, upper95, median } = history.age_cal_bp;
  const ends = [lower95, upper95].map((ages) => polyline(edge(history, ages, place))).join('');
  return (
    <g fill="none" stroke={ink.line}>
      <path d={ends} strokeWidth={LINE.hair} {...DOTTED} />
      <path d={polyline(edge(history, median, place))} strokeWidth={LINE.edge} {...DASHED} />
    </g>
  );
}

/** Of a 95 % band. */
export function Edges({ d, fill }: { d: string; fill?: 'none' }) {
  const ink = useInk();
  return <path d={d} stroke={ink.ink} strokeWidth={LINE.edge} {...DOTTED} fill={fill} />;
}
