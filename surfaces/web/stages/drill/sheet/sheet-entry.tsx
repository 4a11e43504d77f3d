/** Typing in a paper sheet: a table filled by keyboard alone, Enter to the next cell, recorded all at once in its order. */

import { useMemo, useRef, useState } from 'react';
import { t } from '../../../language/index.ts';
import { Button, Mark, useUnsaved } from '../../../parts/index.ts';
import type { DraftPlace, Drafts } from '../../../store/index.ts';
import { keptWords } from '../forms/kept.ts';
import type { DrillStore } from '../tape/decimal-points.ts';
import { EMPTY_LINE, faultOf, isEmpty, kindOf, readingsOf, SHEET_KINDS, type SheetLine } from './sheet.ts';
import { unitsMeant } from './sheet-units.ts';
import './sheet-entry.css';

interface SheetEntryProps {
  store: DrillStore;
  hole: string;
  unit: string;
  /** Today and the offset of the device's clock, for times written as a clock alone. */
  day: string;
  offset: string;
  /** By a string of pipe, or by pushes. */
  byString: boolean;
  /** Half-filled forms of this campaign; now, ISO 8601 with offset. */
  drafts: Drafts;
  time: () => string;
  onDone: (recorded: number) => void;
}

/** A sheet as it is begun. */
const EMPTY: readonly SheetLine[] = [EMPTY_LINE, EMPTY_LINE, EMPTY_LINE];

/** What is typed of a sheet: its lines, their day, the unit of those that write none. */
interface Sheet {
  lines: readonly SheetLine[];
  day: string;
  tape: string;
}

