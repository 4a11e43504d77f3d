/**
 * What a new row of a table is asked for, and what is wanting: in a dialog by itself, or on the page under its table.
 * Nothing is written before the button is pressed.
 */
import { capital, columnName, labelColumn, schemas, type TableName } from '@stillstand/campaign/tables';
import { useEffect, useRef, useState } from 'react';
import { Button, ColumnField, FormDialog, labelsFor, PositionField, useUnsaved } from '../../parts/index.ts';
import { otherPositions, positionPart } from '../../positions/index.ts';
import { addWithNamed, newRows, newRowWords } from '../../shell/index.ts';
import { useStore } from '../../store/index.ts';
import './add-row.css';

const FILLED_BY_ITSELF = new Set(['row_id', 'seq', 'time', 'by', 'device', 'amends', 'amend_kind']);

/** Those that are shown of a table, and those without which it has no row. */
export function askedFirst(table: TableName, shown: readonly string[]): readonly string[] {
  const columns: Readonly<Record<string, { required: boolean }>> = schemas[table].columns;
  const needed = Object.keys(columns).filter((column) => columns[column]!.required);
  return [...new Set([...shown, ...needed])].filter((column) => !FILLED_BY_ITSELF.has(column));
}

interface Asked {
  table: TableName;
  /** Verb and noun: "Add a bench mark". */
  title: string;
  prefill: Readonly<Record<string, string>>;
  /** Columns asked for at once; the others wait behind `more`. All of them, where it is not given. */
  first?: readonly string[];
  more?: string;
  onClose: () => void;
}

export function AddRow(asked: Asked) {
  const { fields, says, isReady, add } = useNewRow(asked);
  return (
    <FormDialog
      title={asked.title}
      action="Write it down"
      isReady={isReady}
      says={says}
      onSubmit={() => {
        if (add()) asked.onClose();
      }}
      onClose={asked.onClose}
    >
      {fields}
    </FormDialog>
  );
}

/** The same on the page, under its table; it stays open for the next row until it is closed. */
export function AddLine(asked: Asked) {
  const [written, setWritten] = useState(0);
  return <Line key={written} {...asked} onWritten={() => setWritten(written + 1)} />;
}

function Line({ onWritten, ...asked }: Asked & { onWritten: () => void }) {
  const { fields, says, isReady, isTouched, add } = useNewRow(asked);
  const form = useRef<HTMLFormElement>(null);
  useUnsaved(isTouched);
  useEffect(() => form.current?.querySelector<HTMLElement>('input, select, textarea')?.focus(), []);
  return (
    <form
      ref={form}
      className="add-line"
      aria-label={asked.title}
      onKeyDown={(event) => {
        if (event.key === 'Escape' && !isTouched) asked.onClose();
      }}
      onSubmit={(event) => {
        event.preventDefault();
        if (add()) onWritten();
      }}
    >
      <div className="fields">{fields}</div>
      {says}
      <div className="acts">
        <Button kind="main" type="submit" disabled={!isReady}>
          Write it down
        </Button>
        <Button kind="bare" onClick={asked.onClose}>
          {isTouched ? 'Discard' : 'Done'}
        </Button>
      </div>
    </form>
  );
}

function useNewRow({ table, prefill, first, more = '' }: Asked) {
  const store = useStore();
  const [cells, setCells] = useState<Readonly<Record<string, string>>>(prefill);
  const { columns } = schemas[table];
  const names = Object.keys(columns).filter((column) => !FILLED_BY_ITSELF.has(column));
  const described: Readonly<Record<string, { required: boolean }>> = columns;
  const missing = names.filter(
    (column) => described[column]?.required && (cells[column] ?? '').trim() === '',
  );
  const label = labelColumn(table);
  const isTaken =
    label !== null &&
    schemas[table].scope.length === 0 &&
    store
      .rows(table)
      .some((row) => row.cells[label]?.trim() === cells[label]?.trim() && cells[label] !== undefined);
  const type = (column: string, typed: string): void =>
    setCells((before) => ({ ...before, [column]: typed }));
  const isTouched = Object.entries(cells).some(([column, typed]) => typed !== (prefill[column] ?? ''));
  const isReady = missing.length === 0 && !isTaken;
  const add = (): boolean => isReady && addWithNamed(store, table, [cells]);
  const field = (column: string) => {
    const part = positionPart(table, column);
    if (part === 'other') return null;
    if (part === 'first')
      return (
        <PositionField
          key={column}
          cells={cells}
          others={otherPositions(store.rows, null)}
          grid={store.setting('position_grid') ?? ''}
          onType={(position) => setCells((before) => ({ ...before, ...position }))}
          onCommit={(position) => setCells((before) => ({ ...before, ...position }))}
        />
      );
    const labels = labelsFor(table, column, store.rows);
    return (
      <ColumnField
        key={column}
        table={table}
        column={column}
        value={cells[column] ?? ''}
        onCommit={(typed) => type(column, typed)}
        onType={(typed) => type(column, typed)}
        name={`${capital(columnName(table, column))}${described[column]?.required ? ' (needed)' : ''}`}
        lengthUnit={store.setting('length_unit')}
        {...(labels === undefined ? {} : { labels })}
      />
    );
  };
  const says = (
    <>
      {isTaken ? <p className="says-why">{cells[label!]} is there already.</p> : null}
      {newRows(table, [cells], store.rows).map((named) => (
        <p key={`${named.table} ${named.label}`} className="says-why">
          {newRowWords(named)}
        </p>
      ))}
      {missing.length > 0 ? (
        <p className="says-why">Needed: {missing.map((column) => columnName(table, column)).join(', ')}.</p>
      ) : null}
    </>
  );
  const fields = (
    <>
      {(first ?? names).map(field)}
      {first === undefined ? null : (
        <details className="more">
          <summary>{more}</summary>
          <div className="fields">{names.filter((column) => !first.includes(column)).map(field)}</div>
        </details>
      )}
    </>
  );
  return { fields, says, isReady, isTouched, add };
}
