import type { HoleResult, UnitResult } from '@stillstand/campaign/results';
import {
  box,
  crossed,
  DOTTED,
  dot,
  horizontal,
  LINE,
  LyingStaff,
  multiples,
  polyline,
  Ruling,
  type Scale,
  staffStep,
  Text,
  textWidth,
  useInk,
  vertical,
} from '@stillstand/output/drawing';
import { Head } from '../drilling/track.tsx';
import { type Model, STROKE } from './models.ts';

/** Entered length across, depth down: soundings, our band, the alternative_models, and the layer followed from one to the other. */
export function Curves({
  hole,
  models,
  across,
  depth,
  layer,
  columnsX,
}: {
  hole: HoleResult;
  models: readonly Model[];
  across: Scale;
  depth: Scale;
  layer: UnitResult | null;
  /** Where the columns of layers begin. */
  columnsX: number;
}) {
  const ink = useInk();
  const x1 = across(0);
  const x2 = across(across.to);
  const y1 = depth(0);
  const y2 = depth(depth.to);
  const step = staffStep(across.k, 14, 24);
  const down = staffStep(depth.k, 14, 10);
  return (
    <g>
      <Head x={x1} first="entered length" second="m, all that came into the pipe" />
      <Ruling at={multiples(0, across.to, step.step * step.every)} d={(m) => vertical(across(m), y1, y2)} />
      <Ruling at={multiples(0, depth.to, down.step * down.every)} d={(m) => horizontal(x1, x2, depth(m))} />
      <clipPath id="registration-curves">
        <path d={box(x1 - 1, y1 - 1, x2 + 1, y2 + 1)} />
      </clipPath>
      {layer === null ? null : (
        <Followed layer={layer} models={models} across={across} depth={depth} to={columnsX} />
      )}
      <g clipPath="url(#registration-curves)">
        <Band hole={hole} across={across} depth={depth} />
        {models.map(({ kind, line: points }) => (
          <path
            key={kind}
            d={polyline(points.map(([e, d]): [number, number] => [across(Math.min(e, across.to)), depth(d)]))}
            fill="none"
            stroke={ink.ink}
            strokeWidth={STROKE[kind].width}
            strokeDasharray={STROKE[kind].dash}
            strokeLinejoin="round"
          />
        ))}
        <Soundings hole={hole} across={across} depth={depth} />
      </g>
      <NotRepresented hole={hole} x1={x1 - 10} x2={x1 - 2} depth={depth} />
      <path d={box(x1, y1, x2, y2)} stroke={ink.ink} strokeWidth={LINE.fine} fill="none" />
      <LyingStaff y={y1 - 3.4} scale={across} low={0} high={across.to} labels="above" {...step} />
      <Diagonal across={across} depth={depth} />
    </g>
  );
}

const WHOLE = 'all that was driven entered';

/** Where nothing is missing; its name beside it where there is room. */
function Diagonal({ across, depth }: { across: Scale; depth: Scale }) {
  const ink = useInk();
  const end = Math.min(across.to, depth.to);
  const right = across(across.to) - 6;
  // As far down as its name fits between the diagonal and the edge.
  const at = (right - textWidth(WHOLE) - 6 - across(0)) / across.k;
  return (
    <g>
      <path
        d={polyline([
          [across(0), depth(0)],
          [across(end), depth(end)],
        ])}
        stroke={ink.ink2}
        strokeWidth={LINE.hair}
        fill="none"
      />
      {at < 0.15 * end ? null : (
        <Text x={right} y={depth(Math.min(at, 0.6 * end))} anchor="end" voice="ink2" halo>
          {WHOLE}
        </Text>
      )}
    </g>
  );
}

interface PartProps {
  hole: HoleResult;
  across: Scale;
  depth: Scale;
}

function Band({ hole, across, depth }: PartProps) {
  const ink = useInk();
  if (hole.depth === null) return null;
  const { entered_m, lower95_m, upper95_m } = hole.depth;
  const edge = (values: Float64Array): [number, number][] =>
    Array.from(entered_m, (e, i) => [across(e), depth(Math.max(0, values[i]!))]);
  const lower = edge(lower95_m);
  const upper = edge(upper95_m);
  return (
    <g>
      <path d={`${polyline([...lower, ...[...upper].reverse()])}Z`} fill={ink.leaf} />
      <path
        d={polyline(lower) + polyline(upper)}
        fill="none"
        stroke={ink.ink}
        strokeWidth={LINE.edge}
        {...DOTTED}
      />
    </g>
  );
}

function Soundings({ hole, across, depth }: PartProps) {
  const ink = useInk();
  const bars = hole.soundings
    .map(({ penetration_m, entered_m, sigma_m }) =>
      horizontal(
        across(Math.max(0, entered_m - 2 * sigma_m)),
        across(entered_m + 2 * sigma_m),
        depth(penetration_m),
      ),
    )
    .join('');
  const dots = hole.soundings.map((s) => dot(across(s.entered_m), depth(s.penetration_m))).join('');
  return (
    <g fill="none" strokeLinecap="round">
      <path d={bars} stroke={ink.ink} strokeWidth={LINE.edge} strokeLinecap="butt" />
      <path d={dots} stroke={ink.paper} strokeWidth={4.4} />
      <path d={dots} stroke={ink.ink} strokeWidth={2.8} />
    </g>
  );
}

/** Ground that did not enter: the line falls straight there. */
function NotRepresented({ hole, x1, x2, depth }: { hole: HoleResult; x1: number; x2: number; depth: Scale }) {
  const ink = useInk();
  return (
    <path
      d={hole.not_represented
        .map(({ top_m, bottom_m }) => [depth(top_m), depth(bottom_m)] as const)
        .map(([a, b]) => crossed(x1, a, x2, b))
        .join('')}
      fill="none"
      stroke={ink.ink}
      strokeWidth={0.55}
    />
  );
}

/** The layer as a length along what entered, down to each model's line; from ours across to its depth. */
function Followed({
  layer,
  models,
  across,
  depth,
  to,
}: {
  layer: UnitResult;
  models: readonly Model[];
  across: Scale;
  depth: Scale;
  to: number;
}) {
  const ink = useInk();
  const { core_top_m: top, core_bottom_m: bottom } = layer;
  if (top === null || bottom === null) return null;
  const deepest = Math.max(0, ...models.map((m) => m.units.get(layer.row_id)?.bottom.value ?? 0));
  const ours = models.find((m) => m.kind === 'decaying')?.units.get(layer.row_id);
  const name = layer.unit === '' ? 'layer' : `layer ${layer.unit}`;
  const fits = across(bottom) + 5 + textWidth(name) < across(across.to);
  return (
    <g>
      <path d={box(across(top), depth(0), across(bottom), depth(deepest))} fill={ink.leaf} />
      <path
        d={
          vertical(across(top), depth(0), depth(deepest)) + vertical(across(bottom), depth(0), depth(deepest))
        }
        stroke={ink.line}
        strokeWidth={LINE.hair}
        fill="none"
      />
      {ours === undefined ? null : (
        <path
          d={
            horizontal(across(top), to, depth(ours.top.value)) +
            horizontal(across(bottom), to, depth(ours.bottom.value))
          }
          stroke={ink.line}
          strokeWidth={LINE.hair}
          fill="none"
        />
      )}
      <Text
        x={fits ? across(bottom) + 3 : across(top) - 3}
        y={depth(0) + 8.5}
        anchor={fits ? 'start' : 'end'}
        voice="ink2"
        halo
      >
        {name}
      </Text>
    </g>
  );
}
