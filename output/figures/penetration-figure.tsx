/** How fast the string went down, drive by drive, against what was usual; the vibrator beside, and what ended each drive. */
import type { DriveResult, HoleResult, PaceTrendResult, Results } from '@stillstand/campaign/results';
import {
  box,
  CautionMark,
  DASHED,
  dot,
  horizontal,
  LINE,
  placeAlong,
  polyline,
  type Scale,
  StopMark,
  scale,
  shortened,
  Text,
  useInk,
  vertical,
} from '@stillstand/output/drawing';
import { printed, range, signed } from '@stillstand/output/words';
import { expm1 } from '@stillstand/science/base';
import { DepthStaff, depthScale, FIRST_LANE, Head, Track } from './drilling/track.tsx';
import {
  drawn,
  type Figure,
  type FigureOptions,
  innerWidth,
  narrowness,
  plainName,
  type Warning,
} from './figure.tsx';
import { holeOf, lostWarning } from './hole-of.ts';

const SPEED_LANE = 34;
const LANE_GAP = 14;
/** For what ended a drive. */
const ENDS = 43;
const LEAST_RATE = 90;

/** Penetration rate per drive and its trend; one column wide. RangeError for an unknown hole. */
export function penetrationFigure(results: Results, label: string, options: FigureOptions = {}): Figure {
  const hole = holeOf(results, label, 'penetrationFigure');
  const { drives, pace_trend: trend } = hole;
  const inner = innerWidth('one', options);
  const bottom = Math.max(0.1, hole.penetration_m ?? 0, ...drives.map((d) => d.to_m));
  const depth = depthScale(bottom, 150, 380);
  const fastest = Math.max(
    drives.length === 0 ? 1 : 0.1,
    ...drives.flatMap((d) => [d.rate_m_per_min ?? 0, d.usual_m_per_min ?? 0]),
  );
  const whole = FIRST_LANE + LEAST_RATE + LANE_GAP + SPEED_LANE + LANE_GAP + ENDS;
  const known = drives.flatMap((d) => (d.frequency_hz === null ? [] : [d.frequency_hz]));
  const speeds = inner < whole - 0.5 ? [] : known;
  const fixed = FIRST_LANE + LANE_GAP + ENDS + (speeds.length < known.length ? 0 : SPEED_LANE + LANE_GAP);
  const rateLane = Math.round(inner - fixed);
  const rate = scale(0, fastest * 1.06, FIRST_LANE, FIRST_LANE + rateLane);
  const speedX = FIRST_LANE + rateLane + LANE_GAP;
  const speed =
    speeds.length === 0
      ? null
      : scale(Math.min(...speeds) - 5, Math.max(...speeds) + 5, speedX, speedX + SPEED_LANE);
  const endX = speed === null ? speedX : speedX + SPEED_LANE + LANE_GAP;

  const drawing = (
    <g>
      <DepthStaff depth={depth} />
      <Track across={rate} depth={depth} first="penetration rate" second="m per minute" least={10} room={18}>
        <Rates drives={drives} trend={trend} across={rate} depth={depth} />
      </Track>
      {speed === null ? null : (
        <Track across={speed} depth={depth} first="vibrator" second="Hz" least={7} room={16}>
          <Speeds drives={drives} across={speed} depth={depth} />
        </Track>
      )}
      {drives.length === 0 ? null : <Head x={endX} first="ended by" second="" />}
      <Ends drives={drives} depth={depth} x={endX} width={inner - endX} />
    </g>
  );
  return drawn(
    {
      name: `penetration-${plainName(label)}`,
      width: 'one',
      title: `Driving, hole ${label}`,
      notes: notes(hole),
      warnings: [
        ...warnings(hole),
        ...(speeds.length < known.length
          ? narrowness(whole, inner, 'the speed of the vibrator is left out')
          : []),
      ],
      caption: { head: `Penetration rate in hole ${label}.`, text: captionText(hole) },
      height: depth(bottom) + 6,
    },
    drawing,
    options,
  );
}

function notes({ pace_trend: trend }: HoleResult): string[] {
  if (trend === null) return [];
  const { slope_per_m: slope, lower95, upper95 } = trend;
  const per = (x: number): number => 100 * expm1(x);
  const bounds =
    lower95 === null || upper95 === null ? '' : ` (95 % ${range(per(lower95), per(upper95), 0)})`;
  return [
    `trend ${signed(per(slope), 0)} % a metre${bounds}`,
    trend.halving_m === null || trend.verdict !== 'slowing'
      ? { slowing: 'slowing', quickening: 'quickening', even: 'neither slowing nor quickening for certain' }[
          trend.verdict
        ]
      : `slowing: half as fast every ${printed(trend.halving_m, 1)} m`,
  ];
}

function warnings(hole: HoleResult): Warning[] {
  const refused = hole.drives.filter((d) => d.pace === 'refusal');
  return [
    ...lostWarning(hole),
    ...(hole.drives.length === 0 ? [{ kind: 'caution' as const, text: 'No drive is recorded' }] : []),
    ...(refused.length === 0
      ? []
      : [
          {
            kind: 'caution' as const,
            text: `Refusal at ${refused.map((d) => `${printed(d.to_m, 2)} m`).join(', ')}`,
          },
        ]),
  ];
}

