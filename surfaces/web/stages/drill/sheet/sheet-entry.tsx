/** Typing in a paper sheet: a table filled by keyboard alone, Enter to the next cell, recorded all at once in its order. */
import { useRef, useState } from 'react';
import { Button, Mark, useUnsaved } from '../../../parts/index.ts';
import type { DrillStore } from '../tape/decimal-points.ts';
import { EMPTY_LINE, faultOf, isEmpty, kindOf, readingsOf, SHEET_KINDS, type SheetLine } from './sheet.ts';
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
  onDone: (recorded: number) => void;
}

export function SheetEntry({ store, hole, unit, day: today, offset, byString, onDone }: SheetEntryProps) {
  const [lines, setLines] = useState<readonly SheetLine[]>([EMPTY_LINE, EMPTY_LINE, EMPTY_LINE]);
  const [day, setDay] = useState(today);
  const [tape, setTape] = useState(unit);
  const table = useRef<HTMLTableElement>(null);
  const filled = lines.filter((l) => !isEmpty(l));
  useUnsaved(filled.length > 0);
  const faults = lines.map((l) => faultOf(l, tape));
  const ready = filled.length > 0 && faults.every((f) => f === null);

  const set = (at: number, patch: Partial<SheetLine>): void => {
    const next = lines.map((l, i) => (i === at ? { ...l, ...patch } : l));
    setLines(isEmpty(next.at(-1)!) ? next : [...next, EMPTY_LINE]);
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
    onDone(readings.length);
  };

  return (
    <section className="sheet-entry" aria-label="Type in a sheet">
      <header>
        <h2>Type in a sheet</h2>
        <label>
          day <input type="date" value={day} onChange={(e) => setDay(e.target.value)} />
        </label>
        <label>
          unit where none is written{' '}
          <select value={tape} onChange={(e) => setTape(e.target.value)}>
            {['m', 'cm', 'ft', 'in'].map((u) => (
              <option key={u}>{u}</option>
            ))}
          </select>
        </label>
        <Button kind="bare" mark="cross" aria-label="Leave the sheet" onClick={() => onDone(0)} />
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
            <th scope="col">no.</th>
            <th scope="col">time</th>
            <th scope="col">kind</th>
            <th scope="col" colSpan={4}>
              as written
            </th>
            <th scope="col">note</th>
          </tr>
        </thead>
        <tbody>
          {lines.map((line, at) => {
            const kind = kindOf(line.letter);
            const fault = faults[at] ?? null;
            return (
              // biome-ignore lint/suspicious/noArrayIndexKey: a line of a sheet is its place
              <tr key={at} data-fault={fault !== null}>
                <th scope="row">{at + 1}</th>
                <td>
                  <input
                    aria-label={`time of line ${at + 1}`}
                    value={line.clock}
                    placeholder="14:05"
                    onKeyDown={onKey}
                    onChange={(e) => set(at, { clock: e.target.value })}
                  />
                </td>
                <td>
                  <input
                    aria-label={`kind of line ${at + 1}`}
                    value={line.letter}
                    maxLength={1}
                    onKeyDown={onKey}
                    onChange={(e) => set(at, { letter: e.target.value.toUpperCase() })}
                  />
                </td>
                {[0, 1, 2, 3].map((i) => (
                  <td key={i}>
                    <input
                      aria-label={`${kind?.columns[i]?.label ?? 'value'} of line ${at + 1}`}
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
                    aria-label={`note of line ${at + 1}`}
                    value={line.note}
                    onKeyDown={onKey}
                    onChange={(e) => set(at, { note: e.target.value })}
                  />
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
          Record {filled.length} {filled.length === 1 ? 'reading' : 'readings'}
        </Button>
        <span className="quiet">In the order of the lines. Each can be amended in the book.</span>
      </footer>
    </section>
  );
}
