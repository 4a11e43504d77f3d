/** When the tide lets the crew on and off: the tide of the chosen day, the way, and the hour to leave by. */
import { siteTide } from '@stillstand/campaign/steps';
import { TIDE_CAUTION } from '@stillstand/science/tide';
import { useMemo, useState } from 'react';
import { useComputation } from '../../compute/index.ts';
import { Button, ColumnField, Field, Mark, Plate, signed } from '../../parts/index.ts';
import { type DocRow, type Store, useStore } from '../../store/index.ts';
import {
  campaignOffset,
  clockAt,
  type DayTide,
  dateAt,
  dayTide,
  isoAt,
  type OpenSpan,
  offsetWords,
  WEATHER_SD_M,
} from './day-tide.ts';
import { TidePicture } from './tide-picture.tsx';
import { TideTableEntry } from './tide-table-entry.tsx';
import { type Way, wayIn, withWay } from './way.ts';

const LEAST_MARGIN_M = 2 * WEATHER_SD_M;
/** Minutes; common practice, no source. */
const USUAL_WAY_MIN = 30;

export function TideOfDay({ day, days }: { day: DocRow; days: readonly DocRow[] }) {
  const store = useStore();
  const { campaign, results } = useComputation();
  const [isEntering, setEntering] = useState(false);
  const date = day.cells['date']?.trim() ?? '';
  const offset_min = offsetOf(store, day, days);
  const grounds = (results?.holes ?? []).flatMap(({ hole, ground_elevation_m: ground }) =>
    ground === null ? [] : [{ hole, elevation_m: ground.value }],
  );
  const lowest = grounds.reduce<number | null>(
    (low, g) => Math.min(low ?? g.elevation_m, g.elevation_m),
    null,
  );
  const way = wayOf(day, days, lowest);
  const datum = results?.datum.label ?? '';
  const site = campaign?.rows.sites[0]?.site ?? null;
  const tide = useMemo(
    () => (campaign === null ? null : siteTide(campaign, site, datum)),
    [campaign, site, datum],
  );
  const of = tide === null ? null : dayTide(tide, date, offset_min, way);
  const set = (cells: Record<string, string>): void => store.editRow('days', day.row_id, cells);
  const take = (leave_by_ms: number): void => {
    const note = day.cells['note'] ?? '';
    set({ leave_by: isoAt(leave_by_ms, offset_min), ...(way === null ? {} : { note: withWay(note, way) }) });
  };
  const leaveBy = day.cells['leave_by'] ?? '';

  return (
    <>
      <div className="leave-now">
        <LeaveBy leaveBy={leaveBy} tide={of} />
      </div>
      <div className="tide-side">
        {of === null || campaign === null ? (
          <NoTide needs={tide?.needs ?? []} hasDate={date !== ''} isReady={campaign !== null} />
        ) : (
          <TidePicture
            tide={of}
            grounds={grounds}
            way={way}
            datum={datum}
            offset_min={offset_min}
            leave_by_ms={Number.isFinite(Date.parse(leaveBy)) ? Date.parse(leaveBy) : null}
          />
        )}
        {of === null ? null : <p className="quiet small">{sourceWords(of, datum, offset_min)}</p>}
        <p className="tide-caution">
          <Mark name="close" size={18} /> <span>{TIDE_CAUTION}</span>
        </p>
        {store.readOnly || date === '' ? null : (
          <Button mark="plus" onClick={() => setEntering(true)}>
            Write the official table’s waters
          </Button>
        )}
      </div>
      <div className="leave-side">
        {of === null || way === null ? null : (
          <Spans
            tide={of}
            way={way}
            date={date}
            offset_min={offset_min}
            leaveBy={leaveBy}
            {...(store.readOnly ? {} : { onTake: take })}
          />
        )}
        <WayFields
          key={day.row_id}
          way={way}
          datum={datum}
          grounds={grounds}
          readOnly={store.readOnly}
          onChange={(next) => set({ note: withWay(day.cells['note'] ?? '', next) })}
        />
        <ColumnField
          table="days"
          column="leave_by"
          value={leaveBy}
          disabled={store.readOnly}
          onCommit={(typed) => set({ leave_by: typed })}
        />
      </div>
      {isEntering ? (
        <TideTableEntry
          date={date}
          offset_min={offset_min}
          site={site ?? ''}
          datum={datum}
          onClose={() => setEntering(false)}
        />
      ) : null}
    </>
  );
}

