/** The leaves that lie below the drawing: the check, the tape, what else may happen, what is wrong. */

import { problemWords, type TypedTables } from '@stillstand/campaign/document';
import {
  dangersOf,
  type HoleState,
  instrumentOffsets,
  offsetWords,
  type SafetyAnswer,
  type SafetyCheck,
} from '@stillstand/campaign/holes';
import type { Problem } from '@stillstand/campaign/problems';
import { capital, isTableName } from '@stillstand/campaign/tables';
import { CAUTIONS, reconcile } from '@stillstand/science/rig';
import { useState } from 'react';
import { DangerPlate, SafetyList } from '../../../holes/index.ts';
import { t, translated } from '../../../language/index.ts';
import { Button, Mark } from '../../../parts/index.ts';
import { useOpenRow } from '../../../shell/index.ts';
import type { BookLine } from '../book/book.ts';
import { worstOf } from '../book/book.tsx';
import type { piecesSoFar } from '../forms/pieces.ts';
import { HAPPENINGS, type Happening } from '../forms/something-else.ts';
import { openSaid } from '../next/safety-first.ts';
import type { Tape } from '../tape/cable.ts';
import { m2, m2Least } from '../tape/lengths.ts';
import { alarmAllowed, allowAlarm, soundAlarm } from './alarm.ts';
import './leaves.css';

/** What of the last run is laid out, and what is left to lay out: none of it must be. */
export function PiecesLaid({ so, onSkip }: { so: ReturnType<typeof piecesSoFar>; onSkip: () => void }) {
  if (so === null) return <p className="reminder">{t`No run has come up yet.`}</p>;
  const end = Math.max(0, ...so.laid.map((p) => p.bottom_m));
  return (
    <div className="pieces-laid">
      <p>
        {so.laid.length === 0
          ? t`${m2(so.recovered_m)} m came up.`
          : t`${so.laid.length} laid out, down to ${m2(end)} of ${m2(so.recovered_m)} m.`}
      </p>
      <Button onClick={onSkip}>{so.laid.length === 0 ? t`Skip` : t`Enough`}</Button>
    </div>
  );
}

