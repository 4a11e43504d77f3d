import type { DateResult } from '@stillstand/campaign/results';
import {
  AgeDensity,
  CautionMark,
  firstLines,
  LINE,
  Lozenge,
  LyingStaff,
  multiples,
  placeAlong,
  polyline,
  Ruling,
  type Scale,
  SIZE,
  Span,
  scale,
  shortened,
  staffStep,
  Text,
  textWidth,
  useInk,
  vertical,
  wrapped,
} from '@stillstand/output/drawing';
import { isLimit, printed, yearRange, years } from '@stillstand/output/words';
import { isTruncated } from '../chronology.ts';
import { type Column, HEAD, LANE } from './lanes.ts';

/** Of one age with one line below it, and of each line more; points. */
const ROW = 20;
const LEADING = 6.8;

const labelWidthOf = ({ samples }: Column): number =>
  Math.min(48, Math.max(0, ...samples.map((s) => textWidth(s.sample))));

/** Where the ages begin, behind the labels of the samples. */
export const agesFrom = (column: Column): number => LANE.sample + 9 + labelWidthOf(column) + 12;

/** Lozenges at their depth, labels beside, and a density for every age, moved apart where they would touch. */
export function SamplesAndAges({
  column,
  depth,
  right,
  bottom,
}: {
  column: Column;
  depth: Scale;
  right: number;
  bottom: number;
}) {
  const ink = useInk();
  const x = LANE.sample;
  const labelWidth = labelWidthOf(column);
  const labelPlaces = placeAlong(
    column.samples.map((s) => ({ at: depth(s.depth_m!.value), size: 7.6 })),
    depth(0) - 4,
    bottom + 4,
  );
  const labelEnd = x + 9 + labelWidth;
  const left = agesFrom(column);
  const dates = column.dates;
  const oldest = Math.max(1000, ...dates.map((d) => d.date.sets_95[0]?.older_cal_bp ?? d.date.median_cal_bp));
  const youngest = Math.min(
    0,
    ...dates.map((d) => d.date.sets_95.at(-1)?.younger_cal_bp ?? d.date.median_cal_bp),
  );
  const axis = staffStep((right - left) / (oldest - youngest), 10, 20);
  const from = Math.ceil((oldest * 1.01) / (axis.step / 2)) * (axis.step / 2);
  const time = scale(from, youngest, left, right);
  const materials = new Map(column.samples.map((s) => [s.sample, s.material]));
  const labels = dates.map(({ date }) =>
    ageLabel(date, materials.get(date.sample) ?? date.material, time, left, right),
  );
  // Two lines a row and more where a reason needs them; else two, else one.
  const room = bottom - depth(0) + 10;
  const height = (lines: number) => (label: AgeLabelled) =>
    lines === 0
      ? Math.min(11, room / Math.max(1, dates.length))
      : ROW + LEADING * (Math.min(lines, label.under.length) - 1);
  const lines = [3, 2, 1].find((n) => labels.reduce((sum, label) => sum + height(n)(label), 0) <= room) ?? 0;
  const sizes = labels.map(height(lines));
  // A row reaches farther up (the density) than down, apart from its further lines.
  const rise = sizes.map((size) => (lines === 0 ? size : ROW) * 0.62);
  const rowPlaces = placeAlong(
    dates.map((d, i) => ({ at: depth(d.depth_m) - rise[i]! + sizes[i]! / 2, size: sizes[i]! })),
    // The first row stays clear of the time staff.
    depth(0) + (lines > 0 ? 13 : 9) - (rise[0] ?? 0),
    bottom + 6,
  ).map((centre, i) => centre + rise[i]! - sizes[i]! / 2);
  const densityHeight = lines > 0 ? 11 : (sizes[0] ?? 11) - 3;
  return (
    <g>
      {dates.length === 0 ? null : (
        <>
          <Text x={left} y={7} weight={600}>
            age
          </Text>
          <Text x={left} y={15.5} voice="ink2">
            thousand years cal BP
          </Text>
          <Ruling
            at={multiples(youngest, from, axis.step)}
            d={(age) => vertical(time(age), depth(0), bottom)}
          />
          <LyingStaff
            y={HEAD - 3.4}
            scale={time}
            low={youngest}
            high={from}
            labels="above"
            label={(age) => printed(age / 1000, axis.step * axis.every < 1000 ? 1 : 0)}
            {...axis}
          />
        </>
      )}
      {dates.map(({ date, depth_m }, i) => {
        const y = rowPlaces[i]!;
        const at = depth(depth_m);
        return (
          <g key={date.row_id}>
            <path
              d={polyline([
                [labelEnd + 1, at],
                [labelEnd + 4, at],
                [left - 3, y],
                [right, y],
              ])}
              fill="none"
              stroke={ink.line}
              strokeWidth={LINE.hair}
            />
            <AgeDensity date={date} x={time} y={y} height={densityHeight} />
            <AgeLabel label={labels[i]!} y={y} lines={lines} />
          </g>
        );
      })}
      {column.samples.map((sample, i) => {
        const y = depth(sample.depth_m!.value);
        const label = labelPlaces[i]!;
        const half = ((sample.thickness_m ?? 0) * depth.k) / 2;
        return (
          <g key={sample.row_id}>
            {half > 2 ? (
              <path
                d={vertical(x, y - half, y + half)}
                stroke={ink.ink}
                strokeWidth={LINE.edge}
                fill="none"
              />
            ) : null}
            {Math.abs(label - y) > 1.5 ? (
              <path
                d={polyline([
                  [x + 3.5, y],
                  [x + 8, label],
                ])}
                stroke={ink.line}
                strokeWidth={LINE.hair}
                fill="none"
              />
            ) : null}
            <Lozenge x={x} y={y} filled={sample.dated} size={2.7} />
            <Text x={x + 9} y={label + 2.4}>
              {shortened(sample.sample, labelWidth + 0.5)}
            </Text>
          </g>
        );
      })}
    </g>
  );
}

