/** The field day: which one, whom to call, its dangers, and the safety questions answered line by line. */
import {
  carriedOver,
  checksOf,
  dangersOf,
  giveAnswer,
  hasEnded,
  openWords,
  sameAsBefore,
} from '@stillstand/campaign/holes';
import { columnName } from '@stillstand/campaign/tables';
import { useState } from 'react';
import { asTyped, CallInPanel, DangerPlate, type Hazard, SafetyList } from '../../../holes/index.ts';
import { Button, ColumnField, Mark } from '../../../parts/index.ts';
import { useOpenRow } from '../../../shell/index.ts';
import { type DocRow, type Store, timeWithOffset, useStore } from '../../../store/index.ts';
import './day.css';

export interface FieldDay {
  day: DocRow | null;
  days: DocRow[];
  /** `2024-03-05`, by this device. */
  today: string;
  choose: (row_id: string) => void;
  /** Shows the day of this date; begins it where there is none. */
  begin: (date: string) => void;
}

/** The day that is planned: the one chosen, else the next, else the last. */
export function useFieldDay(): FieldDay {
  const store = useStore();
  const days = [...store.rows('field_days')].sort((a, b) =>
    (a.cells['date'] ?? '') < (b.cells['date'] ?? '') ? -1 : 1,
  );
  const today = timeWithOffset(new Date()).slice(0, 10);
  const [chosen, choose] = useState<string | null>(null);
  const day =
    days.find((row) => row.row_id === chosen) ??
    days.find((row) => (row.cells['date'] ?? '') >= today) ??
    days.at(-1) ??
    null;
  const begin = (date: string): void =>
    choose(
      days.find((row) => row.cells['date']?.trim() === date)?.row_id ??
        store.addRow('field_days', { date, ...carriedOver(days, date) }),
    );
  return { day, days, today, choose, begin };
}

/** A day is most often planned the evening before. */
export const dayAfter = (date: string): string =>
  new Date(Date.parse(`${date}T12:00:00Z`) + 86_400_000).toISOString().slice(0, 10);

export function WhichDay({ day, days, today, choose, ...field }: FieldDay) {
  const store = useStore();
  const openRow = useOpenRow();
  const [other, setOther] = useState<string | null>(null);
  const dayOf = (date: string): DocRow | undefined => days.find((row) => row.cells['date']?.trim() === date);
  const begin = (date: string): void => {
    setOther(null);
    field.begin(date);
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
          Start today
        </Button>
      )}
      {store.readOnly ? null : other === null ? (
        <Button kind="bare" onClick={() => setOther(dayAfter(today))}>
          Choose date
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
          <Button type="submit">{dayOf(other) === undefined ? 'Start day' : 'Show day'}</Button>
        </form>
      )}
      {day === null ? null : (
        <Button kind="bare" onClick={() => openRow({ table: 'field_days', row_id: day.row_id })}>
          Day details
        </Button>
      )}
    </div>
  );
}

/**
 * The safety questions answered no of every hole that goes on, and of the day: first on the page, until they are answered
 * otherwise. An older day that is shown hides none of today: they are as of today, and are answered there.
 */
export function Dangers({ field, onHole }: { field: FieldDay; onHole: (hole: string) => void }) {
  const store = useStore();
  const shown = field.day?.cells['date']?.trim() ?? '';
  const isPast = shown < field.today;
  const day = isPast ? field.today : shown;
  const holes = goingOn(store);
  const hazards: Hazard[] = [];
  for (const hole of [null, ...holes]) {
    for (const check of dangersOf(checksOf(asTyped(store), day, hole))) {
      if (hazards.some((h) => h.check.given?.row_id === check.given?.row_id)) continue;
      hazards.push({ check, ...(check.of === 'hole' && hole !== null ? { hole } : {}) });
    }
  }
  if (hazards.length === 0) return null;
  return (
    <div className="dangers">
      <DangerPlate
        hazards={hazards}
        day={day}
        {...(store.readOnly
          ? {}
          : {
              onAnswer: ({ check, hole }: Hazard) => {
                if (isPast) field.begin(field.today);
                if (hole !== undefined) onHole(hole);
                requestAnimationFrame(() => showQuestion(check.check));
              },
            })}
      />
    </div>
  );
}

/** Holes that have not ended, as they are labelled. */
const goingOn = (store: Store): string[] =>
  store
    .rows('holes')
    .flatMap(({ cells }) =>
      (cells['hole'] ?? '').trim() === '' || hasEnded(cells['state']?.trim()) ? [] : [cells['hole']!.trim()],
    );