/** Where to put the tape on the cable, from the tip up. */
export function TapeTable({ tape }: { tape: readonly Tape[] }) {
  if (tape.length === 0) {
    return (
      <p className="reminder">{t`No run possible: the sediment is within the margin, or has not been sounded.`}</p>
    );
  }
  return (
    <table className="tape">
      <caption>{t`Tape on the cable, from the tip up`}</caption>
      <tbody>
        {tape.map((mark) => (
          <tr key={mark.tip_m} data-is={mark.is}>
            <td>
              <TapeMark is={mark.is} />
            </td>
            <th scope="row">{translated(mark.label)}</th>
            <td>{mark.said}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** As on the cable and in the drawing: sediment one band, between two, stop wide and crossed. */
function TapeMark({ is }: { is: Tape['is'] }) {
  return (
    <svg viewBox="0 0 24 20" width="24" height="20" aria-hidden="true" stroke="currentColor" fill="none">
      <path d="M12 0V20" strokeWidth="1.6" />
      {is === 'stop' ? (
        <>
          <path d="M3 4h18v12H3z" fill="currentColor" stroke="none" />
          <path d="M8 6l8 8m0 -8l-8 8" stroke="var(--paper)" strokeWidth="2" />
        </>
      ) : is === 'sediment' || is === 'full' ? (
        <path d="M4 10h16" strokeWidth="3.2" strokeDasharray={is === 'full' ? '5 3' : undefined} />
      ) : (
        <path d="M4 7.5h16M4 12.5h16" strokeWidth="3" />
      )}
    </svg>
  );
}

const possibleNow = (needs: NonNullable<Happening['needs']>, now: HoleState): boolean =>
  needs === 'string' ? now.string.length > 0 : needs === 'run' ? now.run !== null : now.run !== null;

export function SomethingElse({
  now,
  onHappen,
  onDayEnd,
  onLeave,
}: {
  now: HoleState;
  onHappen: (happening: Happening) => void;
  onDayEnd: () => void;
  onLeave: () => void;
}) {
  const [sound, setSound] = useState(alarmAllowed);
  const possible = HAPPENINGS.filter((h) => h.needs === undefined || possibleNow(h.needs, now));
  return (
    <section className="something" aria-label={t`Other event`}>
      <header>
        <h2>{t`Other event`}</h2>
        <Button kind="bare" mark="cross" aria-label={t`Leave`} onClick={onLeave} />
      </header>
      <ul>
        {possible.map((h) => (
          <li key={h.name}>
            <button type="button" data-form={h.form} onClick={() => onHappen(h)}>
              <strong>{h.name}</strong>
              <span>{h.says}</span>
            </button>
          </li>
        ))}
        <li>
          <button type="button" onClick={onDayEnd}>
            <strong>{t`End of day`}</strong>
            <span>{t`The sheet of the day, to print and sign`}</span>
          </button>
        </li>
        <li>
          <button
            type="button"
            aria-pressed={sound}
            onClick={() => {
              allowAlarm(!sound);
              setSound(!sound);
              if (!sound) soundAlarm();
            }}
          >
            <strong>{sound ? t`Alarm on danger: on` : t`Alarm on danger: off`}</strong>
            <span>{t`Vibrates too, if the device can`}</span>
          </button>
        </li>
      </ul>
    </section>
  );
}

/** Safety questions still open, by name, and what a no that hurts nobody asks for: a press from answering. */
export function Unanswered({ checks, onOpen }: { checks: readonly SafetyCheck[]; onOpen: () => void }) {
  const open = openSaid(checks);
  const cautions = checks.filter((c) => c.state === 'caution');
  if (open === null && cautions.length === 0) return null;
  return (
    <div className="unanswered">
      <button type="button" onClick={onOpen}>
        {cautions.map((c) => (
          <span className="caution" key={c.check}>
            <Mark name="close" size={20} /> {c.hazard}. {c.act}
          </span>
        ))}
        {open === null ? null : (
          <>
            <span className="caution">
              <Mark name="close" size={20} /> {t`Site check: not answered`}
            </span>
            <small>{open}</small>
          </>
        )}
      </button>
    </div>
  );
}

/** The site check whole, in place of the drawing: every question with its answer, who gave it and when. */
export function SiteCheck({
  checks,
  day,
  hole,
  disabled,
  onAnswer,
  onLeave,
}: {
  checks: readonly SafetyCheck[];
  day: string;
  hole: string;
  disabled: boolean;
  onAnswer: (check: SafetyCheck, answer: SafetyAnswer) => void;
  onLeave: () => void;
}) {
  const hazards = dangersOf(checks).map((check) => ({ check }));
  return (
    <section className="site-check" aria-label={t`Site check`}>
      <DangerPlate hazards={hazards} day={day} />
      <header>
        <h2>
          {t`Site check`} <span>{t`each answer keeps its name and time`}</span>
        </h2>
        <Button kind="bare" mark="cross" aria-label={t`Leave: Site check`} onClick={onLeave} />
      </header>
      <SafetyList {...{ checks, day, hole, disabled, onAnswer }} />
      <p className="whole-caution">{translated(CAUTIONS.overhead)}</p>
    </section>
  );
}

/** What nobody has said of the cable or the water before this run: named, never a bar. */
export function RunCautions({ missing }: { missing: readonly string[] }) {
  if (missing.length === 0) return null;
  return (
    <ul className="run-cautions">
      {missing.map((words) => (
        <li key={words} className="caution">
          <Mark name="close" size={18} /> {words}.
        </li>
      ))}
    </ul>
  );
}

/** Instruments that a check found to be off: what is read with them is not corrected. */
export function InstrumentsOff({ now }: { now: HoleState }) {
  const off = instrumentOffsets(now.campaign.rows.instrument_checks).filter((o) => o.isBeyond);
  if (off.length === 0) return null;
  return (
    <ul className="run-cautions">
      {off.map((o) => (
        <li key={o.row_id} className="caution">
          <Mark name="close" size={18} /> {t`${capital(translated(offsetWords(o)))}, not corrected.`}
        </li>
      ))}
    </ul>
  );
}

/** What is wrong or unsafe in the last readings, in words, each a press from its correction. */
export function Troubles({
  lines,
  problems,
  rowsOf,
  onChoose,
}: {
  lines: readonly BookLine[];
  problems: readonly Problem[];
  rowsOf: TypedTables;
  onChoose: (line: BookLine) => void;
}) {
  const recent = lines
    .slice(-6)
    .reverse()
    .flatMap((line) => {
      const worst = worstOf(line);
      return worst === null ? [] : [{ line, worst }];
    })
    .slice(0, 2);
  const disputed = lines.filter((line) => line.state === 'conflict');
  const unread = problems
    .filter((p) => p.severity === 'error' && !disputed.some((line) => line.root_id === p.row_id))
    .slice(0, 1);
  if (recent.length + disputed.length + unread.length === 0) return null;
  return (
    <ul className="troubles">
      {disputed.map((line) => (
        <li key={line.root_id}>
          <button type="button" onClick={() => onChoose(line)}>
            <span className="caution">
              <Mark name="close" size={20} />
              {t`${line.name}: its amendments differ, so it is not used`}
            </span>
            <small>{t`Press here to choose one.`}</small>
          </button>
        </li>
      ))}
      {unread.map((p) => (
        <li key={`${p.row_id}${p.code}`}>
          <Unread problem={p} rowsOf={rowsOf} />
        </li>
      ))}
      {recent.map(({ line, worst }) => (
        <li key={`${line.root_id}${worst.code}`}>
          <button type="button" onClick={() => onChoose(line)}>
            <span className={worst.severity === 'danger' ? 'danger' : 'caution'}>
              <Mark name={worst.severity === 'danger' ? 'stop' : 'close'} size={20} />
              {line.name}: {translated(worst.found)}
            </span>
            <small>
              {worst.code === 'seq-twice'
                ? t`Two devices wrote at once. Press here to say which came first.`
                : t`Expected ${translated(worst.expected)}. ${translated(worst.fix)}`}
            </small>
          </button>
        </li>
      ))}
    </ul>
  );
}

/** What could not be read; pressed it opens the row, where it can be corrected. */
function Unread({ problem, rowsOf }: { problem: Problem; rowsOf: TypedTables }) {
  const openRow = useOpenRow();
  const { place, found, expected, fix } = problemWords(problem, rowsOf);
  const { table, row_id } = problem;
  const said = (
    <>
      <span className="caution">
        <Mark name="close" size={20} />{' '}
        {t`${place}: found ${found === '' ? t`nothing` : `“${found.replace(/^-/, '−')}”`}, expected ${expected}.`}
      </span>
      <small>{fix}</small>
    </>
  );
  return row_id === null || !isTableName(table) ? (
    <p>{said}</p>
  ) : (
    <button type="button" onClick={() => openRow({ table, row_id })}>
      {said}
    </button>
  );
}

/** A string in the ground for good: what is left, by name, how long it is and where it lies. */
export function LostNote({ now }: { now: HoleState }) {
  const { says, in_ground_made_up_m } = reconcile(now.fold.account);
  if (says.length === 0) return null;
  return (
    <div className="lost">
      <strong>{t`Left in the ground: ${m2Least(in_ground_made_up_m)} m of pipe, made up`}</strong>
      <ul>
        {says.map((line) => (
          <li key={line}>{translated(line)}</li>
        ))}
      </ul>
      <p>{t`Readings above this point are used. A replacement hole continues from the same reference.`}</p>
    </div>
  );
}

/** The whole of a caution, beside the numbers it belongs to. */
export function Caution({ of }: { of: keyof typeof CAUTIONS }) {
  return <p className="whole-caution">{translated(CAUTIONS[of])}</p>;
}