interface AgeLabelled {
  x: number;
  anchor: 'start' | 'end';
  median: string;
  range: string;
  size: number;
  /** Width of the first line, points. */
  width: number;
  /** Below it: what the laboratory gave, or why it is rejected. */
  under: string[];
  underSize: number;
  room: number;
  rejected: boolean;
  cutOff: boolean;
}

const CUT_OFF_ROOM = 9;

/** Median and 95 % range; below them what the laboratory gave. On the side of the age with more room. */
function ageLabel(
  date: DateResult,
  material: string | null,
  x: Scale,
  left: number,
  right: number,
): AgeLabelled {
  const older = date.sets_95[0]?.older_cal_bp ?? date.median_cal_bp;
  const younger = date.sets_95.at(-1)?.younger_cal_bp ?? date.median_cal_bp;
  const median = years(date.median_cal_bp);
  const range = ` (${yearRange(older, younger)})`;
  const rejected = date.status === 'rejected';
  const cutOff = isTruncated(date);
  // Up to the brackets of the next lane; where the words fit on neither side, they are set smaller.
  const roomRight = right + 6 - x(younger) - 5;
  const roomLeft = x(older) - left - 5;
  const wide = textWidth(median, { weight: 600 }) + textWidth(range) + (cutOff ? CUT_OFF_ROOM : 0);
  const size = wide > Math.max(roomRight, roomLeft) ? SIZE.small : SIZE.text;
  const width = (wide * size) / SIZE.text;
  const toRight = roomRight >= width || roomRight >= roomLeft;
  const room = Math.max(width, toRight ? roomRight : roomLeft);
  const measured = measuredBy(date);
  const plain = rejected
    ? `rejected${date.reason === null ? '' : `: ${date.reason}`}`
    : measuredOn(measured, material, room);
  const small = textWidth(plain) > room;
  const underSize = small ? SIZE.small : SIZE.text;
  return {
    x: toRight ? x(younger) + 5 : x(older) - 5,
    anchor: toRight ? 'start' : 'end',
    median,
    range,
    size,
    width,
    under: small ? wrapped(plain, room, { size: underSize }) : [plain],
    underSize,
    room,
    rejected,
    cutOff,
  };
}

function measuredBy(date: DateResult): string {
  const { value, error, f14c, f14c_sigma, method } = date;
  if (f14c !== null) return `F14C ${printed(f14c, 4)} ± ${printed(f14c_sigma, 4)}`;
  if (isLimit(date)) return `${years(value)} BP, limit`;
  return `${years(value)} ± ${years(error)}${method === 'radiocarbon' ? ' BP' : ''}`;
}

/** "4,780 ± 30 BP, peat": of the material as many words as fit in one line, whole phrases first. */
function measuredOn(measured: string, material: string | null, room: number): string {
  if (material === null || material.trim() === '') return measured;
  const phrase = material.split(/[,;:(]/)[0]!.trim();
  const tries = [material, phrase, phrase.split(/\s+/)[0]!].map((words) => `${measured}, ${words}`);
  return tries.find((text) => textWidth(text, { size: SIZE.small }) <= room) ?? measured;
}

function AgeLabel({ label, y, lines }: { label: AgeLabelled; y: number; lines: number }) {
  const { x, anchor, size, width, under, underSize, room } = label;
  const toRight = anchor === 'start';
  return (
    <g>
      {label.cutOff ? <CautionMark x={toRight ? x + 3.5 : x - width + 3.5} y={y - 2.2} /> : null}
      <Text
        x={label.cutOff && toRight ? x + CUT_OFF_ROOM : x}
        size={size}
        y={lines > 0 ? y - 2.6 : y - 1.4}
        anchor={anchor}
        halo
        voice={label.rejected ? 'ink2' : 'ink'}
        struck={label.rejected}
      >
        <Span weight={600}>{label.median}</Span>
        {label.range}
      </Text>
      {firstLines(under, lines, room, { size: underSize }).map((line, i) => (
        <Text key={line} x={x} y={y + 6.6 + i * LEADING} anchor={anchor} size={underSize} voice="ink2" halo>
          {line}
        </Text>
      ))}
    </g>
  );
}
