/** High and low waters of the official table, typed or pasted on the page; kept as readings of a gauge that is the table. */

import { useId, useRef, useState } from 'react';
import { useComputation } from '../../../../compute/index.ts';
import {
  dateAt,
  offsetWords,
  readTableLines,
  TABLE_ENTRIES,
  type TableEntry,
  tableCellsIn,
} from '../../../../days/index.ts';
import { Button, counted, GridCell, gridMove, Mark, signed } from '../../../../parts/index.ts';
import { useStore } from '../../../../store/index.ts';
import { TableFactFields } from './table-facts.tsx';
import { clockOf, factsOf, isBlank, toWrite } from './table-lines.ts';
import { gaugeFor, zeroCells, zeroElevation } from './table-zero.ts';
import { useTableDraft } from './use-table-draft.ts';
import './tide-table.css';

const HELP: Readonly<Record<TableEntry, string>> = {
  date: 'Year-month-day; empty: that of the line above, or the next day where the time has run back',
  time: 'By the clock of the table, as printed',
  height: 'Above the zero of the table, with ft for feet; HW or LW may follow',
};

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
  const table = useRef<HTMLTableElement>(null);
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
  const count = gauge === null ? 0 : write.added.length + write.amended.length + write.withdrawn.length;
  const unread = new Set(read.says.filter(({ severity }) => severity === 'error').map(({ line }) => line))
    .size;
  const isShown = !store.readOnly || book.recorded.length > 0;

  const record = (): void => {
    if (gauge === null || clock === null) return;
    const isDone = book.record(write, () => {
      const cells = zeroCells(facts, datum);
      if (!gauge.isNew || cells === null) return;
      store.addRow('gauges', {
        gauge: gauge.gauge,
        ...(site === '' ? {} : { site }),
        ...(cells.datum === '' || cells.datum === 'as stated' ? {} : { datum: cells.datum }),
        ...(cells.zero === '' ? {} : { zero_elevation_m: cells.zero }),
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
      <div className="grid-scroll">
        <table ref={table} className="cell-grid">
          <thead>
            <tr>
              {TABLE_ENTRIES.map((entry) => (
                <th key={entry} scope="col" className={entry === 'height' ? 'number' : undefined}>
                  {entry}
                </th>
              ))}
              <th scope="col" className="number">
                m above {datum === '' || datum === 'as stated' ? 'datum' : datum}
              </th>
            </tr>
          </thead>
          <tbody>
            {lines.map((line, i) => {
              const water = read.waters.find((each) => each.line === i);
              const says = read.says.filter((each) => each.line === i);
              return [
                <tr key={line.key} data-state={line.recorded === null ? 'new' : 'written'}>
                  {TABLE_ENTRIES.map((entry) => (
                    <td key={entry} data-entry={entry}>
                      <GridCell
                        name={`${entry} of water ${i + 1}`}
                        help={HELP[entry]}
                        head={entry}
                        value={line.cells[entry]}
                        className={entry === 'height' ? 'number' : undefined}
                        saysId={says.some((each) => each.entry === entry) ? `${saysId}-${i}` : undefined}
                        isWrong={says.some((each) => each.entry === entry && each.severity === 'error')}
                        readOnly={store.readOnly}
                        onType={(text) => {
                          setRecorded('');
                          book.type(line, { [entry]: text });
                        }}
                        onPaste={(text) => {
                          const block = tableCellsIn(text);
                          const isBlock = block.length > 0 && /[\n\t]|\d\s+\d/.test(text.trim());
                          if (isBlock) book.paste(line, block);
                          return isBlock;
                        }}
                        onMove={(...to) => gridMove(table.current, TABLE_ENTRIES.length)(...to)}
                      />
                    </td>
                  ))}
                  <td className="number">
                    {water === undefined
                      ? ''
                      : water.kind === null
                        ? ''
                        : water.kind === 'high'
                          ? 'HW '
                          : 'LW '}
                    {water === undefined || zero_m === null ? '' : signed(water.height_m + zero_m, 2)}
                  </td>
                </tr>,
                says.length === 0 ? null : (
                  <tr key={`${line.key} says`} className="cell-says">
                    <td colSpan={4} id={`${saysId}-${i}`}>
                      {says.map(({ entry, severity, words }) => (
                        <p key={`${entry} ${words}`} data-severity={severity}>
                          <Mark name={severity === 'error' ? 'stop' : 'help'} size={16} />
                          <span>
                            Line {i + 1}, {entry}: {words}
                          </span>
                        </p>
                      ))}
                    </td>
                  </tr>
                ),
              ];
            })}
          </tbody>
        </table>
      </div>
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
    const times = `times ${offsetWords(clock).replace('-', '−')}`;
    const from =
      zero_m === null
        ? facts.zero === 'unknown'
          ? 'zero not known: recorded, and not drawn until it is'
          : 'no datum shift leads to the campaign datum: recorded, and not drawn until one does'
        : `zero at ${signed(zero_m, 2)} m`;
    return count === 0
      ? `Nothing to record; ${times}, ${from}.${kept}`
      : `${counted(count, 'water')} to record; ${times}, ${from}.${kept}`;
  }
}
