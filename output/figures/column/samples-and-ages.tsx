import type { DateResult } from '@stillstand/campaign/results';
import { isTruncated } from '../chronology.ts';
import { LINE, useInk } from '../parts/ink.ts';
import { CautionMark, Lozenge } from '../parts/marks.tsx';
import { plain, year, yearRange } from '../parts/number.ts';
import { polyline, vertical } from '../parts/path.ts';
import { placeAlong } from '../parts/place.ts';
import { multiples, type Scale, scale } from '../parts/scale.ts';
import { Sets, Silhouette } from '../parts/silhouette.tsx';
import { LyingStaff, Ruling, staffStep } from '../parts/staff.tsx';
import { SIZE, Span, shortened, Text, textWidth } from '../parts/text.tsx';
import { type Column, HEAD, LANE } from './lanes.ts';

/** Lozenges at their depth, labels beside, and a silhouette for every age, moved apart where they would touch. */
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
  const labelWidth = Math.min(48, Math.max(0, ...column.samples.map((s) => textWidth(s.sample))));
  const labelPlaces = placeAlong(
    column.samples.map((s) => ({ at: depth(s.depth_m!.value), size: 7.6 })),
    depth(0) - 4,
    bottom + 4,
  );
  const labelEnd = x + 9 + labelWidth;
  const left = labelEnd + 12;
  const dates = column.dates;
  const oldest = Math.max(1000, ...dates.map((d) => d.date.sets_95[0]?.older_cal_bp ?? d.date.median_cal_bp));
  const youngest = Math.min(
    0,
    ...dates.map((d) => d.date.sets_95.at(-1)?.younger_cal_bp ?? d.date.median_cal_bp),
  );
  const axis = staffStep((right - left) / (oldest - youngest), 10, 20);
  const from = Math.ceil((oldest * 1.01) / (axis.step / 2)) * (axis.step / 2);
  const years = scale(from, youngest, left, right);
  const two = dates.length * 20 <= bottom - depth(0) + 10;
  const rowHeight = two ? 20 : Math.min(11, (bottom - depth(0) + 10) / Math.max(1, dates.length));
  const rowPlaces = placeAlong(
    // A row reaches farther up (the silhouette) than down.
    dates.map((d) => ({ at: depth(d.depth_m) - rowHeight * 0.12, size: rowHeight })),
    // The first row stays clear of the time staff.
    depth(0) + (two ? 13 : 9) - rowHeight * 0.62,
    bottom + 6,
  ).map((centre) => centre + rowHeight * 0.12);
  const silhouetteHeight = two ? 11 : rowHeight - 3;
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
            d={(age) => vertical(years(age), depth(0), bottom)}
          />
          <LyingStaff
            y={HEAD - 3.4}
            scale={years}
            low={youngest}
            high={from}
            labels="above"
            label={(age) => plain(age / 1000, axis.step * axis.every < 1000 ? 1 : 0)}
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
            <Silhouette date={date} x={years} y={y} height={silhouetteHeight} />
            <Sets date={date} x={years} y={y + 2} />
            <AgeLabel date={date} x={years} y={y} left={left} right={right} two={two} />
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

/** Median and 95 % range; below it, where there is room, what the laboratory gave. On the side with more room. */
function AgeLabel({
  date,
  x,
  y,
  left,
  right,
  two,
}: {
  date: DateResult;
  x: Scale;
  y: number;
  left: number;
  right: number;
  two: boolean;
}) {
  const older = date.sets_95[0]?.older_cal_bp ?? date.median_cal_bp;
  const younger = date.sets_95.at(-1)?.younger_cal_bp ?? date.median_cal_bp;
  const median = year(date.median_cal_bp);
  const range = ` (${yearRange(older, younger)})`;
  const rejected = date.status === 'rejected';
  const measured = `${year(date.value)} ± ${year(date.error)}${date.method === 'radiocarbon' ? ' BP' : ''}${date.material === null ? '' : `, ${date.material}`}`;
  const under = rejected ? `rejected${date.reason === null ? '' : `: ${date.reason}`}` : measured;
  const mark = isTruncated(date) ? 9 : 0;
  // Up to the brackets of the next lane; where the words fit on neither side, they are set smaller.
  const roomRight = right + 6 - x(younger) - 5;
  const roomLeft = x(older) - left - 5;
  const wide = textWidth(median, { weight: 600 }) + textWidth(range) + mark;
  const size = wide > Math.max(roomRight, roomLeft) ? SIZE.small : SIZE.text;
  const above = (wide * size) / SIZE.text;
  const toRight = roomRight >= above || roomRight >= roomLeft;
  const at = toRight ? x(younger) + 5 : x(older) - 5;
  const anchor = toRight ? 'start' : 'end';
  const room = Math.max(above, toRight ? roomRight : roomLeft);
  const small = textWidth(under) > room;
  return (
    <g>
      {mark > 0 ? <CautionMark x={toRight ? at + 3.5 : at - above + 3.5} y={y - 2.2} /> : null}
      <Text
        x={toRight ? at + mark : at}
        size={size}
        y={two ? y - 2.6 : y - 1.4}
        anchor={anchor}
        halo
        voice={rejected ? 'ink2' : 'ink'}
        struck={rejected}
      >
        <Span weight={600}>{median}</Span>
        {range}
      </Text>
      {two ? (
        <Text x={at} y={y + 6.6} anchor={anchor} size={small ? SIZE.small : SIZE.text} voice="ink2" halo>
          {small ? shortened(under, room, { size: SIZE.small }) : under}
        </Text>
      ) : null}
    </g>
  );
}