function captionText({ drives, pace_trend }: HoleResult): string {
  return [
    drives.length === 0 ? '' : 'Bars are drives.',
    drives.some((d) => d.usual_m_per_min !== null)
      ? 'Broken line: the rate usual in this hole before each drive; dots: half of it, below which a drive is slowing (triangle). An octagon is refusal: below a tenth of it, or 5 cm a minute.'
      : '',
    pace_trend === null
      ? ''
      : 'Bold: trend over all drives (median of the slopes of all pairs, of the logarithm).',
    drives.some((d) => d.rate_m_per_min === null) ? 'Dotted outline: not timed.' : '',
    drives.some((d) => d.ended_by === 'length')
      ? 'Where nothing is said to have ended a drive, the joint was down.'
      : '',
  ]
    .filter((part) => part !== '')
    .join(' ');
}

interface LaneProps {
  drives: readonly DriveResult[];
  across: Scale;
  depth: Scale;
}

const span = (drive: DriveResult, depth: Scale): [number, number] => [
  depth(Math.max(0, Math.min(drive.from_m, drive.to_m))),
  depth(Math.max(0, Math.max(drive.from_m, drive.to_m))),
];

function Rates({ drives, trend, across, depth }: LaneProps & { trend: PaceTrendResult | null }) {
  const ink = useInk();
  const x0 = across(0);
  const at = drives.map((drive) => {
    const [y1, y2] = span(drive, depth);
    return { drive, y1, y2, middle: (y1 + y2) / 2 };
  });
  const usual = (share: number): string =>
    at
      .filter(({ drive }) => drive.usual_m_per_min !== null)
      .map(({ drive, y1, y2 }) => vertical(across(drive.usual_m_per_min! * share), y1, y2))
      .join('');
  return (
    <g>
      <path
        d={at
          .filter(({ drive }) => drive.rate_m_per_min !== null)
          .map(({ drive, y1, y2 }) => box(x0, y1, across(Math.max(0, drive.rate_m_per_min!)), y2))
          .join('')}
        fill={ink.leaf}
        stroke={ink.ink}
        strokeWidth={LINE.edge}
      />
      <g fill="none" strokeLinecap="round">
        <path
          d={at
            .filter(({ drive }) => drive.rate_m_per_min === null)
            .map(({ y1, y2 }) => box(x0 + 2, y1 + 1.5, x0 + 30, y2 - 1.5))
            .join('')}
          stroke={ink.ink2}
          strokeWidth={LINE.edge}
          strokeDasharray="0.01 1.8"
        />
        <path d={usual(1)} stroke={ink.ink} strokeWidth={LINE.edge} {...DASHED} />
        <path d={usual(0.5)} stroke={ink.ink} strokeWidth={1} strokeDasharray="0.01 2.2" />
        {trend === null ? null : (
          <path
            d={polyline(
              trend.line.map(({ depth_m, rate_m_per_min }): [number, number] => [
                across(Math.min(rate_m_per_min, across.to)),
                depth(Math.max(0, depth_m)),
              ]),
            )}
            stroke={ink.ink}
            strokeWidth={1.4}
          />
        )}
      </g>
      {at.map(({ drive, middle }) => {
        const x = across(Math.max(0, drive.rate_m_per_min ?? 0)) + 7;
        if (drive.pace === 'slowing') return <CautionMark key={drive.row_id} x={x} y={middle + 3} />;
        return drive.pace === 'refusal' ? <StopMark key={drive.row_id} x={x} y={middle} /> : null;
      })}
    </g>
  );
}

function Speeds({ drives, across, depth }: LaneProps) {
  const ink = useInk();
  const known = drives.filter((d) => d.frequency_hz !== null);
  const middles = known.map((d): [number, number] => {
    const [y1, y2] = span(d, depth);
    return [across(d.frequency_hz!), (y1 + y2) / 2];
  });
  return (
    <g fill="none" stroke={ink.ink}>
      <path
        d={known.map((d) => vertical(across(d.frequency_hz!), ...span(d, depth))).join('')}
        strokeWidth={1.2}
      />
      <path d={middles.map(([x, y]) => dot(x, y)).join('')} strokeWidth={2.8} strokeLinecap="round" />
    </g>
  );
}

/** What ended each drive, at its end; nothing where the joint was down. */
function Ends({
  drives,
  depth,
  x,
  width,
}: {
  drives: readonly DriveResult[];
  depth: Scale;
  x: number;
  width: number;
}) {
  const ink = useInk();
  const told = drives.filter((d) => d.ended_by !== null && d.ended_by !== 'length');
  const places = placeAlong(
    told.map((d) => ({ at: depth(d.to_m), size: 8 })),
    depth(0),
    depth(depth.to) + 5,
  );
  return (
    <g>
      <path
        d={drives.map((d) => horizontal(x - 8, x - 4, depth(d.to_m))).join('')}
        stroke={ink.ink}
        strokeWidth={LINE.fine}
        fill="none"
      />
      {told.map((d, i) => (
        <Text key={d.row_id} x={x} y={places[i]! + 2.4}>
          {shortened(d.ended_by!.replaceAll('_', ' '), width)}
        </Text>
      ))}
    </g>
  );
}