/** By the day's own hour to leave, else by other days' or the newest reading's, else this device's. */
function offsetOf(store: Store, day: DocRow, days: readonly DocRow[]): number {
  const times = [day, ...[...days].reverse()].map((row) => row.cells['leave_by'] ?? '');
  for (const table of ['soundings', 'levelling', 'gauge_readings'] as const) {
    times.push(store.rows(table).at(-1)?.cells['time'] ?? '');
  }
  return campaignOffset(times, new Date(`${day.cells['date']}T12:00:00Z`));
}

/** The day's own, else that of the last day that has one, else on foot over the lowest ground that is levelled. */
function wayOf(day: DocRow, days: readonly DocRow[], lowest_m: number | null): Way | null {
  for (const row of [day, ...[...days].reverse()]) {
    const way = wayIn(row.cells['note'] ?? '');
    if (way !== null) return way;
  }
  return lowest_m === null
    ? null
    : {
        kind: 'foot',
        level_m: Math.round(lowest_m * 100) / 100,
        margin_m: LEAST_MARGIN_M,
        minutes: USUAL_WAY_MIN,
      };
}

function NoTide({
  needs,
  hasDate,
  isReady,
}: {
  needs: readonly string[];
  hasDate: boolean;
  isReady: boolean;
}) {
  return (
    <div className="map-empty">
      <p>
        {!isReady
          ? 'Reading the campaign…'
          : !hasDate
            ? 'Give the day its date: its tide is drawn here.'
            : `The tide of the day is drawn here. Needed: ${needs.join('; ')}; or the high and low waters of the official table.`}
      </p>
    </div>
  );
}

function LeaveBy({ leaveBy, tide }: { leaveBy: string; tide: DayTide | null }) {
  const clock = /T(\d\d:\d\d)/.exec(leaveBy)?.[1] ?? null;
  if (clock === null) {
    return (
      <Plate state="caution" word="No hour to leave by">
        <p>
          {tide === null
            ? 'Find when the tide cuts the way, and when it gets dark; write the earlier.'
            : 'Take one from the tide below, or write an earlier one: darkness, weather, a lift.'}
        </p>
      </Plate>
    );
  }
  const moment = Date.parse(leaveBy);
  const isCut =
    tide !== null && tide.limit_m !== null && moment >= tide.from_ms && moment < tide.to_ms
      ? !tide.spans.some(
          (span) =>
            (span.from_ms ?? -Infinity) <= moment && moment <= (span.leave_by_ms ?? span.to_ms ?? Infinity),
        )
      : false;
  return (
    <>
      <p className="leave">
        <span className="quiet">Leave by</span> <b>{clock}</b>
        <span className="unit">{leaveBy.slice(0, 10)}</span>
      </p>
      {isCut ? (
        <Plate state="caution" word="Not a time the way is open">
          <p>At this hour, with the time the way takes, the tide shuts it. Take an hour from below.</p>
        </Plate>
      ) : null}
    </>
  );
}

function Spans({
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
        <p>The way stays shut with this margin.</p>
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
              <span className="quiet"> the margin closes it {span.margin_min} min early</span>
            )}
          </p>
          {span.leave_by_ms === null || onTake === undefined ? null : isoAt(span.leave_by_ms, offset_min) ===
            leaveBy ? (
            <p className="taken">
              <Mark name="tick" size={18} /> taken
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
    return source === 'table' ? 'as far as the table tells' : 'all day: the tide sets no hour';
  }
  const until = source === 'table' ? 'as far as the table tells' : 'past the next noon';
  if (span.to_ms === null) return `from ${clock(span.from_ms!)}, ${until}`;
  return span.from_ms === null
    ? `until ${clock(span.to_ms)}`
    : `${clock(span.from_ms)} to ${clock(span.to_ms)}`;
}

