/** One row of fields for the next entry of one thing, or of several at once: a parcel. */
import { type Custody, thingCells } from '@stillstand/campaign/chain';
import { capital, columnName, schemas } from '@stillstand/campaign/tables';
import { useMemo, useState } from 'react';
import { Button, ColumnField, counted, Field, labelsFor, useUnsaved } from '../../../parts/index.ts';
import { type DocRow, useStore } from '../../../store/index.ts';
import { ACTIONS, type Action, askedAt, nextAction } from './entry-fields.ts';

const { choices } = schemas.custody.columns.action;

export function NextEntry({
  things,
  today,
  onDone,
}: {
  things: readonly Custody[];
  /** The day that is offered, ISO 8601. */
  today: string;
  /** `added`: the entries, which can be withdrawn together. */
  onDone: (words: string, added: readonly string[]) => void;
}) {
  const store = useStore();
  const rows = store.rows('custody');
  /** Null while it is the usual one of what is chosen. */
  const [picked, setAction] = useState<Action | null>(null);
  const action = picked ?? nextAction(things);
  const [typed, setTyped] = useState<Readonly<Record<string, string>>>({});
  useUnsaved(Object.values(typed).some((text) => text.trim() !== ''));
  const cells: Readonly<Record<string, string>> = { date: today, ...typed };
  const [one] = things;
  const core =
    things.length === 1 && one!.thing.kind === 'core' && one!.thing.tray === null ? one!.thing : null;
  const columns = ['date', ...(core === null ? [] : ['tray']), ...askedAt(action), 'note'];
  const type = (column: string, text: string): void => setTyped((before) => ({ ...before, [column]: text }));
  const laboratory = columns.includes('laboratory') ? (cells['laboratory']?.trim() ?? '') : '';
  const known = labelsFor('custody', 'laboratory', store.rows) ?? [];
  const isNew = laboratory !== '' && !known.includes(laboratory);
  const before = useMemo(() => typedBefore(rows), [rows]);
  const trays = core === null ? [] : traysOf(store.rows('pieces'), core);
  const dated = things.filter(({ results }) => results.unentered > 0);

  const record = (): void => {
    const said = Object.fromEntries(
      columns.flatMap((column) => {
        const text = cells[column]?.trim() ?? '';
        return text === '' ? [] : [[column, text]];
      }),
    );
    const added: string[] = [];
    const isKept = store.together(() => {
      if (isNew) store.addRow('laboratories', { laboratory });
      for (const { thing } of things)
        added.push(store.addReading('custody', { ...thingCells(thing), action, ...said }));
    });
    // What was refused is said by the frame, and stays in the fields.
    if (!isKept) return;
    setTyped({});
    setAction(null);
    const whole =
      things.length === 1 ? one!.name : counted(things.length, 'sample or core', 'samples and cores');
    onDone(`${whole}: ${ACTIONS[action].done}.`, added);
  };
  return (
    <form
      className="next-entry"
      aria-label="Next entry"
      onSubmit={(event) => {
        event.preventDefault();
        record();
      }}
    >
      <div className="fields">
        <Field
          name="What was done"
          help={{ about: 'Each entry stays; a wrong one is amended or withdrawn later' }}
        >
          {(input) => (
            <select
              {...input}
              value={action}
              onChange={({ target }) => setAction(choices.find((choice) => choice === target.value) ?? null)}
            >
              {choices.map((choice) => (
                <option key={choice} value={choice}>
                  {ACTIONS[choice].done}
                </option>
              ))}
            </select>
          )}
        </Field>
        {columns.map((column) => (
          <ColumnField
            key={column}
            table="custody"
            column={column}
            name={nameOf(column, action)}
            value={cells[column] ?? ''}
            labels={column === 'laboratory' ? known : column === 'tray' ? trays : (before[column] ?? [])}
            onCommit={(text) => type(column, text)}
            onType={(text) => type(column, text)}
          />
        ))}
      </div>
      {isNew ? (
        <p className="quiet" role="status">
          {laboratory} is not among the laboratories yet: it is added with this entry.
        </p>
      ) : null}
      {action === 'sent' && dated.length > 0 ? (
        <p className="quiet">
          {dated.map(({ name }) => name).join(', ')}: a result without an entry is there already, and would
          end the wait at once. Record that result first, with its date, to wait for another.
        </p>
      ) : null}
      {(cells['date'] ?? '').trim() > today ? (
        <p className="quiet" role="status">
          This date is in the future: a wait begins on it.
        </p>
      ) : null}
      <p className="acts">
        <Button kind="main" type="submit" disabled={things.length === 0}>
          {ACTIONS[action].verb}
        </Button>
        <span className="quiet">
          {things.length === 1
            ? `For ${one!.name}.`
            : `For ${counted(things.length, 'sample or core', 'samples and cores')}, an entry each.`}
        </span>
      </p>
    </form>
  );
}

function nameOf(column: string, action: Action): string {
  if (column === 'tray') return 'Tray, if not the whole core';
  if (column === 'laboratory' && (action === 'lent' || action === 'returned'))
    return 'Borrower or laboratory';
  return capital(columnName('custody', column));
}

/** Trays that pieces of the core were laid on. */
const traysOf = (pieces: readonly DocRow[], { hole, run }: { hole: string; run: string }): string[] => [
  ...new Set(
    pieces.flatMap(({ cells }) =>
      cells['hole']?.trim() === hole && cells['run']?.trim() === run && cells['tray']
        ? [cells['tray'].trim()]
        : [],
    ),
  ),
];

/** What was entered before of the whole campaign, to be chosen again. */
const USUAL = ['place', 'shelf', 'box', 'condition', 'submission', 'request', 'currency'] as const;

const typedBefore = (rows: readonly DocRow[]): Readonly<Record<string, string[]>> =>
  Object.fromEntries(
    USUAL.map((column) => [
      column,
      [...new Set(rows.map(({ cells }) => cells[column]?.trim() ?? ''))].filter((text) => text !== ''),
    ]),
  );
