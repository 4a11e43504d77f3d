/** Rows of one table as lines that open in place: what each says at a glance, and under it all that is entered. */
import type { TableName } from '@stillstand/campaign/tables';
import { type ReactNode, useState } from 'react';
import { Button, ColumnField, labelsFor, Mark, type MarkName } from '../../../parts/index.ts';
import { type DocRow, useStore } from '../../../store/index.ts';
import './record-list.css';

type RecordLevel = 'stop' | 'warn' | 'ok';

interface RecordSaid {
  name: string;
  words: string;
  level: RecordLevel;
}

const MARKS: Readonly<Record<RecordLevel, MarkName>> = { stop: 'stop', warn: 'close', ok: 'tick' };

interface Records {
  table: TableName;
  rows: readonly DocRow[];
  /** Row that was just added: it is open. */
  added: string | null;
  said: (row: DocRow) => RecordSaid;
  columns: readonly string[];
  /** Columns that wait behind a heading of their own. */
  more: readonly { title: string; columns: readonly string[] }[];
  /** Verb and noun: "Delete permit". */
  remove: string;
}

export function RecordList({ rows, ...of }: Records) {
  if (rows.length === 0) return null;
  return (
    <ul className="records">
      {rows.map((row) => (
        <Record key={row.row_id} row={row} {...of} />
      ))}
    </ul>
  );
}

function Record({ row, table, added, said, columns, more, remove }: Omit<Records, 'rows'> & { row: DocRow }) {
  const store = useStore();
  const [isOpen, setOpen] = useState(row.row_id === added);
  const { name, words, level } = said(row);
  const field = (column: string): ReactNode => {
    const labels = labelsFor(table, column, store.rows);
    return (
      <ColumnField
        key={column}
        table={table}
        column={column}
        value={row.cells[column] ?? ''}
        disabled={store.readOnly}
        onCommit={(typed) => store.editRow(table, row.row_id, { [column]: typed })}
        {...(labels === undefined ? {} : { labels })}
      />
    );
  };
  return (
    <li data-level={level}>
      <details open={isOpen} onToggle={(event) => setOpen(event.currentTarget.open)}>
        <summary>
          <Mark name={MARKS[level]} size={18} />
          <b>{name === '' ? 'not named' : name}</b> <span>{words}</span>
        </summary>
        {isOpen ? (
          <div className="record">
            <div className="fields">{columns.map(field)}</div>
            {more.map(({ title, columns }) => (
              <details key={title} className="more">
                <summary>{title}</summary>
                <div className="fields">{columns.map(field)}</div>
              </details>
            ))}
            {store.readOnly ? null : (
              <Button kind="danger" mark="remove" onClick={() => store.removeRow(table, row.row_id)}>
                {remove}
              </Button>
            )}
          </div>
        ) : null}
      </details>
    </li>
  );
}
