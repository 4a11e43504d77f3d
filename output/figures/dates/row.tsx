/** One date on its line: what was sampled and measured, its density in time, its median and range. */
import {
  AgeDensity,
  CautionMark,
  EDGE_ARROW,
  EdgeArrow,
  firstLines,
  horizontal,
  isMarine,
  LINE,
  type Scale,
  Span,
  shortened,
  Text,
  textWidth,
  useInk,
  wrapped,
} from '@stillstand/output/drawing';
import { printed, statedAge, years } from '@stillstand/output/words';
import { isTruncated, oldestDrawn, youngestDrawn } from '../chronology.ts';
import { calendarOf, type Lanes, type Row } from './lanes.ts';

interface RowProps {
  row: Row;
  /** Base of its density and of its words. */
  y: number;
  lane: Lanes;
  time: Scale;
  /** Of its density at the peak, points. */
  height: number;
  /** Lines that a reason may have. */
  reasonLines: 1 | 2;
  /** Off the end of the axis. */
  isFar: boolean;
}

/** Of two lines of a reason, points. */
const LEADING = 6.8;

export function DateRow({ row, y, lane, time, height, reasonLines, isFar }: RowProps) {
  const ink = useInk();
  const { date } = row;
  const rejected = date.status === 'rejected';
  const voice = rejected ? 'ink2' : 'ink';
  const [measured, error] = statedAge(date);
  const { right } = lane;
  const [left, end] = isFar
    ? farExtent(row, lane, time)
    : [time(oldestDrawn(date)), time(youngestDrawn(date))];
  return (
    <g>
      <path d={horizontal(lane.plot, right, y)} stroke={ink.rule} strokeWidth={LINE.fine} fill="none" />
      {lane.hole === null || row.hole === '' ? null : (
        <Text x={lane.hole} y={y} weight={600}>
          {shortened(row.hole, lane.holeWidth + 0.5, { weight: 600 })}
        </Text>
      )}
      {row.depth_m === null || lane.depth === null ? null : (
        <Text x={lane.depth} y={y} anchor="end" voice="ink2">
          {printed(row.depth_m, 2)}
        </Text>
      )}
      <Text x={lane.sample} y={y}>
        {shortened(date.sample, lane.sampleWidth + 0.5)}
      </Text>
      {lane.lab === null ? null : (
        <Text x={lane.lab} y={y} voice="ink2">
          {shortened(date.lab_code, lane.labWidth + 0.5)}
        </Text>
      )}
      {lane.measured === null ? null : (
        <Text x={lane.measured} y={y} anchor="end" voice={voice} struck={rejected}>
          {measured} <Span voice="ink2">{error}</Span>
        </Text>
      )}
      {isFar ? (
        <FarAge row={row} y={y} lane={lane} time={time} />
      ) : (
        <AgeDensity date={date} x={time} y={y} height={height} />
      )}
      {rejected ? (
        <Reason row={row} y={y} lane={lane} left={left} end={end} reasonLines={reasonLines} />
      ) : null}
      <Text x={lane.median} y={y} anchor="end" weight={600} voice={voice} struck={rejected}>
        {years(date.median_cal_bp)}
      </Text>
      {lane.range === null ? null : (
        <Text x={lane.range} y={y} voice="ink2" struck={rejected}>
          {calendarOf(date)}
        </Text>
      )}
      {isTruncated(date) ? <CautionMark x={right + 5.4} y={y} /> : null}
    </g>
  );
}

const isOlder = ({ date }: Row, time: Scale): boolean => date.median_cal_bp > time.from;

function farExtent(row: Row, lane: Lanes, time: Scale): [number, number] {
  const width = EDGE_ARROW + 6 + textWidth(years(row.date.median_cal_bp));
  return isOlder(row, time) ? [lane.plot, lane.plot + width] : [lane.right - width, lane.right];
}

/** An age that lies beyond the axis: an arrow at its edge, and how old it is. */
function FarAge({ row, y, lane, time }: Pick<RowProps, 'row' | 'y' | 'lane' | 'time'>) {
  const { date } = row;
  const rejected = date.status === 'rejected';
  const voice = isMarine(date) ? 'sea' : 'ink';
  const isLeft = isOlder(row, time);
  const [edge, way] = isLeft ? [lane.plot + 1, 1] : [lane.right - 1, -1];
  return (
    <g>
      <EdgeArrow x={edge} y={y - 2.5} isLeft={isLeft} voice={voice} rejected={rejected} />
      <Text
        x={edge + way * (EDGE_ARROW + 3)}
        y={y}
        anchor={isLeft ? 'start' : 'end'}
        voice={rejected ? 'ink2' : voice}
        struck={rejected}
        halo
      >
        {years(date.median_cal_bp)}
      </Text>
    </g>
  );
}

/** Why a date was rejected, on the side of its density with more room. */
function Reason({
  row: { date },
  y,
  lane,
  left,
  end,
  reasonLines,
}: Pick<RowProps, 'row' | 'y' | 'lane' | 'reasonLines'> & { left: number; end: number }) {
  const words = date.reason === null ? 'rejected' : `rejected: ${date.reason}`;
  const [before, after] = [left - lane.plot - 6, lane.right - end - 6];
  const onLeft = before > after;
  const width = Math.max(before, after);
  const lines = firstLines(wrapped(words, width), reasonLines, width);
  return lines.map((line, i) => (
    <Text
      key={line}
      x={onLeft ? left - 5 : end + 5}
      y={y - (lines.length > 1 ? 1.6 : 0) + (i - (lines.length - 1) / 2) * LEADING}
      anchor={onLeft ? 'end' : 'start'}
      voice="ink2"
      halo
    >
      {line}
    </Text>
  ));
}