export function SheetEntry(props: SheetEntryProps) {
  const { store, hole, unit, day: today, offset, byString, drafts, onDone } = props;
  const place: DraftPlace = { form: 'sheet', hole, amends: '' };
  const [note, setNote] = useState(() => {
    const kept = drafts.read(place);
    return kept === null ? '' : keptWords(kept, today, kept.seen);
  });
  const [sheet, setSheet] = useState<Sheet>(
    () => sheetOf(drafts.read(place)?.values) ?? { lines: EMPTY, day: today, tape: unit },
  );
  const { lines, day, tape } = sheet;
  const change = (patch: Partial<Sheet>): void => {
    const next = { ...sheet, ...patch };
    setSheet(next);
    const values = { lines: JSON.stringify(next.lines), day: next.day, tape: next.tape };
    if (next.lines.every(isEmpty)) drafts.forget(place);
    else drafts.keep(place, { values, units: {}, at: null, time: props.time(), seen: 0 });
  };
  /** What was typed before the sheet was cleared, until something else is. */
  const [cleared, setCleared] = useState<Sheet | null>(null);
  const clear = (): void => {
    setNote('');
    setCleared(cleared === null ? sheet : null);
    change(cleared ?? { lines: EMPTY });
  };
  const table = useRef<HTMLTableElement>(null);
  const filled = lines.filter((l) => !isEmpty(l));
  useUnsaved(filled.length > 0 && !drafts.onDevice);
  const faults = lines.map((l) => faultOf(l, tape));
  const asked = useMemo(() => unitsMeant(lines, store, hole, tape), [lines, store, hole, tape]);
  const ready = filled.length > 0 && faults.every((f) => f === null);

  const set = (at: number, patch: Partial<SheetLine>): void => {
    setCleared(null);
    const next = lines.map((l, i) => (i === at ? { ...l, ...patch } : l));
    change({ lines: isEmpty(next.at(-1)!) ? next : [...next, EMPTY_LINE] });
  };
  const onKey = (event: React.KeyboardEvent<HTMLInputElement>): void => {
    if (event.key !== 'Enter') return;
    event.preventDefault();
    const inputs = [...(table.current?.querySelectorAll<HTMLInputElement>('tbody input') ?? [])];
    inputs[inputs.indexOf(event.currentTarget) + 1]?.focus();
  };
  const recordAll = (): void => {
    const highest = (of: 'runs' | 'pushes', label: 'run' | 'push') =>
      Math.max(
        0,
        ...store
          .rows(of)
          .filter((r) => r.cells['hole'] === hole)
          .map((r) => Number(/(\d+)$/.exec(r.cells[label] ?? '')?.[1] ?? 0)),
      );
    const readings = readingsOf(lines, {
      hole,
      unit: tape,
      day,
      offset,
      nextRun: highest('runs', 'run') + 1,
      nextPush: highest('pushes', 'push') + 1,
    });
    for (const { table: name, cells } of readings) store.addReading(name, cells);
    const row = store.rows('holes').find((h) => h.cells['hole'] === hole);
    if (row !== undefined && (row.cells['state'] ?? 'planned') === 'planned')
      store.editRow('holes', row.row_id, { state: 'open' });
    drafts.forget(place);
    onDone(readings.length);
  };

  return (
    <section className="sheet-entry" aria-label={t`Type in a sheet`}>
      <header>
        <h2>
          {t`Type in a sheet`} {note === '' ? null : <span>{note}</span>}
        </h2>
        <label>
          {t`day`} <input type="date" value={day} onChange={(e) => change({ day: e.target.value })} />
        </label>
        <label>
          {t`unit where none is written`}{' '}
          <select value={tape} onChange={(e) => change({ tape: e.target.value })}>
            {['m', 'cm', 'ft', 'in'].map((u) => (
              <option key={u}>{u}</option>
            ))}
          </select>
        </label>
        <Button kind="bare" disabled={filled.length === 0 && cleared === null} onClick={clear}>
          {cleared === null ? t`Clear sheet` : t`Undo clear`}
        </Button>
        <Button kind="bare" mark="cross" aria-label={t`Leave the sheet`} onClick={() => onDone(0)} />
      </header>
      <p className="kinds">
        {SHEET_KINDS.filter((k) => k.letter === 'G' || (k.letter === 'P') !== byString).map((k) => (
          <span key={k.letter}>
            <b>{k.letter}</b> {k.name}
          </span>
        ))}
      </p>
      <table ref={table}>
        <thead>
          <tr>
            <th scope="col">{t`no.`}</th>
            <th scope="col">{t`time`}</th>
            <th scope="col">{t`kind`}</th>
            <th scope="col" colSpan={4}>{t`as written`}</th>
            <th scope="col">{t`note`}</th>
          </tr>
        </thead>
        <tbody>
          {lines.map((line, at) => {
            const kind = kindOf(line.letter);
            const fault = faults[at] ?? null;
            const asks = fault === null ? (asked[at] ?? null) : null;
            return (
              // biome-ignore lint/suspicious/noArrayIndexKey: a line of a sheet is its place
              <tr key={at} data-fault={fault !== null}>
                <th scope="row">{at + 1}</th>
                <td>
                  <input
                    aria-label={t`time of line ${at + 1}`}
                    value={line.clock}
                    placeholder="14:05"
                    onKeyDown={onKey}
                    onChange={(e) => set(at, { clock: e.target.value })}
                  />
                </td>
                <td>
                  <input
                    aria-label={t`kind of line ${at + 1}`}
                    value={line.letter}
                    maxLength={1}
                    onKeyDown={onKey}
                    onChange={(e) => set(at, { letter: e.target.value.toUpperCase() })}
                  />
                </td>
                {[0, 1, 2, 3].map((i) => (
                  <td key={i}>
                    <input
                      aria-label={t`${kind?.columns[i]?.label ?? t`value`} of line ${at + 1}`}
                      value={line.values[i] ?? ''}
                      placeholder={kind?.columns[i]?.label ?? ''}
                      disabled={kind !== undefined && kind.columns[i] === undefined}
                      onKeyDown={onKey}
                      onChange={(e) =>
                        set(at, { values: line.values.map((v, j) => (j === i ? e.target.value : v)) })
                      }
                    />
                  </td>
                ))}
                <td>
                  <input
                    aria-label={t`note of line ${at + 1}`}
                    value={line.note}
                    onKeyDown={onKey}
                    onChange={(e) => set(at, { note: e.target.value })}
                  />
                  {asks === null ? null : (
                    <Button
                      className="meant"
                      onClick={() =>
                        set(at, { values: line.values.map((v, j) => (j === asks.at ? asks.text : v)) })
                      }
                    >
                      {t`${asks.label}: did you mean ${asks.text}?`}
                    </Button>
                  )}
                  {fault === null ? null : (
                    <p className="caution">
                      <Mark name="close" size={16} /> {fault}
                    </p>
                  )}
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
      <footer>
        <Button kind="main" mark="tick" disabled={!ready || store.readOnly} onClick={recordAll}>
          {filled.length === 1 ? t`Record 1 reading` : t`Record ${filled.length} readings`}
        </Button>
        <span className="quiet">{t`In the order of the lines. Each can be amended in the book.`}</span>
      </footer>
    </section>
  );
}

/** A sheet as it was kept; null where there is none, or what is kept is none. */
function sheetOf(values: Readonly<Record<string, string>> | undefined): Sheet | null {
  try {
    const lines = JSON.parse(values?.['lines'] ?? '') as unknown;
    if (!Array.isArray(lines)) return null;
    return {
      lines: lines.map((line: Partial<SheetLine>) => ({ ...EMPTY_LINE, ...line })),
      day: values?.['day'] ?? '',
      tape: values?.['tape'] ?? 'm',
    };
  } catch {
    return null;
  }
}
