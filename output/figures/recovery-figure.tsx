/** What came into the pipe of what was driven, and what came up of what was taken out: both against depth. */
import type { DriveResult, HoleResult, Results, RunResult } from '@stillstand/campaign/results';
import {
  box,
  CautionMark,
  crossed,
  DASHED,
  DOTTED,
  dot,
  LINE,
  placeAlong,
  polyline,
  type Scale,
  Span,
  scale,
  shortened,
  Text,
  useInk,
  vertical,
} from '@stillstand/output/drawing';
import { counted, printed } from '@stillstand/output/words';
import { DepthStaff, depthScale, FIRST_LANE, Track } from './drilling/track.tsx';
import { drawn, type Figure, type FigureOptions, innerWidth, plainName, type Warning } from './figure.tsx';
import { holeOf, lostWarning } from './hole-of.ts';

/** Above this the rig calls a recovery impossible (docs/methods/rig.md). */
const MOST_RECOVERY = 1.05;
/** Bars end here at the latest. */
const DRAWN_MOST = 1.6;
const LANE_GAP = 20;
/** Right of the bars, for the names of runs. */
const NAMES = 30;
/** Of the room for bars, what the pipe has; the sampler has the rest. */
const PIPE_SHARE = 0.654;

/** Pipe recovery per drive and in all, sampler recovery per run; one column wide. RangeError for an unknown hole. */
export function recoveryFigure(results: Results, label: string, options: FigureOptions = {}): Figure {
  const hole = holeOf(results, label, 'recoveryFigure');
  const inner = innerWidth('one', options);
  const bottom = Math.max(
    0.1,
    hole.penetration_m ?? 0,
    ...hole.drives.map((d) => d.to_m),
    ...hole.runs.map((r) => r.depth_bottom_m.value),
  );
  const depth = depthScale(bottom, 150, 380);
  const most = (values: readonly (number | null)[]): number =>
    Math.min(DRAWN_MOST, Math.max(1.1, ...values.map((v) => (v ?? 0) + 0.04)));
  const pipeLane = Math.round((inner - FIRST_LANE - LANE_GAP - NAMES) * PIPE_SHARE);
  const pipe = scale(0, most(hole.drives.map((d) => d.recovery)), FIRST_LANE, FIRST_LANE + pipeLane);
  const samplerX = FIRST_LANE + pipeLane + LANE_GAP;
  const sampler = scale(0, most(hole.runs.map((r) => r.sampler_recovery)), samplerX, inner - NAMES);

  const drawing = (
    <g>
      <DepthStaff depth={depth} />
      <Track across={pipe} depth={depth} first="pipe recovery" second="entered ÷ driven" room={18}>
        <Drives drives={hole.drives} across={pipe} depth={depth} />
        <Total hole={hole} across={pipe} depth={depth} />
      </Track>
      {hole.runs.length === 0 ? null : (
        <Track
          across={sampler}
          depth={depth}
          first="sampler recovery"
          second={shortened('recovered ÷ removed', inner - samplerX)}
          room={18}
        >
          <Runs runs={hole.runs} across={sampler} depth={depth} labelX={inner} />
        </Track>
      )}
    </g>
  );
  return drawn(
    {
      name: `recovery-${plainName(label)}`,
      width: 'one',
      title: `Recovery, hole ${label}`,
      notes: notes(hole),
      warnings: warnings(hole),
      caption: { head: `Recovery in hole ${label}.`, text: captionText(hole) },
      height: depth(bottom) + 6,
    },
    drawing,
    options,
  );
}

function notes(hole: HoleResult): string[] {
  const { recovery, entered_m, penetration_m } = hole;
  const taken = hole.runs.reduce((sum, r) => sum + r.removed_m, 0);
  const cameUp = hole.runs.reduce((sum, r) => sum + r.recovered_m - r.fall_in_m, 0);
  return [
    ...(recovery === null || entered_m === null || penetration_m === null
      ? []
      : [`${printed(entered_m, 2)} of ${printed(penetration_m, 2)} m entered: ${printed(recovery, 2)}`]),
    ...(taken > 0
      ? [`${printed(cameUp, 2)} of ${printed(taken, 2)} m came up in ${counted(hole.runs.length, 'run')}`]
      : []),
  ];
}

function warnings(hole: HoleResult): Warning[] {
  const over = hole.drives.filter((d) => (d.recovery ?? 0) > MOST_RECOVERY);
  const told = hole.drives.filter((d) => d.recovery !== null);
  return [
    ...lostWarning(hole),
    ...(told.length === 0
      ? [
          {
            kind: 'caution' as const,
            text: 'No drive was sounded before and after: pipe recovery is not known',
          },
        ]
      : []),
    ...(over.length === 0
      ? []
      : [
          {
            kind: 'caution' as const,
            text: `More entered than was driven, ${over.map((d) => `${printed(d.from_m, 1)} to ${printed(d.to_m, 1)} m`).join(', ')}: sand came in, or a reading is wrong`,
          },
        ]),
  ];
}