function WayFields({
  way,
  datum,
  grounds,
  readOnly,
  onChange,
}: {
  way: Way | null;
  datum: string;
  grounds: readonly { hole: string; elevation_m: number }[];
  readOnly: boolean;
  onChange: (way: Way) => void;
}) {
  const base: Way = way ?? {
    kind: 'foot',
    level_m: Number.NaN,
    margin_m: LEAST_MARGIN_M,
    minutes: USUAL_WAY_MIN,
  };
  const [typed, setTyped] = useState<Readonly<Record<string, string>>>({});
  const shown = {
    level: typed['level'] ?? (Number.isFinite(base.level_m) ? base.level_m.toFixed(2) : ''),
    margin: typed['margin'] ?? base.margin_m.toFixed(2),
    minutes: typed['minutes'] ?? String(base.minutes),
  };
  const value = (text: string): number | null =>
    /^[+-]?\d+(\.\d+)?$/.test(plain(text)) ? Number(plain(text)) : null;
  const parts = {
    level: { low: -20, high: 20, fault: 'Write metres above the datum, such as 0.40 or -0.25.' },
    margin: { low: 0, high: 5, fault: 'Write metres, such as 0.30.' },
    minutes: { low: 0, high: 600, fault: 'Write minutes, such as 30.' },
  };
  const isRight = (name: keyof typeof parts): boolean => {
    const found = value(shown[name]);
    return found !== null && found >= parts[name].low && found <= parts[name].high;
  };
  const commit = (part: Partial<Way>): void => {
    const next = { ...base, ...part };
    if (Number.isFinite(next.level_m)) onChange(next);
  };
  const entry = (name: keyof typeof parts, write: (found: number) => Partial<Way>) => ({
    value: shown[name],
    disabled: readOnly,
    inputMode: 'decimal' as const,
    autoComplete: 'off',
    onChange: (event: { target: { value: string } }) =>
      setTyped((before) => ({ ...before, [name]: event.target.value })),
    onBlur: () => {
      if (typed[name] === undefined || !isRight(name)) return;
      const found = value(shown[name])!;
      setTyped(({ [name]: _, ...rest }) => rest);
      commit(write(found));
    },
    onKeyDown: (event: { key: string; currentTarget: HTMLInputElement }) => {
      if (event.key === 'Enter') event.currentTarget.blur();
    },
  });
  const fault = (name: keyof typeof parts): string | null =>
    shown[name] !== '' && !isRight(name) ? parts[name].fault : null;
  const isBoat = base.kind === 'boat';
  return (
    <div className="fields way">
      <Field
        name="The way"
        help={{
          about:
            'On foot the way is open while the water stands below its lowest point; by boat while it stands above what the boat needs',
        }}
      >
        {(input) => (
          <select
            {...input}
            value={base.kind}
            disabled={readOnly}
            onChange={(event) => commit({ kind: event.target.value === 'boat' ? 'boat' : 'foot' })}
          >
            <option value="foot">on foot</option>
            <option value="boat">by boat</option>
          </select>
        )}
      </Field>
      <Field
        name={isBoat ? 'Water at least' : 'Lowest point'}
        unit="m"
        fault={fault('level')}
        help={{
          about: isBoat
            ? `Level the water must reach: the highest ground the boat passes and its draught, above ${datum || 'the datum'}`
            : `Lowest point of the way, a gut or a crossing, or the lowest ground worked on, above ${datum || 'the datum'}; level it like a hole. At first the lowest levelled ground`,
          unit: 'm',
          ...(grounds.length === 0
            ? {}
            : { range: grounds.map((g) => `${g.hole} ${signed(g.elevation_m, 2)}`).join(', ') }),
        }}
      >
        {(input) => <input {...input} {...entry('level', (level_m) => ({ level_m }))} />}
      </Field>
      <Field
        name="Margin"
        unit="m"
        fault={
          fault('margin') ??
          (base.margin_m < LEAST_MARGIN_M
            ? `Below ${LEAST_MARGIN_M.toFixed(2)} m the usual weather alone may shut the way.`
            : null)
        }
        help={{
          about: 'Water kept off the way. At least 2 sd of what the water does beside its prediction',
          unit: 'm',
          range: `${LEAST_MARGIN_M.toFixed(2)} and more on an open coast in quiet weather`,
          source: 'Common practice, no source; compare your own gauge readings with the prediction',
        }}
      >
        {(input) => <input {...input} {...entry('margin', (margin_m) => ({ margin_m }))} />}
      </Field>
      <Field
        name="The way takes"
        unit="min"
        fault={fault('minutes')}
        help={{
          about: 'From the last tool packed to beyond the lowest point, with everything carried',
          unit: 'min',
          range: '15 to 90',
        }}
      >
        {(input) => (
          <input {...input} {...entry('minutes', (minutes) => ({ minutes: Math.round(minutes) }))} />
        )}
      </Field>
    </div>
  );
}

const plain = (text: string): string => text.trim().replace('−', '-').replace(',', '.');

function sourceWords(tide: DayTide, datum: string, offset_min: number): string {
  const zone = `times ${offsetWords(offset_min).replace('-', '−')}`;
  const above = `m above ${datum || 'the datum'}`;
  if (tide.source === 'table') {
    return `Official table (${tide.gauge}), half a cosine between its waters; ${above}, ${zone}. Between the waters it may be off by a decimetre.`;
  }
  const unknown = tide.unknown.length === 0 ? '' : ` Not used: ${tide.unknown.join(', ')}.`;
  return `Predicted from ${tide.constituents} constituents of ${tide.gauge}; ${above}, ${zone}; band ±${LEAST_MARGIN_M.toFixed(2)} m: 2 sd of weather, assumed.${unknown}`;
}
