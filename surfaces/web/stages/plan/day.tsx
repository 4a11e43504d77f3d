/** The field day: which one, whom to call, and the checklist answered line by line. */
import { useState } from 'react';
import { Button, ColumnField, Mark } from '../../parts/index.ts';
import { useOpenRow } from '../../shell/index.ts';
import { type DocRow, timeWithOffset, useStore } from '../../store/index.ts';
import { answersOf, type CheckAnswer, withoutSignature } from './checks.ts';

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

const ANSWERS: readonly { answer: CheckAnswer; word: string }[] = [
  { answer: 'yes', word: 'yes' },
  { answer: 'no', word: 'no' },
  { answer: 'not_needed', word: 'not needed' },
];

/** The day that is planned: the one chosen, else the next, else the last. */
export function useFieldDay(): { day: DocRow | null; days: DocRow[]; choose: (row_id: string) => void } {
  const store = useStore();
  const days = [...store.rows('days')].sort((a, b) =>
    (a.cells['date'] ?? '') < (b.cells['date'] ?? '') ? -1 : 1,
  );
  const today = timeWithOffset(new Date()).slice(0, 10);
  const [chosen, choose] = useState<string | null>(null);
  const day =
    days.find((row) => row.row_id === chosen) ??
    days.find((row) => (row.cells['date'] ?? '') >= today) ??
    days.at(-1) ??
    null;
  return { day, days, choose };
}

/** A day is most often planned the evening before. */
const dayAfter = (date: string): string =>
  new Date(Date.parse(`${date}T12:00:00Z`) + 86_400_000).toISOString().slice(0, 10);

export function WhichDay({ day, days, choose }: ReturnType<typeof useFieldDay>) {
  const store = useStore();
  const openRow = useOpenRow();
  const today = timeWithOffset(new Date()).slice(0, 10);
  // Crew and contacts are most often those of the day before; a permit is to be seen anew.
  const { crew = '', contacts = '' } = days.at(-1)?.cells ?? {};
  const [other, setOther] = useState<string | null>(null);
  const dayOf = (date: string): DocRow | undefined => days.find((row) => row.cells['date']?.trim() === date);
  const begin = (date: string): void => {
    setOther(null);
    choose(
      dayOf(date)?.row_id ??
        store.addRow('days', {
          date,
          ...(crew === '' ? {} : { crew }),
          ...(contacts === '' ? {} : { contacts }),
        }),
    );
  };
  return (
    <div className="which">
      {days.length === 0 ? null : (
        <label>
          <span className="unseen">Which day</span>
          <select
            title="The day whose tide, people and checks are shown"
            value={day?.row_id ?? ''}
            onChange={(event) => choose(event.target.value)}
          >
            {days.map((row) => (
              <option key={row.row_id} value={row.row_id}>
                {row.cells['date'] || 'no date'}
              </option>
            ))}
          </select>
        </label>
      )}
      {store.readOnly || dayOf(today) !== undefined ? null : (
        <Button mark="plus" onClick={() => begin(today)}>
          Begin today
        </Button>
      )}
      {store.readOnly ? null : other === null ? (
        <Button kind="bare" onClick={() => setOther(dayAfter(today))}>
          Another date
        </Button>
      ) : (
        <form
          onSubmit={(event) => {
            event.preventDefault();
            begin(other);
          }}
        >
          <input
            type="date"
            required
            aria-label="Date of the day"
            value={other}
            onChange={(event) => setOther(event.target.value)}
          />
          <Button type="submit">{dayOf(other) === undefined ? 'Begin this day' : 'Show this day'}</Button>
        </form>
      )}
      {day === null ? null : (
        <Button kind="bare" onClick={() => openRow({ table: 'days', row_id: day.row_id })}>
          All of this day
        </Button>
      )}
    </div>
  );
}

/** Whom to call, and what is made sure of before anyone starts. */
export function BeforeTheDay({ day }: { day: DocRow }) {
  const store = useStore();
  const note = day.cells['note'] ?? '';
  const date = day.cells['date']?.trim() ?? '';
  const answers = answersOf(store.rows('checks'), date, note);
  const set = (cells: Record<string, string>): boolean => store.editRow('days', day.row_id, cells);
  const give = (item: string, answer: CheckAnswer): void => {
    const known = answers.get(item);
    if (known?.row_id === null && known.answer === answer) set({ note: withoutSignature(note, item) });
    else if (known === undefined || known.row_id === null) store.addReading('checks', { date, item, answer });
    else if (known.answer === answer) store.withdraw('checks', known.row_id);
    else store.amend('checks', known.row_id, { answer });
  };
  const open = LINES.filter(({ line }) => (answers.get(line)?.answer ?? 'no') === 'no').length;
  return (
    <section className="day" aria-labelledby="before-title">
      <h2 id="before-title">
        Before anyone starts
        <small>{open === 0 ? 'all answered' : `${open} of ${LINES.length} open`}</small>
      </h2>
      <div className="fields">
        {['contacts', 'permits', 'crew'].map((column) => (
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
      <ul className="checklist">
        {LINES.map(({ line, why }) => {
          const given = answers.get(line);
          const words = line.charAt(0).toUpperCase() + line.slice(1);
          return (
            <li key={line}>
              <p>
                <b>{words}</b> <span className="quiet">{why}</span>
                {given === undefined ? null : <span className="by">{given.by}</span>}
              </p>
              {/* biome-ignore lint/a11y/useSemanticElements: a fieldset cannot stand in the line */}
              <div className="answers" role="group" aria-label={words}>
                {ANSWERS.map(({ answer, word }) => (
                  <button
                    key={answer}
                    type="button"
                    aria-pressed={given?.answer === answer}
                    data-answer={answer}
                    disabled={store.readOnly || date === ''}
                    onClick={() => give(line, answer)}
                  >
                    {given?.answer === answer && answer !== 'not_needed' ? (
                      <Mark name={answer === 'yes' ? 'tick' : 'close'} size={18} />
                    ) : null}
                    {word}
                  </button>
                ))}
              </div>
            </li>
          );
        })}
      </ul>
      <p className="quiet small">
        Usual practice, not a licence: local codes, the permit and the makers’ manuals come first. Answers are
        readings: a second press takes one back, both stay in the record.
      </p>
    </section>
  );
}
