/** When the tide lets the crew on and off: the tide of the chosen day, the way, and the hour to leave by. */
import { siteTide } from '@stillstand/campaign/steps';
import { TIDE_CAUTION } from '@stillstand/science/tide';
import { useMemo, useState } from 'react';
import { useComputation } from '../../compute/index.ts';
import { Button, Mark, Plate } from '../../parts/index.ts';
import { type DocRow, type Store, useStore } from '../../store/index.ts';
import { campaignOffset, type DayTide, dayTide, isoAt, offsetWords } from './day-tide.ts';
import { LeaveByField } from './leave-by-field.tsx';
import { LeaveBy, Spans } from './open-spans.tsx';
import { TidePicture } from './tide-picture.tsx';
import { TideTableEntry } from './tide-table-entry.tsx';
import { switchedTo, type Way, wayIn, withWay } from './way.ts';
import { LEAST_MARGIN_M, USUAL_WAY_MIN, WayFields } from './way-fields.tsx';

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
  const recorded = wayOf(day, days);
  // Another kind is stated when its level is written; until then what stands in is told apart.
  const [kind, setKind] = useState<Way['kind'] | null>(null);
  const stated = kind === null || kind === recorded?.kind ? recorded : null;
  const shown = stated ?? switchedTo(kind ?? 'foot', recorded ?? USUAL_WAY, lowest);
  const way = Number.isFinite(shown.level_m) ? shown : null;
  const datum = results?.datum.label ?? '';
  const site = campaign?.rows.sites[0]?.site ?? null;
  const tide = useMemo(
    () => (campaign === null ? null : siteTide(campaign, site, datum)),
    [campaign, site, datum],
  );
  const of = tide === null ? null : dayTide(tide, date, offset_min, way);
  const set = (cells: Record<string, string>): boolean => store.editRow('days', day.row_id, cells);
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
        {of === null || stated !== null ? null : (
          <Plate state="caution" word="The way is not stated">
            <p>
              {shown.kind === 'boat'
                ? 'Write below the water the boat needs: the tide then tells when it floats.'
                : way === null
                  ? 'Write its lowest point below: the tide then tells when it is open.'
                  : 'The lowest levelled ground stands in for it. A gut or crossing on the way may lie lower and shut first: level it, and write it below.'}
            </p>
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
          readOnly={store.readOnly}
          onKind={setKind}
          onChange={(next) => {
            setKind(null);
            set({ note: withWay(day.cells['note'] ?? '', next) });
          }}
        />
        <LeaveByField
          leaveBy={leaveBy}
          date={date}
          offset_min={offset_min}
          readOnly={store.readOnly}
          onChange={(leave_by) => set({ leave_by })}
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

/** The day's own, else that of the last day that has one. */
function wayOf(day: DocRow, days: readonly DocRow[]): Way | null {
  for (const row of [day, ...[...days].reverse()]) {
    const way = wayIn(row.cells['note'] ?? '');
    if (way !== null) return way;
  }
  return null;
}

/** Over the lowest ground it stands in, and is said to, until the crew states its way. */
const USUAL_WAY: Way = {
  kind: 'foot',
  level_m: Number.NaN,
  margin_m: LEAST_MARGIN_M,
  minutes: USUAL_WAY_MIN,
};

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
    return `Official table (${tide.gauge}), half a cosine between its waters; ${above}, ${zone}. Between the waters it may be off by a decimetre.`;
  }
  const unknown = tide.unknown.length === 0 ? '' : ` Not used: ${tide.unknown.join(', ')}.`;
  return `Predicted from ${tide.constituents} constituents of ${tide.gauge}; ${above}, ${zone}; band ±${LEAST_MARGIN_M.toFixed(2)} m: 2 sd of weather, assumed.${unknown}`;
}
