/** High and low waters of the official table, typed or pasted on the page; kept as readings of a gauge that is the table. */

import { useId, useState } from 'react';
import { useComputation } from '../../../../compute/index.ts';
import { dateAt, offsetWords, readTableLines } from '../../../../days/index.ts';
import { Button, counted, signed } from '../../../../parts/index.ts';
import { useStore } from '../../../../store/index.ts';
import { TableFactFields } from './table-facts.tsx';
import { TableGrid } from './table-grid.tsx';
import { clockOf, factsOf, isBlank, replacedWaters, toWrite } from './table-lines.ts';
import { gaugeFor, tableGauges, zeroCells, zeroElevation } from './table-zero.ts';
import { useTableDraft } from './use-table-draft.ts';
import './tide-table.css';

export function TideTable({
  date,
  offset_min,
  site,
  datum,
  isDiurnal,
}: {
  date: string;
  /** Of the campaign's clock, minutes ahead of UTC. */
  offset_min: number;
  site: string;
  /** The campaign datum. */
  datum: string;
  /** One high water a day is usual here. */
  isDiurnal: boolean;
}) {
  const store = useStore();
  const { campaign } = useComputation();
  const book = useTableDraft(store, date, offset_min);
  const { lines } = book;
  const saysId = useId();
  const [recorded, setRecorded] = useState('');
  const facts = factsOf(book.recorded, offsetWords(offset_min), book.draft.facts);
  const clock = clockOf(facts);
  const read = readTableLines(
    lines.map(({ cells }) => cells),
    { date, offset_min: clock ?? offset_min, unit: facts.unit === 'ft' ? 'ft' : 'm', isDiurnal },
  );
  const zero_m = zeroElevation(store, campaign, site, facts, datum);
  const gauge = gaugeFor(store, site, facts, datum);
  const write = toWrite(lines, read, gauge?.gauge ?? '', clock ?? offset_min);
  const replaced = replacedWaters(
    store.rows('gauge_readings'),
    lines,
    write,
    new Set(tableGauges(store, site).map((each) => each.gauge)),
  );
  const count = gauge === null ? 0 : write.added.length + write.amended.length + write.withdrawn.length;
  const unread = new Set(read.says.filter(({ severity }) => severity === 'error').map(({ line }) => line))
    .size;
  const isShown = !store.readOnly || book.recorded.length > 0;

  const record = (): void => {
    if (gauge === null || clock === null) return;
    const isDone = book.record({ ...write, withdrawn: [...write.withdrawn, ...replaced] }, () => {
      const cells = zeroCells(facts, datum);
      if (!gauge.isNew || cells === null) return;
      store.addRow('gauges', {
        gauge: gauge.gauge,
        site,
        datum: cells.datum === 'as stated' ? '' : cells.datum,
        zero_elevation_m: cells.zero,
        note: 'used as the official table: its high and low waters are predicted, not observed',
      });
    });
    const days = read.waters.map(({ time_ms }) => dateAt(time_ms, clock)).sort();
    const span = days[0] === days.at(-1) ? (days[0] ?? date) : `${days[0]} to ${days.at(-1)}`;
    setRecorded(
      isDone ? `Recorded: ${counted(count, 'water')}, ${span}. Earlier entries stay in the record.` : '',
    );
  };

  if (!isShown) return null;
  return (
    <section className="tide-table" aria-labelledby={`${saysId}-title`}>
      <h3 id={`${saysId}-title`}>Official tide table</h3>
      <TableGrid
        lines={lines}
        read={read}
        zero_m={zero_m}
        datum={datum}
        saysId={saysId}
        readOnly={store.readOnly}
        onType={(line, cells) => {
          setRecorded('');
          book.type(line, cells);
        }}
        onPaste={book.paste}
      />
      {store.readOnly || (lines.length === 1 && lines.every(({ cells }) => isBlank(cells))) ? (
        store.readOnly ? null : (
          <p className="quiet small">
            Type or paste times and heights, several days at once. Include the last water of the day before
            and the first of the next.
          </p>
        )
      ) : (
        <>
          <TableFactFields facts={facts} site={site} datum={datum} onFact={book.typeFact} />
          <div className="acts">
            <Button kind="main" disabled={count === 0 || clock === null} onClick={record}>
              Record tide table
            </Button>
            {book.hasTyped ? <Button onClick={book.discard}>Discard changes</Button> : null}
            <p className="says-why" role="status">
              {footWords()}
            </p>
          </div>
        </>
      )}
    </section>
  );

  function footWords(): string {
    if (recorded !== '' && !book.hasTyped) return recorded;
    const kept = unread === 0 ? '' : ` ${counted(unread, 'line')} cannot be read and will stay here.`;
    if (gauge === null)
      return `Choose the zero of the table first. Lines are kept on this device until then.${kept}`;
    if (clock === null) return `Correct the clock of the table first.${kept}`;
    const gone =
      replaced.length === 0
        ? ''
        : ` ${counted(replaced.length, 'earlier water')} in that time will be withdrawn and stay in the record.`;
    const times = `times ${offsetWords(clock).replace('-', '−')}`;
    const from =
      zero_m === null
        ? facts.zero === 'unknown'
          ? 'zero not known: recorded, and not drawn until it is'
          : 'no datum shift leads to the campaign datum: recorded, and not drawn until one does'
        : `zero at ${signed(zero_m, 2)} m`;
    return count === 0
      ? `Nothing to record; ${times}, ${from}.${kept}`
      : `${counted(count, 'water')} to record; ${times}, ${from}.${gone}${kept}`;
  }
}
