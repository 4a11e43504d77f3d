/** When the tide lets the crew on and off: the tide of the chosen day, the access, and the time to leave by. */

import { atMost } from '@stillstand/science/base';
import { formNumber, TIDE_CAUTION } from '@stillstand/science/tide';
import { useState } from 'react';
import { useComputation } from '../../../compute/index.ts';
import {
  campaignOffset,
  type DayTide,
  isoAt,
  leastMargin,
  offsetWords,
  switchedTo,
  type Way,
  WEATHER_SD_M,
  wayIn,
  withWay,
} from '../../../days/index.ts';
import { Button, Mark, Plate, signed } from '../../../parts/index.ts';
import { type DocRow, type Store, useStore } from '../../../store/index.ts';
import { TideTable } from '../tide/table/tide-table.tsx';
import { LeaveByField } from './leave-by-field.tsx';
import { LeaveBy, Spans } from './open-spans.tsx';
import { TidePicture } from './tide-picture.tsx';
import { useDayTide, useSiteTide } from './use-day-tide.ts';
import { USUAL_WAY_MIN, WayFields } from './way-fields.tsx';
import './tide-of-day.css';

/** Form number above which a day may have one high water: mixed, mainly diurnal (Defant 1961; from memory). */
const MAINLY_DIURNAL = 1.5;

export function TideOfDay({
  day,
  days,
  site,
}: {
  day: DocRow;
  days: readonly DocRow[];
  /** Whose tide it is; null where no site is known. */
  site: string | null;
}) {
  const store = useStore();
  const { campaign, results } = useComputation();
  const date = day.cells['date']?.trim() ?? '';
  const offset_min = offsetOf(store, day, days);
  const grounds = (results?.holes ?? []).flatMap(({ hole, ground_elevation_m: ground }) =>
    ground === null ? [] : [{ hole, elevation_m: ground.value }],
  );
  const own = wayIn(day.cells);
  const earlier = own === null ? wayOfEarlierDay(day, days) : null;
  const recorded = own ?? earlier?.way ?? null;
  const datum = results?.datum.label ?? '';
  const tide = useSiteTide(site);
  // Another kind is stated when its level is entered: nothing is put in its place.
  const [kind, setKind] = useState<Way['kind'] | null>(null);
  const way = kind === null || kind === recorded?.kind ? recorded : null;
  const of = useDayTide(tide, date, offset_min, way);
  // What the water may do about its curve on this day, whatever the access.
  const least_m = leastMargin(of?.sd_m ?? WEATHER_SD_M);
  const shown = way ?? switchedTo(kind ?? 'foot', recorded ?? { ...USUAL_WAY, margin_m: least_m });
  const set = (cells: Record<string, string>): boolean => store.editRow('field_days', day.row_id, cells);
  const state = (next: Way): void => {
    setKind(null);
    set({ ...withWay(next) });
  };
  const take = (leave_by_ms: number): void => {
    set({ leave_by: isoAt(leave_by_ms, offset_min), ...(way === null ? {} : withWay(way)) });
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
        {date === '' || campaign === null ? null : (
          <TideTable
            key={date}
            date={date}
            offset_min={offset_min}
            site={site ?? ''}
            datum={datum}
            isDiurnal={tide?.predicted != null && formNumber(tide.predicted.tide.constants) > MAINLY_DIURNAL}
          />
        )}
      </div>
      <div className="leave-side">
        {of === null ? null : way === null ? (
          <NotSet
            kind={shown.kind}
            grounds={grounds}
            {...(store.readOnly ? {} : { onUse: (level_m: number) => state({ ...shown, level_m }) })}
          />
        ) : earlier === null || kind !== null ? null : (
          <Plate state="caution" word={`Access assumed, as on ${earlier.date}`}>
            <p>Check that it still holds on this day, then confirm it.</p>
            {store.readOnly ? null : <Button onClick={() => state(earlier.way)}>Confirm access</Button>}
          </Plate>
        )}
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
          way={shown}
          datum={datum}
          grounds={grounds}
          least_m={least_m}
          readOnly={store.readOnly}
          onKind={setKind}
          onChange={state}
        />
        <LeaveByField
          leaveBy={leaveBy}
          date={date}
          offset_min={offset_min}
          readOnly={store.readOnly}
          onChange={(leave_by) => set({ leave_by })}
        />
      </div>
    </>
  );
}