function captionText(hole: HoleResult): string {
  const blank = hole.drives.some((d) => d.recovery === null);
  return [
    hole.drives.some((d) => d.recovery !== null)
      ? 'Bars at left: what entered during each drive, by soundings before and after it; bold line and dots: all that entered so far over penetration.'
      : '',
    blank ? 'Dotted: not sounded.' : '',
    hole.runs.length > 0
      ? 'At right each run where it lay in the ground, black came up, crossed did not, %.'
      : '',
  ]
    .filter((part) => part !== '')
    .join(' ');
}

interface LaneProps {
  across: Scale;
  depth: Scale;
}

/** The line at which nothing is missing. */
function Whole({ across, depth }: LaneProps) {
  const ink = useInk();
  return (
    <path
      d={vertical(across(1), depth(0), depth(depth.to))}
      stroke={ink.ink2}
      strokeWidth={LINE.edge}
      {...DASHED}
      fill="none"
    />
  );
}

function Drives({ drives, across, depth }: LaneProps & { drives: readonly DriveResult[] }) {
  const ink = useInk();
  const told = drives.filter((d) => d.recovery !== null);
  const x0 = across(0);
  const end = (d: DriveResult): number => across(Math.min(d.recovery!, across.to));
  return (
    <g>
      <path
        d={told.map((d) => box(x0, depth(Math.max(0, d.from_m)), end(d), depth(d.to_m))).join('')}
        fill={ink.leaf}
        stroke={ink.ink}
        strokeWidth={LINE.edge}
      />
      <path
        d={drives
          .filter((d) => d.recovery === null)
          .map((d) => box(x0 + 2, depth(Math.max(0, d.from_m)) + 1.5, across(1), depth(d.to_m) - 1.5))
          .join('')}
        fill="none"
        stroke={ink.ink2}
        strokeWidth={LINE.edge}
        {...DOTTED}
      />
      <Whole across={across} depth={depth} />
      {told
        .filter((d) => d.recovery! > MOST_RECOVERY)
        .map((d) => (
          <CautionMark key={d.row_id} x={end(d) - 5} y={(depth(d.from_m) + depth(d.to_m)) / 2 + 3} />
        ))}
    </g>
  );
}

/** Everything that entered so far over the penetration then. */
function Total({ hole, across, depth }: LaneProps & { hole: HoleResult }) {
  const ink = useInk();
  const sounded = hole.states.filter(
    (s) => s.table === 'soundings' && s.recovery !== null && s.penetration_m !== null,
  );
  const points = sounded.map((s): [number, number] => [
    across(Math.min(s.recovery!, across.to)),
    depth(s.penetration_m!),
  ]);
  return (
    <g fill="none" stroke={ink.ink}>
      <path d={polyline(points)} strokeWidth={1.2} strokeLinejoin="round" />
      <path d={points.map(([x, y]) => dot(x, y)).join('')} strokeWidth={2.4} strokeLinecap="round" />
    </g>
  );
}

function Runs({ runs, across, depth, labelX }: LaneProps & { runs: readonly RunResult[]; labelX: number }) {
  const ink = useInk();
  const bars = runs.map((run) => ({
    run,
    y1: depth(run.depth_top_m.value) + 0.4,
    y2: depth(run.depth_bottom_m.value) - 0.4,
    share: Math.max(0, Math.min(run.sampler_recovery ?? 0, across.to)),
  }));
  const labels = placeAlong(
    bars.map(({ y1, y2 }) => ({ at: (y1 + y2) / 2, size: 7 })),
    depth(0),
    depth(depth.to),
  );
  return (
    <g>
      <path
        d={bars
          .filter(({ share }) => share > 0)
          .map(({ y1, y2, share }) => box(across(0), y1, across(share), y2))
          .join('')}
        fill={ink.ink}
      />
      <path
        d={bars
          .filter(({ run, share }) => run.sampler_recovery !== null && share < 0.995)
          .map(({ y1, y2, share }) => crossed(across(share), y1, across(1), y2))
          .join('')}
        fill="none"
        stroke={ink.ink}
        strokeWidth={0.55}
      />
      <Whole across={across} depth={depth} />
      {bars.map(({ run }, i) => (
        <Text key={run.row_id} x={labelX} y={labels[i]! + 2.2} anchor="end">
          {run.run}
          <Span voice="ink2">
            {run.sampler_recovery === null ? '' : ` ${printed(run.sampler_recovery * 100)}`}
          </Span>
        </Text>
      ))}
    </g>
  );
}
