/** High and low waters of the official table, typed or pasted; kept as readings of a gauge that is the table itself. */

import { readingOf } from '@stillstand/campaign/document';
import { TIDE_TABLE_FLAG } from '@stillstand/campaign/steps';
import { useState } from 'react';
import { clockAt, dateAt, isoAt, offsetIn, offsetWords, readTideTable } from '../../../days/index.ts';
import { Field, FormDialog, printed } from '../../../parts/index.ts';
import { type Store, useStore } from '../../../store/index.ts';

/** Label of the gauge that stands for the table. */
const GAUGE = 'Tide table';

export function TideTableEntry({
  date,
  offset_min,
  site,
  datum,
  onClose,
}: {
  date: string;
  offset_min: number;
  site: string;
  datum: string;
  onClose: () => void;
}) {
  const store = useStore();
  const known = store.rows('gauges').find((row) => row.cells['gauge']?.trim() === GAUGE);
  const [text, setText] = useState('');
  const [offset, setOffset] = useState(offsetWords(offset_min));
  const [zero, setZero] = useState(known?.cells['zero_elevation_m'] ?? lowestTide(store));
  const clock = offsetIn(offset);
  const zero_m = /^[+-−]?\d+([.,]\d+)?$/.test(zero.trim())
    ? Number(zero.trim().replace('−', '-').replace(',', '.'))
    : null;
  const read = readTideTable(text, date, clock ?? offset_min);
  const canWrite = read.waters.length > 1 && read.faults.length === 0 && clock !== null && zero_m !== null;
  const write = (): void => {
    if (!canWrite) return;
    if (known === undefined) {
      store.addRow('gauges', {
        gauge: GAUGE,
        ...(site === '' ? {} : { site }),
        ...(datum === '' ? {} : { datum }),
        zero_elevation_m: String(zero_m),
        note: 'used as the official table: its high and low waters are predicted, not observed',
      });
    } else if (known.cells['zero_elevation_m'] !== String(zero_m)) {
      store.editRow('gauges', known.row_id, {
        zero_elevation_m: String(zero_m),
      });
    }
    // What was written for this time before gives way: both stay in the record.
    const [first, last] = [read.waters[0]!.time_ms, read.waters.at(-1)!.time_ms];
    const before = store.rows('gauge_readings');
    for (const { row_id, cells } of before) {
      const time_ms = Date.parse(cells['time'] ?? '');
      const isOld =
        cells['gauge']?.trim() === GAUGE &&
        (cells['amends'] ?? '') === '' &&
        time_ms >= first &&
        time_ms <= last;
      const state = isOld ? readingOf('gauge_readings', before, row_id)?.state : undefined;
      if (state !== undefined && state !== 'withdrawn') store.withdraw('gauge_readings', row_id);
    }
    for (const { time_ms, height_m } of read.waters) {
      store.addReading('gauge_readings', {
        gauge: GAUGE,
        time: isoAt(time_ms, clock),
        height_m: height_m.toFixed(2),
        flag: TIDE_TABLE_FLAG,
        device: 'official table',
      });
    }
    onClose();
  };
  return (
    <FormDialog
      title="Write the official table’s waters"
      action="Write them down"
      isReady={canWrite}
      below={
        canWrite ? (
          <p className="quiet small" role="status">
            {read.waters
              .map(
                ({ time_ms, height_m }) =>
                  `${dateAt(time_ms, clock)} ${clockAt(time_ms, clock)} ${printed(height_m, 2)} m`,
              )
              .join('; ')}
            . Above {datum || 'the datum'}: add {printed(zero_m, 2)} m.
          </p>
        ) : null
      }
      onSubmit={write}
      onClose={onClose}
    >
      <Field
        name="High and low waters"
        help={{
          about: `One a line, in their order: time and height, with a date where it is not ${date}. Take the last water of the day before and the first of the next too: before the first and after the last nothing is known`,
          unit: 'm, or ft where it stands behind the height',
          source: 'The official tables of the nearest port; heights there may differ from yours',
        }}
        fault={text.trim() === '' ? null : (read.faults[0] ?? null)}
      >
        {(input) => (
          <textarea
            {...input}
            className="tide-lines"
            rows={7}
            value={text}
            placeholder={`05:12 0.4\n11:20 2.6\n17:31 0.3\n23:44 2.7`}
            onChange={(event) => setText(event.target.value)}
          />
        )}
      </Field>
      <Field
        name="Zero of the table"
        unit="m"
        help={{
          about: `Where the table’s heights begin, above ${datum || 'the datum of the campaign'}: chart datum, most often near LAT and below mean sea level, so negative`,
          unit: 'm',
          range: '-8 to 0',
          source: 'The table’s own page on levels',
        }}
        fault={zero_m === null && zero !== '' ? 'Write metres, such as -1.60.' : null}
      >
        {(input) => (
          <input
            {...input}
            inputMode="decimal"
            value={zero}
            onChange={(event) => setZero(event.target.value)}
          />
        )}
      </Field>
      <Field
        name="Clock of the table"
        help={{
          about: 'Hours ahead of UTC. Many tables keep standard time through the summer',
          range: '-12:00 to +14:00',
        }}
        fault={clock === null ? 'Write hours and minutes ahead of UTC, such as +08:00.' : null}
      >
        {(input) => <input {...input} value={offset} onChange={(event) => setOffset(event.target.value)} />}
      </Field>
    </FormDialog>
  );
}

/** Chart datum is most often near the lowest astronomical tide: offered, to be checked against the table. */
function lowestTide(store: Store): string {
  const row = store.rows('tide_levels').find((level) => level.cells['level'] === 'LAT');
  return row?.cells['elevation_m'] ?? '';
}
