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
  onDone: (words: string) => void;
}) {
  const store = useStore();
  const rows = store.rows('custody');
  const [action, setAction] = useState<Action>(() => nextAction(things[0]?.state ?? ''));
  const [typed, setTyped] = useState<Readonly<Record<string, string>>>({});
  useUnsaved(Object.values(typed).some((text) => text.trim() !== ''));
  const cells: Readonly<Record<string, string>> = { date: today, ...typed };
  const columns = ['date', ...askedAt(action), 'note'];
  const type = (column: string, text: string): void => setTyped((before) => ({ ...before, [column]: text }));
  const laboratory = columns.includes('laboratory') ? (cells['laboratory']?.trim() ?? '') : '';
  const known = labelsFor('custody', 'laboratory', store.rows) ?? [];
  const isNew = laboratory !== '' && !known.includes(laboratory);
  const before = useMemo(() => typedBefore(rows), [rows]);

  const dated = things.filter(({ results }) => results.unentered > 0);

  const record = (): void => {
    const said = Object.fromEntries(
      columns.flatMap((column) => {
        const text = cells[column]?.trim() ?? '';
        return text === '' ? [] : [[column, text]];
      }),
    );
    if (isNew) store.addRow('laboratories', { laboratory });
    for (const { thing } of things) store.addReading('custody', { ...thingCells(thing), action, ...said });
    setTyped({});
    const whole =
      things.length === 1 ? things[0]!.name : counted(things.length, 'sample or core', 'samples and cores');
    onDone(`${whole}: ${ACTIONS[action].done}.`);
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
              onChange={({ target }) =>
                setAction(choices.find((choice) => choice === target.value) ?? action)
              }
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
            name={
              column === 'laboratory' && (action === 'lent' || action === 'returned')
                ? 'Borrower or laboratory'
                : capital(columnName('custody', column))
            }
            value={cells[column] ?? ''}
            labels={column === 'laboratory' ? known : (before[column] ?? [])}
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
      <p className="acts">
        <Button kind="main" type="submit" disabled={things.length === 0}>
          {ACTIONS[action].verb}
        </Button>
        <span className="quiet">
          {things.length === 1
            ? `For ${things[0]!.name}.`
            : `For ${counted(things.length, 'sample or core', 'samples and cores')}, an entry each.`}
        </span>
      </p>
    </form>
  );
}

/** What was entered before of the whole campaign, to be chosen again. */
const USUAL = ['place', 'shelf', 'box', 'condition', 'submission', 'request', 'currency'] as const;

const typedBefore = (rows: readonly DocRow[]): Readonly<Record<string, string[]>> =>
  Object.fromEntries(
    USUAL.map((column) => [
      column,
      [...new Set(rows.map(({ cells }) => cells[column]?.trim() ?? ''))].filter((text) => text !== ''),
    ]),
  );
