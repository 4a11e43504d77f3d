/** Nothing is open and no run in hand: the log, and beside it what is wrong and what else may come next. */

import { emergencyAt, type HoleRead } from '@stillstand/campaign/holes';
import { t } from '../../../language/index.ts';
import { Mark } from '../../../parts/index.ts';
import { AheadList } from '../ahead/ahead-list.tsx';
import { Book } from '../book/book.tsx';
import { MARK_OF, OR_WORDS } from '../next/action-words.ts';
import type { Opened } from '../opened.ts';
import type { Shown } from '../shown.ts';
import type { DrillStore } from '../tape/decimal-points.ts';
import { EmergencyPlate } from './emergency-plate.tsx';
import { Unconfirmed } from './hand-over.tsx';
import { Caution, InstrumentsOff, LostNote, TapeTable, Troubles, Unanswered } from './leaves.tsx';
import { PlannedHere } from './planned-here.tsx';
import '../forms/choices.css';

export function Idle({
  store,
  now,
  shown: { lines, log, next, tape, checks, ahead, contradictions, byString },
  opened: { choose, confirm, press, openCheck, order, say },
  day,
}: {
  store: DrillStore;
  now: HoleRead;
  shown: Shown;
  opened: Opened;
  /** Today, `2024-03-05`. */
  day: string;
}) {
  const isMarking = next.name === 'mark' || next.name === 'run';
  return (
    <>
      <Book
        log={log}
        chosen={null}
        store={store}
        onChoose={choose}
        onMove={store.readOnly ? undefined : order}
        title={t`Field log`}
        note={lines.length > 4 ? t`${lines.length} readings` : ''}
      />
      <div className="pad aside">
        {store.readOnly ? null : <Unconfirmed lines={lines} onConfirm={confirm} />}
        {isHurt(lines, day) ? (
          <EmergencyPlate emergency={emergencyAt(store, day, now.row, now.campaign.rows.sites)} />
        ) : null}
        <PlannedHere {...{ store, now }} onSaid={say} />
        <LostNote now={now} />
        <InstrumentsOff now={now} />
        <Troubles lines={lines} problems={now.problems} rowsOf={store.rows} onChoose={choose} />
        {isMarking ? <TapeTable tape={tape} /> : null}
        {next.or.length === 0 || store.readOnly || isMarking ? null : (
          <fieldset className="choices">
            <legend>
              {next.held === null ? 'or' : t`held by the danger; what happened can be recorded`}
            </legend>
            {next.or.map((name, i) => (
              <button key={name} type="button" data-held={next.held !== null} onClick={() => press(name)}>
                <Mark name={MARK_OF[name]} size={20} />
                {i === 0 && next.held !== null ? next.held : (OR_WORDS[name] ?? name)}
              </button>
            ))}
          </fieldset>
        )}
        {now.ended || store.readOnly ? null : <Unanswered checks={checks} onOpen={openCheck} />}
        {next.name === 'pull' ? <Caution of="line_pull" /> : null}
      </div>
      <AheadList {...{ ahead, contradictions, byString }} unit={now.units.tape} />
    </>
  );
}

/** Somebody was hurt today: whom to call stays on the screen. */
const isHurt = (lines: Shown['lines'], day: string): boolean =>
  lines.some(
    (line) =>
      line.table === 'events' &&
      line.state !== 'withdrawn' &&
      line.versions.at(-1)?.cells['kind'] === 'injury' &&
      line.time.startsWith(day),
  );
