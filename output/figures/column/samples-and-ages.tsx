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
import { isLimit, printed, statedAge, yearRange, years } from '@stillstand/output/words';
import { isTruncated } from '../chronology.ts';
import { type Column, HEAD } from './lanes.ts';

/** Of one age with one line below it, and of each line more; points. */
const ROW = 20;
const LEADING = 7.4;

/** Where the ages begin, behind the labels of the samples. */
export const agesFrom = ({ lane: { sample, nameWidth } }: Column): number =>
  (nameWidth === 0 ? sample + 4 : sample + 9 + nameWidth) + 12;

/** Lozenges at their depth, labels beside, and a density for every age, moved apart where they would touch. */
export function SamplesAndAges({ column, depth, bottom }: { column: Column; depth: Scale; bottom: number }) {
  const ink = useInk();
  const { sample: x, nameWidth: labelWidth, agesEnd: right } = column.lane;
  const labelPlaces = placeAlong(
    column.samples.map((s) => ({ at: depth(s.depth_m!.value), size: 7.6 })),
    depth(0) - 4,
    bottom + 4,
  );
  const labelEnd = labelWidth === 0 ? x + 4 : x + 9 + labelWidth;
  const left = agesFrom(column);
  const dates = column.dates;
  const inWords = column.lane.ages !== 'densities';
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
      {dates.length === 0 || inWords ? null : (
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
            label={(age) => (age === 0 ? '0' : printed(age / 1000, axis.step * axis.every < 1000 ? 1 : 0))}
            {...axis}
          />
        </>
      )}
      {inWords ? <AgesInWords column={column} depth={depth} from={labelEnd} bottom={bottom} /> : null}
      {(inWords ? [] : dates).map(({ date, depth_m }, i) => {
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
            {labelWidth > 0 && Math.abs(label - y) > 1.5 ? (
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
            {labelWidth === 0 ? null : (
              <Text x={x + 9} y={label + 2.4}>
                {shortened(sample.sample, labelWidth + 0.5)}
              </Text>
            )}
          </g>
        );
      })}
    </g>
  );
}

/** Median and range of every age, or the median alone, where there is no room for a time axis. */
function AgesInWords({
  column,
  depth,
  from,
  bottom,
}: {
  column: Column;
  depth: Scale;
  from: number;
  bottom: number;
}) {
  const ink = useInk();
  const { dates } = column;
  const isWhole = column.lane.ages === 'words';
  const x = from + (isWhole ? 12 : 6);
  const room = bottom + 6 - depth(0);
  const size = isWhole && dates.length * 17 <= room ? 17 : 8.4;
  const places = placeAlong(
    dates.map((d) => ({ at: depth(d.depth_m) + (size - 8.4) / 2, size })),
    depth(0),
    bottom + 6,
  ).map((centre) => centre - (size - 8.4) / 2);
  return (
    <g>
      {dates.length === 0 ? null : (
        <>
          <Text x={x} y={7} weight={600}>
            age
          </Text>
          <Text x={x} y={15.5} voice="ink2">
            cal BP
          </Text>
        </>
      )}
      {dates.map(({ date, depth_m }, i) => {
        const y = places[i]!;
        const rejected = date.status === 'rejected';
        return (
          <g key={date.row_id}>
            <path
              d={polyline([
                [from + 1, depth(depth_m)],
                [from + 4, depth(depth_m)],
                [x - 2, y],
              ])}
              fill="none"
              stroke={ink.line}
              strokeWidth={LINE.hair}
            />
            {isTruncated(date) ? <CautionMark x={x + 26} y={y + 2.4} /> : null}
            <Text x={x} y={y + 2.4} weight={600} voice={rejected ? 'ink2' : 'ink'} struck={rejected}>
              {years(date.median_cal_bp)}
            </Text>
            {size < 17 ? null : (
              <Text x={x} y={y + 10} voice="ink2">
                {rejected ? 'rejected' : ageRange(date)}
              </Text>
            )}
          </g>
        );
      })}
    </g>
  );
}

const ageRange = (date: DateResult): string =>
  `(${yearRange(date.sets_95[0]?.older_cal_bp ?? date.median_cal_bp, date.sets_95.at(-1)?.younger_cal_bp ?? date.median_cal_bp)})`;

interface AgeLabelled {
  x: number;
  anchor: 'start' | 'end';
  median: string;
  range: string;
  /** Width of the first line, points. */
  width: number;
  /** Below it: what the laboratory gave, or why it is rejected. */
  under: string[];
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
  // Up to the brackets of the next lane; where the words fit on neither side, the range stands below the median.
  const roomRight = right + 6 - x(younger) - 5;
  const roomLeft = x(older) - left - 5;
  const wide = textWidth(median, { weight: 600 }) + textWidth(range) + (cutOff ? CUT_OFF_ROOM : 0);
  const isSplit = wide > Math.max(roomRight, roomLeft);
  const width = isSplit ? textWidth(median, { weight: 600 }) : wide;
  const widest = isSplit ? Math.max(width, textWidth(range.trim())) : width;
  const toRight = roomRight >= widest || roomRight >= roomLeft;
  const room = Math.max(width, toRight ? roomRight : roomLeft);
  const measured = measuredBy(date);
  const plain = rejected
    ? `rejected${date.reason === null ? '' : `: ${date.reason}`}`
    : measuredOn(measured, material, room);
  const under = textWidth(plain) > room ? wrapped(plain, room) : [plain];
  return {
    x: toRight ? x(younger) + 5 : x(older) - 5,
    anchor: toRight ? 'start' : 'end',
    median,
    range: isSplit ? '' : range,
    width,
    under: isSplit ? [range.trim(), ...under] : under,
    room,
    rejected,
    cutOff,
  };
}

function measuredBy(date: DateResult): string {
  const { value, f14c, method, counts_from_ce } = date;
  const [stated, error] = statedAge(date);
  if (f14c === null && isLimit(date)) return `${years(value)} BP, limit`;
  const zero = f14c !== null ? '' : method === 'radiocarbon' ? 'BP' : `before ${counts_from_ce}`;
  return [stated, error, zero].filter((part) => part !== '').join(' ');
}

/** "4,780 ± 30 BP, peat": of the material as many words as fit in one line, whole phrases first. */
function measuredOn(measured: string, material: string | null, room: number): string {
  if (material === null || material.trim() === '') return measured;
  const phrase = material.split(/[,;:(]/)[0]!.trim();
  const tries = [material, phrase, phrase.split(/\s+/)[0]!].map((words) => `${measured}, ${words}`);
  return tries.find((text) => textWidth(text) <= room) ?? measured;
}

function AgeLabel({ label, y, lines }: { label: AgeLabelled; y: number; lines: number }) {
  const { x, anchor, width, under, room } = label;
  const toRight = anchor === 'start';
  return (
    <g>
      {label.cutOff ? <CautionMark x={toRight ? x + 3.5 : x - width + 3.5} y={y - 2.2} /> : null}
      <Text
        x={label.cutOff && toRight ? x + CUT_OFF_ROOM : x}
        y={lines > 0 ? y - 2.6 : y - 1.4}
        anchor={anchor}
        halo
        voice={label.rejected ? 'ink2' : 'ink'}
        struck={label.rejected}
      >
        <Span weight={600}>{label.median}</Span>
        {label.range}
      </Text>
      {firstLines(under, lines, room).map((line, i) => (
        <Text key={line} x={x} y={y + 6.6 + i * LEADING} anchor={anchor} voice="ink2" halo>
          {line}
        </Text>
      ))}
    </g>
  );
}