function showQuestion(check: string): void {
  const line = document.querySelector(`.safety-list [data-check="${CSS.escape(check)}"] button`);
  if (line instanceof HTMLElement) {
    line.scrollIntoView({ block: 'center' });
    line.focus();
  }
}

/** The hole whose plan is shown: the one chosen, else the first that has a danger, else the first that goes on. */
export function usePlannedHole(
  field: FieldDay,
  chosen: string | null,
): { hole: string | null; holes: readonly string[]; site: string } {
  const store = useStore();
  const date = field.day?.cells['date']?.trim() ?? '';
  const holes = goingOn(store);
  const hole =
    chosen !== null && holes.includes(chosen)
      ? chosen
      : (holeOfDanger(store, date, holes) ?? holes[0] ?? null);
  return { hole, holes, site: siteOf(store, hole) };
}

/** Where a hole is, as typed: tide and access are of that site. The first site where it names none. */
const siteOf = (store: Store, hole: string | null): string =>
  (hole === null
    ? undefined
    : store
        .rows('holes')
        .find(({ cells }) => cells['hole']?.trim() === hole)
        ?.cells['site']?.trim()) ||
  (store.rows('sites')[0]?.cells['site']?.trim() ?? '');

/** Which of several holes that go on is planned here. */
export function WhichHole({
  hole,
  holes,
  onHole,
}: {
  hole: string | null;
  holes: readonly string[];
  onHole: (hole: string) => void;
}) {
  if (holes.length < 2) return null;
  return (
    <label className="of-hole">
      <span>Hole</span>
      <select
        title="The hole whose depth, height and site questions are shown; each hole has its own answers"
        value={hole ?? ''}
        onChange={(event) => onHole(event.target.value)}
      >
        {holes.map((label) => (
          <option key={label} value={label}>
            {label}
          </option>
        ))}
      </select>
    </label>
  );
}

/** Who goes, whom to call, and how rescuers find the place; carried over from the day before. */
export function People({ day, days }: { day: DocRow; days: readonly DocRow[] }) {
  const store = useStore();
  const same = sameAsBefore(days, day);
  return (
    <section className="day" aria-labelledby="people-title">
      <h2 id="people-title">
        Who <small>carried over from the day before; change what differs</small>
      </h2>
      {same === null ? null : (
        <p className="small">
          As on {same.date}: {same.columns.map((column) => columnName('field_days', column)).join(', ')}.
          Check each.
        </p>
      )}
      <div className="fields">
        {PEOPLE.map((column) => (
          <ColumnField
            key={column}
            table="field_days"
            column={column}
            value={day.cells[column] ?? ''}
            disabled={store.readOnly}
            onCommit={(typed) => store.editRow('field_days', day.row_id, { [column]: typed })}
          />
        ))}
      </div>
      <CallInPanel store={store} />
    </section>
  );
}

const PEOPLE = ['crew', 'emergency_contact', 'emergency_position', 'contacts', 'permits'] as const;

/** What is made sure of before anyone starts: the same questions as at the hole. */
export function Checklist({ day, hole }: { day: DocRow; hole: string | null }) {
  const store = useStore();
  const date = day.cells['date']?.trim() ?? '';
  const checks = date === '' ? [] : checksOf(asTyped(store), date, hole);
  const open = openWords(checks);
  return (
    <section className="day" aria-labelledby="before-title">
      <h2 id="before-title">
        Pre-start checklist
        <small>
          {date === '' ? 'give the day its date first' : open === null ? 'all answered' : 'not all answered'}
        </small>
      </h2>
      {open === null ? null : (
        <p className="still-open">
          <Mark name="close" size={18} /> <span>Not answered: {open}</span>
        </p>
      )}
      {checks.length === 0 ? null : (
        <SafetyList
          {...{ checks, hole }}
          day={date}
          disabled={store.readOnly}
          onAnswer={(check, answer) => giveAnswer(store, check, answer, date, hole)}
        />
      )}
      <p className="quiet small">
        General guidance only; local codes, permits and manuals take precedence. Drill asks the same
        questions. Selecting yes or not needed again withdraws it; a no stays until another answer. Every
        answer is kept.
      </p>
    </section>
  );
}

/** The hole whose no must be answered first, so that its question is in sight. */
const holeOfDanger = (store: Store, day: string, holes: readonly string[]): string | undefined =>
  holes.find((hole) => dangersOf(checksOf(asTyped(store), day, hole)).some((c) => c.of === 'hole'));
