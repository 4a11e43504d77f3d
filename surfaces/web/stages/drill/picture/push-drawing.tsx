/**
 * The pushes to scale: black came up, crossed did not; the ground on its staff. Tubes stand beside each other in turn;
 * below them, its edge broken, what is expected.
 */

import { staffStep } from '@stillstand/output/drawing';
import type { HoleViewAhead } from '@stillstand/output/figures';
import { t } from '../../../language/index.ts';
import { Staff } from '../../../parts/index.ts';
import type { Push } from '../numbers/push-hole.ts';
import { m2 } from '../tape/lengths.ts';
import './drawing.css';
import './push-drawing.css';

const WIDTH = 448;
const HEIGHT = 620;
const TOP = 40;
/** A hole not begun is drawn this deep. */
const LEAST_DEPTH_M = 3;
const LANES = [96, 176] as const;
const LANE = 56;

/** Of what is expected, as much is shown, m. */
const AHEAD_M = 1.5;

export function PushDrawing({
  pushes,
  ahead,
  hole,
}: {
  pushes: readonly Push[];
  ahead: readonly HoleViewAhead[];
  hole: string;
}) {
  const reached = Math.max(LEAST_DEPTH_M, ...pushes.map((p) => p.to_m));
  const limit = Math.max(0, ...pushes.map((p) => p.to_m)) + AHEAD_M;
  const shown = ahead.filter(({ from_m }) => from_m < limit);
  const deepest = Math.max(reached, Math.min(limit, shown.at(-1)?.to_m ?? 0));
  const y = (m: number): number => TOP + (m / deepest) * (HEIGHT - TOP - 16);
  const { step, every } = staffStep(y(1) - y(0), 12, 40);
  const words =
    pushes.length === 0
      ? t`${hole}: no push yet`
      : `${hole}: ${pushes.map((p) => t`${p.label} from ${m2(p.from_m)} to ${m2(p.to_m)} m${p.recovered_m === null ? '' : t`, ${m2(p.recovered_m)} m came up`}`).join('; ')}`;
  return (
    <figure className="drawing">
      <svg className="pushes-drawn" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={words}>
        <text x="16" y="20">{t`depth, m`}</text>
        <Staff
          from={0}
          to={deepest}
          at={[y(0), y(deepest)]}
          across={48}
          unit={step}
          labelEvery={step * every}
        />
        <path className="ground-line" d={`M56 ${y(0)}H${LANES[1] + LANE + 24}`} />
        {shown.map(({ sediment, from_m, to_m }) => {
          const [top, bottom] = [y(from_m), y(Math.min(deepest, to_m))];
          return (
            <g key={`${sediment}${from_m}`} className="push-ahead">
              <rect x={LANES[0]} y={top} width={LANES[1] + LANE - LANES[0]} height={bottom - top} />
              <text x={LANES[1] + LANE + 16} y={(top + bottom) / 2 + 5}>
                {t`expected: ${sediment}`}
              </text>
            </g>
          );
        })}
        {pushes.map((p, i) => {
          const x = LANES[i % 2]!;
          const [top, bottom] = [y(p.from_m), y(p.to_m)];
          const core = p.recovered_m === null ? null : Math.min(bottom, y(p.from_m + p.recovered_m));
          return (
            <g key={p.row_id}>
              {core === null ? null : (
                <rect className="came-up" x={x} y={top} width={LANE} height={core - top} />
              )}
              {core === null || core >= bottom - 0.5 ? null : (
                <path
                  className="not-up"
                  d={`M${x} ${core}h${LANE}V${bottom}h${-LANE}zM${x} ${core}L${x + LANE} ${bottom}M${x + LANE} ${core}L${x} ${bottom}`}
                />
              )}
              <path className="push-edge" d={`M${x} ${top}V${bottom}M${x + LANE} ${top}V${bottom}`} />
              <path
                className="push-end"
                d={`M${x - 6} ${top}h${LANE + 12}M${x - 6} ${bottom}h${LANE + 12}`}
              />
              <text x={LANES[1] + LANE + 16} y={(top + bottom) / 2 + 5}>
                <tspan className="push-name">{p.label}</tspan> {t`${m2(p.from_m)} to ${m2(p.to_m)}`}
              </text>
            </g>
          );
        })}
      </svg>
    </figure>
  );
}
