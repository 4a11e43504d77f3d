/** Lanes of laboratory values: dots with their errors, slices as thick as they were cut, and limits. */
import {
  box,
  dot,
  firstLines,
  horizontal,
  LINE,
  LyingStaff,
  line,
  move,
  multiples,
  polygon,
  Ruling,
  type Scale,
  scale,
  staffStep,
  Text,
  textWidth,
  useInk,
  vertical,
  wrapped,
} from '@stillstand/output/drawing';
import { decimalsOfStep, printed, raised } from '@stillstand/output/words';
import { GrainStack, grainsCaption } from './grain-stack.tsx';
import type { Lane, LaneValue, ValueLane } from './laboratory.ts';
import { HEAD } from './lanes.ts';

/** Of a lane, so that its scale and the words over it are read at 7 points; and between two. Points. */
export const LEAST_LANE = 44;
export const LANE_GAP = 14;
/** Before a lane, for the crosses at its left edge. */
const EDGE = 5;

/** How many lanes that wide have room. */
export const lanesIn = (room: number): number => Math.max(0, Math.floor(room / (LEAST_LANE + LANE_GAP)));

export function LaboratoryLanes({
  lanes,
  x,
  right,
  depth,
  bottom,
  id,
}: {
  lanes: readonly Lane[];
  x: number;
  right: number;
  depth: Scale;
  bottom: number;
  id: string;
}) {
  const pitch = (right - x + LANE_GAP) / Math.max(1, lanes.length);
  return lanes.map((lane, i) => (
    <LaboratoryLane
      key={`${lane.property} ${lane.unit}`}
      lane={lane}
      x={x + i * pitch}
      right={x + (i + 1) * pitch - LANE_GAP}
      isLast={i === lanes.length - 1}
      depth={depth}
      bottom={bottom}
      id={`${id}-lane-${i + 1}`}
    />
  ));
}

function LaboratoryLane({
  lane,
  x,
  right,
  isLast,
  depth,
  bottom,
  id,
}: {
  lane: Lane;
  x: number;
  right: number;
  isLast: boolean;
  depth: Scale;
  bottom: number;
  id: string;
}) {
  const at = scale(lane.low, lane.high, x, right);
  const isBare = lane.kind === 'values' && lane.values.every(({ value }) => value === null);
  const label = Math.max(18, textWidth(printed(lane.high, 1)) + 4);
  const step = staffStep(at.k, label, label);
  const head = { weight: 600 } as const;
  const room = right - x + (isLast ? 1 : LANE_GAP - 3);
  const words = firstLines(wrapped(lane.property, room, head), 2, room, head);
  return (
    <g>
      {words.map((text, i) => (
        <Text key={text} x={x} y={7 + 7.5 * i} {...head}>
          {text}
        </Text>
      ))}
      <Text x={x} y={7.5 + 7.5 * words.length} voice="ink2">
        {firstLines([raised(lane.unit)], 1, room).join('')}
      </Text>
      {isBare ? null : (
        <>
          <Ruling
            at={multiples(lane.low, lane.high, step.step * step.every)}
            d={(value) => vertical(at(value), depth(0), bottom)}
          />
          <LyingStaff
            y={HEAD - 3.4}
            scale={at}
            low={lane.low}
            high={lane.high}
            labels="above"
            label={(value) => printed(value, decimalsOfStep(step.step * step.every))}
            {...step}
          />
        </>
      )}
      {lane.kind === 'grains' ? (
        <GrainStack lane={lane} at={at} depth={depth} id={id} />
      ) : (
        <Values lane={lane} at={at} depth={depth} x={x} right={right} />
      )}
    </g>
  );
}

function Values({
  lane: { values },
  at,
  depth,
  x,
  right,
}: {
  lane: ValueLane;
  at: Scale;
  depth: Scale;
  x: number;
  right: number;
}) {
  const ink = useInk();
  const { dots, lines, outlines } = signs(values, at, depth, x, right);
  return (
    <g>
      <path d={joined(values, at, depth)} stroke={ink.ink2} strokeWidth={LINE.fine} fill="none" />
      <path
        d={depthBars(values, at, depth, x, right)}
        stroke={ink.ink2}
        strokeWidth={LINE.hair}
        fill="none"
      />
      <path d={lines} stroke={ink.ink} strokeWidth={LINE.fine} fill="none" />
      <path d={outlines} stroke={ink.ink} strokeWidth={LINE.fine} fill={ink.paper} />
      <path d={dots} stroke={ink.ink} strokeWidth={2.4} strokeLinecap="round" fill="none" />
    </g>
  );
}