/** By the day's own hour to leave, else by other days' or the newest reading's, else this device's. */
export function offsetOf(store: Store, day: DocRow, days: readonly DocRow[]): number {
  const times = [day, ...[...days].reverse()].map((row) => row.cells['leave_by'] ?? '');
  for (const table of ['soundings', 'levelling', 'gauge_readings'] as const) {
    times.push(store.rows(table).at(-1)?.cells['time'] ?? '');
  }
  return campaignOffset(times, new Date(`${day.cells['date']}T12:00:00Z`));
}

/** That of the last day that has one, with its date: shown as assumed until it is confirmed. */
function wayOfEarlierDay(day: DocRow, days: readonly DocRow[]): { way: Way; date: string } | null {
  for (const row of [...days].reverse()) {
    if (row.row_id === day.row_id) continue;
    const way = wayIn(row.cells);
    if (way !== null) return { way, date: row.cells['date']?.trim() || 'another day' };
  }
  return null;
}

/** Asked for, never filled in by itself: the lowest ground is offered, with where it comes from. */
function NotSet({
  kind,
  grounds,
  onUse,
}: {
  kind: Way['kind'];
  grounds: readonly { hole: string; elevation_m: number }[];
  onUse?: (level_m: number) => void;
}) {
  if (kind === 'boat')
    return (
      <Plate state="caution" word="Access not set">
        <p>Enter the water level the boat needs: the tide then gives the times it floats.</p>
      </Plate>
    );
  const lowest = grounds.reduce<(typeof grounds)[number] | null>(
    (low, g) => (low === null || g.elevation_m < low.elevation_m ? g : low),
    null,
  );
  const level_m = lowest === null ? null : atMost(lowest.elevation_m, 2);
  return (
    <Plate state="caution" word="Access not set">
      <p>Enter the lowest point of the route: the tide then gives the times it is open.</p>
      {lowest === null || level_m === null ? null : (
        <>
          <p className="proposal">
            <Mark name="assumed" size={18} /> Proposed: {signed(level_m, 2)} m, the ground of hole{' '}
            {lowest.hole}, lowest of {grounds.length} levelled. A channel or crossing on the route may be
            lower and close first.
          </p>
          {onUse === undefined ? null : (
            <Button onClick={() => onUse(level_m)}>Use {signed(level_m, 2)} m</Button>
          )}
        </>
      )}
    </Plate>
  );
}

/** What is usual; the level is a place's own, and the margin that of its tide. */
const USUAL_WAY = { kind: 'foot', level_m: Number.NaN, minutes: USUAL_WAY_MIN } as const;

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

function sourceWords(tide: DayTide, datum: string, offset_min: number): string {
  const zone = `times ${offsetWords(offset_min).replace('-', '−')}`;
  const above = `m above ${datum || 'the datum'}`;
  if (tide.source === 'table') {
    return `Official table (${tide.gauge}), cosine interpolation between high and low waters; ${above}, ${zone}. Between them it may be off by a decimetre.`;
  }
  const unknown = tide.unknown.length === 0 ? '' : ` Not used: ${tide.unknown.join(', ')}.`;
  const isUncertain = tide.sd_m > WEATHER_SD_M;
  return `Predicted from ${tide.constituents} constituents of ${tide.gauge}; ${above}, ${zone}; band ±${leastMargin(tide.sd_m).toFixed(2)} m: 2σ of ${isUncertain ? 'the weather residual, assumed, and of constants and mean level, as stated' : 'the weather residual, assumed'}.${unknown}`;
}
