/** The run in hand: its cable readings so far, and the field of the next one, open whatever else happens. */

import type { HoleState } from '@stillstand/campaign/holes';
import { parseLength } from '@stillstand/campaign/tables';
import { clearanceOf } from '@stillstand/science/rig';
import { t } from '../../../language/index.ts';
import { Mark } from '../../../parts/index.ts';
import { type BookLine, type CableReading, cableReadings } from '../book/book.ts';
import { type Draft, draftOf } from '../forms/draft.ts';
import { Entry } from '../forms/entry.tsx';
import type { EntryForm } from '../forms/field.ts';
import { m2, m2Most } from '../tape/lengths.ts';
import { RunCautions } from './leaves.tsx';
import './run-in-hand.css';

export function RunInHand({
  now,
  lines,
  cableForm,
  cableDraft,
  kept,
  depth,
  missing,
  onDraft,
  onEnter,
  onAmend,
}: {
  now: HoleState;
  lines: readonly BookLine[];
  cableForm: EntryForm;
  cableDraft: Draft;
  /** Since when what is typed was kept; empty where it was not. */
  kept: string;
  depth: string | null;
  /** What nobody has said of cable and water before this run. */
  missing: readonly string[];
  onDraft: (draft: Draft) => void;
  onEnter: () => void;
  onAmend: (line: BookLine, column?: string) => void;
}) {
  const line = lines.find((l) => l.table === 'runs' && l.versions.some((v) => v.row_id === now.run?.row_id));
  // the field and its keys stay in sight: what is said above them takes the place of the earlier readings
  const rows = Math.max(1, 3 - missing.length - (kept === '' ? 0 : 1));
  return (
    <Entry
      form={cableForm}
      note={[
        ...(depth === null ? [] : [t`in-situ depth ${depth} so far`]),
        ...(kept === '' ? [] : [kept]),
      ].join('; ')}
      draft={cableDraft}
      now={now}
      onDraft={onDraft}
      onEnter={onEnter}
      onLeave={() => onDraft(draftOf(cableForm, now.units))}
      above={
        <>
          <RunCautions missing={missing} />
          {line === undefined ? null : (
            <RunBook
              readings={cableReadings(line).slice(-rows)}
              now={now}
              onAmend={(column) => onAmend(line, column)}
            />
          )}
        </>
      }
    />
  );
}

/** The run in hand: each reading of the cable, its advance, what was left, the strokes. */
function RunBook({
  readings,
  now,
  onAmend,
}: {
  readings: readonly CableReading[];
  now: HoleState;
  onAmend: (column: string) => void;
}) {
  const length = now.fold.collar_to_shoe_m;
  const start = now.run?.start_mark_m ?? null;
  return (
    <table className="run-book">
      <thead>
        <tr>
          <th scope="col">{t`time`}</th>
          <th scope="col">{t`cable`}</th>
          <th scope="col">{t`advance, m`}</th>
          <th scope="col">{t`clearance`}</th>
          <th scope="col">{t`strokes`}</th>
        </tr>
      </thead>
      <tbody>
        {readings.map((r) => {
          const read = parseLength(r.mark);
          const tip = read.ok ? read.metres : null;
          const c =
            tip === null || length === null
              ? null
              : clearanceOf(tip, length, now.fold.joints_in, now.settings);
          return (
            <tr key={r.row_id}>
              <td>{r.clock}</td>
              <td>
                <button
                  type="button"
                  onClick={() => onAmend(r.column)}
                  aria-label={t`Amend the run: ${r.mark}`}
                >
                  {r.instead_of === null ? null : (
                    <>
                      <Mark name="amended" size={15} label={t`amended`} />
                      <s>{short(r.instead_of)}</s>{' '}
                    </>
                  )}
                  {short(r.mark)}
                </button>
              </td>
              <td>{tip === null || start === null ? '' : m2(tip - start)}</td>
              <td>
                {c === null ? (
                  ''
                ) : (
                  <span
                    className={
                      c.verdict === 'clear' ? undefined : c.verdict === 'near stop' ? 'caution' : 'danger'
                    }
                  >
                    {c.verdict === 'clear' ? null : (
                      <Mark name={c.verdict === 'near stop' ? 'close' : 'stop'} size={16} label={c.verdict} />
                    )}
                    <span>{m2Most(c.clearance_m)}</span>
                  </span>
                )}
              </td>
              <td>{r.strokes === '' ? '0' : r.strokes}</td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

/** Metres lose their unit in a column that shows little else; feet keep theirs. */
const short = (typed: string): string => typed.replace(/ m$/, '');
