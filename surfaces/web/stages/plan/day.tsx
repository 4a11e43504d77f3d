/** The field day: when to leave, whom to call, and the checklist signed line by line. */
import { useState } from 'react';
import { Button, ColumnField, Mark, Plate } from '../../parts/index.ts';
import { useOpenRow } from '../../shell/index.ts';
import { crew, type DocRow, timeWithOffset, useStore } from '../../store/index.ts';
import { signatures, withSignature } from './signed.ts';

/** Usual lines before a day on a beach or marsh; common practice, no source. Local codes and permits come first. */
const LINES: readonly { line: string; why: string }[] = [
  { line: 'permits seen and carried', why: 'land, coast, nature, heritage, services' },
  { line: 'buried services located', why: 'ask the owner; locate before anything is driven' },
  {
    line: 'overhead lines cleared',
    why: 'mast and a pipe held upright stay outside the distance the law asks for',
  },
  { line: 'leave by known to all', why: 'tide, darkness, weather; the earliest counts' },
  {
    line: 'somebody ashore waits for a call',
    why: 'who, at what time, and what they do if it does not come',
  },
  { line: 'way out and place for help known', why: 'position written down as it is told to rescuers' },
  { line: 'nobody works alone', why: 'two at least within sight' },
  { line: 'line, blocks, shackles, anchors looked over', why: 'rated loads marked, competent person' },
  {
    line: 'hands, eyes, ears, head, feet covered',
    why: 'gloves off near a turning vibrator only as its manual says',
  },
  { line: 'first aid and fire extinguisher at hand', why: 'fuel away from the hot engine' },
];

export function Day() {
  const store = useStore();
  const openRow = useOpenRow();
  const days = [...store.rows('days')].sort((a, b) =>
    (a.cells['date'] ?? '') < (b.cells['date'] ?? '') ? -1 : 1,
  );
  const today = timeWithOffset(new Date()).slice(0, 10);
  const [chosen, setChosen] = useState<string | null>(null);
  const day =
    days.find((row) => row.row_id === chosen) ??
    days.find((row) => (row.cells['date'] ?? '') >= today) ??
    days.at(-1) ??
    null;
  const begin = (): void => setChosen(store.addRow('days', { date: today }));
  return (
    <section className="day" aria-labelledby="day-title">
      <h2 id="day-title">The field day</h2>
      <div className="which">
        {days.length === 0 ? null : (
          <label>
            <span className="unseen">Which day</span>
            <select value={day?.row_id ?? ''} onChange={(event) => setChosen(event.target.value)}>
              {days.map((row) => (
                <option key={row.row_id} value={row.row_id}>
                  {row.cells['date'] || 'no date'}
                </option>
              ))}
            </select>
          </label>
        )}
        {store.readOnly || days.some((row) => row.cells['date'] === today) ? null : (
          <Button mark="plus" onClick={begin}>
            Begin today
          </Button>
        )}
        {day === null ? null : (
          <Button kind="bare" onClick={() => openRow({ table: 'days', row_id: day.row_id })}>
            All of this day
          </Button>
        )}
      </div>
      {day === null ? (
        <p className="quiet">A day has its crew, permits, contacts and the time to leave by.</p>
      ) : (
        <DayOf key={day.row_id} day={day} />
      )}
    </section>
  );
}

function DayOf({ day }: { day: DocRow }) {
  const store = useStore();
  const leave = /T(\d\d:\d\d)/.exec(day.cells['leave_by'] ?? '')?.[1] ?? null;
  const note = day.cells['note'] ?? '';
  const done = new Map(signatures(note).map((signature) => [signature.line, signature.by]));
  const set = (cells: Record<string, string>): void => store.editRow('days', day.row_id, cells);
  const sign = (line: string): void => {
    const who = crew().by;
    const at = timeWithOffset(new Date()).slice(11, 16);
    set({ note: withSignature(note, line, done.has(line) ? null : `${who === '' ? 'crew' : who} ${at}`) });
  };
  const open = LINES.filter(({ line }) => !done.has(line)).length;
  return (
    <>
      {leave === null ? (
        <Plate state="caution" word="No time to leave by">
          <p>Find when the tide cuts the way, and when it gets dark; write the earlier.</p>
        </Plate>
      ) : (
        <p className="leave">
          <span className="quiet">Leave by</span> <b>{leave}</b>
          <span className="unit">{day.cells['date']}</span>
        </p>
      )}
      <div className="fields">
        {['leave_by', 'contacts', 'permits', 'crew'].map((column) => (
          <ColumnField
            key={column}
            table="days"
            column={column}
            value={day.cells[column] ?? ''}
            disabled={store.readOnly}
            onCommit={(typed) => set({ [column]: typed })}
          />
        ))}
      </div>
      <h3>Before anyone starts: {open === 0 ? 'all signed' : `${open} of ${LINES.length} to sign`}</h3>
      <ul className="checklist">
        {LINES.map(({ line, why }) => (
          <li key={line}>
            <label>
              <input
                type="checkbox"
                checked={done.has(line)}
                disabled={store.readOnly}
                onChange={() => sign(line)}
              />
              <span className="box">{done.has(line) ? <Mark name="tick" size={20} /> : null}</span>
              <span className="line">
                <b>{line.charAt(0).toUpperCase() + line.slice(1)}</b> <span className="quiet">{why}</span>
              </span>
              <span className="by">{done.get(line) ?? ''}</span>
            </label>
          </li>
        ))}
      </ul>
      <p className="quiet small">
        Usual practice, not a licence: local codes, the permit and the makers’ manuals come first.
      </p>
    </>
  );
}