/** A depth known to less than this on the page is a place, points. */
const KNOWN = 2.6;

/** 95 % of the depths, where they are seen; one that would lie over the one above is left out: all of a hole move together. */
function depthBars(values: readonly LaneValue[], at: Scale, depth: Scale, x: number, right: number): string {
  let d = '';
  let reached = -Infinity;
  for (const { value, lower95_m, upper95_m } of values) {
    const [from, to] = [depth(lower95_m), depth(upper95_m)];
    if (value === null || to - from < KNOWN || from < reached) continue;
    d += vertical(Math.min(right, Math.max(x, at(value))), from, to);
    reached = to;
  }
  return d;
}

/** A line through the values that were measured, broken where one was not. */
function joined(values: readonly LaneValue[], at: Scale, depth: Scale): string {
  let d = '';
  let isOpen = false;
  for (const { value, limit, depth_m } of values) {
    if (value === null || limit !== null) {
      isOpen = false;
      continue;
    }
    d += (isOpen ? line : move)(at(value), depth(depth_m));
    isOpen = true;
  }
  return d;
}

/** A slice that is drawn at least so tall is a box; points. */
const TALL = 2.6;

/** All values of a lane, the signs of one kind as one path: a core may be measured every millimetre. */
function signs(values: readonly LaneValue[], at: Scale, depth: Scale, x: number, right: number) {
  const within = (place: number): number => Math.min(right, Math.max(x, place));
  const drawn = { dots: '', lines: '', outlines: '' };
  for (const { value, two_sigma, limit, depth_m, thickness_m } of values) {
    const y = depth(depth_m);
    if (value === null) {
      drawn.lines += cross(x - EDGE, y);
      continue;
    }
    const centre = within(at(value));
    if (limit !== null) {
      drawn.outlines += triangle(centre, y, limit);
      continue;
    }
    const half = (thickness_m * depth.k) / 2;
    const from = two_sigma === null ? centre : within(at(value - two_sigma));
    const to = two_sigma === null ? centre : within(at(value + two_sigma));
    const slice = 2 * half >= TALL ? vertical(centre, y - half, y + half) : '';
    if (slice !== '' && to - from >= 1) {
      drawn.outlines += `${box(from, y - half, to, y + half)}${slice}`;
      continue;
    }
    drawn.lines += `${slice}${to > from ? horizontal(from, to, y) : ''}`;
    drawn.dots += dot(centre, y);
  }
  return drawn;
}

const cross = (x: number, y: number, half = 1.7): string =>
  `${move(x - half, y - half)}${line(x + half, y + half)}${move(x - half, y + half)}${line(x + half, y - half)}`;

function triangle(x: number, y: number, limit: NonNullable<LaneValue['limit']>): string {
  const tip = limit === 'less_than' ? -2.4 : 2.4;
  return polygon([
    [x + tip, y],
    [x - tip, y - 2.2],
    [x - tip, y + 2.2],
  ]);
}

/** What the signs of the lanes mean, as far as they are drawn. */
export function lanesCaption(lanes: readonly Lane[]): string {
  const values = lanes.flatMap((lane) => (lane.kind === 'values' ? lane.values : []));
  const grains = lanes.find((lane) => lane.kind === 'grains');
  if (values.length === 0) return grains === undefined ? '' : grainsCaption(grains);
  const has = (test: (value: LaneValue) => boolean): boolean => values.some(test);
  return [
    'Laboratory values: dots, with 2σ where it was stated; a box is a slice as thick as it was cut.',
    has(({ value, limit }) => value !== null && limit !== null)
      ? 'An open triangle is a limit and points to the side the value lies on.'
      : '',
    has(({ value }) => value === null)
      ? 'A cross at the left edge: not determined, or below a limit that was not stated.'
      : '',
    has(({ lower95_m, upper95_m }) => upper95_m - lower95_m > 0)
      ? 'Thin upright bars: 95 % of a depth, where they are long enough to be seen and do not overlap; the depths of a hole share their errors.'
      : '',
    grains === undefined ? '' : grainsCaption(grains),
  ]
    .filter((sentence) => sentence !== '')
    .join(' ');
}
