/** When access is open, in words, and the time to leave by that each span gives. */
import { clockOf } from '@stillstand/campaign/tables';
import { clockAt, type DayTide, dateAt, isoAt, type OpenSpan, type Way } from '../../../days/index.ts';
import { Button, Mark, Plate } from '../../../parts/index.ts';
import { isCutOff } from './leave-by.ts';
import './open-spans.css';

export function LeaveBy({ leaveBy, tide }: { leaveBy: string; tide: DayTide | null }) {
  const clock = clockOf(leaveBy);
  if (clock === '') {
    return (
      <Plate state="caution" word="No leave-by time">
        <p>
          {tide === null
            ? 'Enter the earlier of: route cut off by the tide; dusk.'
            : 'Choose a time below, or enter an earlier one (daylight, weather, transport).'}
        </p>
      </Plate>
    );
  }
  return (
    <>
      <p className="leave">
        <span className="quiet">Leave by</span> <b>{clock}</b>
        <span className="unit">{leaveBy.slice(0, 10)}</span>
      </p>
      {isCutOff(tide, Date.parse(leaveBy)) ? (
        <Plate state="caution" word="Access closed at this time">
          <p>
            Allowing for travel time, the tide closes the route before you are clear. Choose a time below.
          </p>
        </Plate>
      ) : null}
    </>
  );
}

export function Spans({
  tide,
  way,
  date,
  offset_min,
  leaveBy,
  onTake,
}: {
  tide: DayTide;
  way: Way;
  date: string;
  offset_min: number;
  leaveBy: string;
  onTake?: (leave_by_ms: number) => void;
}) {
  const is = way.kind === 'boat' ? 'afloat' : 'dry';
  const clock = (time_ms: number): string => {
    const on = dateAt(time_ms, offset_min);
    return `${clockAt(time_ms, offset_min)}${on === date ? '' : on < date ? ' the day before' : ' the next day'}`;
  };
  if (tide.spans.length === 0) {
    return (
      <Plate state="caution" word={way.kind === 'boat' ? 'Never afloat this day' : 'Never dry this day'}>
        <p>Closed all day with this margin.</p>
      </Plate>
    );
  }
  return (
    <ul className="spans">
      {tide.spans.map((span) => (
        <li key={span.from_ms ?? 0}>
          <p>
            <b>{is}</b> {spanWords(span, clock, tide.source)}
            {span.margin_min === null || span.margin_min === 0 ? null : (
              <span className="quiet"> closes {span.margin_min} min earlier with the margin</span>
            )}
          </p>
          {span.leave_by_ms === null || onTake === undefined ? null : isoAt(span.leave_by_ms, offset_min) ===
            leaveBy ? (
            <p className="taken">
              <Mark name="tick" size={18} /> set
            </p>
          ) : (
            <Button onClick={() => onTake(span.leave_by_ms!)}>Leave by {clock(span.leave_by_ms)}</Button>
          )}
        </li>
      ))}
    </ul>
  );
}

function spanWords(span: OpenSpan, clock: (time_ms: number) => string, source: DayTide['source']): string {
  if (span.from_ms === null && span.to_ms === null) {
    return source === 'table' ? 'to the end of the table' : 'all day: the tide sets no time';
  }
  const until = source === 'table' ? 'to the end of the table' : 'past the next noon';
  if (span.to_ms === null) return `from ${clock(span.from_ms!)}, ${until}`;
  return span.from_ms === null
    ? `until ${clock(span.to_ms)}`
    : `${clock(span.from_ms)} to ${clock(span.to_ms)}`;
}
