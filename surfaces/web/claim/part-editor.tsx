/** One part of the error under the hand: its size, its shape, and with what it is shared. */
import type { PointResult } from '@stillstand/campaign/results';
import type { DeclaredError, ErrorShape, HeightError } from '@stillstand/science/points';
import { useEffect, useId, useState } from 'react';
import { Button, columnHelp, Field } from '../parts/index.ts';
import type { Store } from '../store/index.ts';
import { asDeclared, isOwnPart } from './claim.ts';
import { cell, declare, declaredIn, errorRow, isSame } from './declared-part.ts';
import { SizeField } from './size-field.tsx';

export function PartEditor({
  store,
  point,
  part,
  edited,
  onEdit,
  onWritten,
}: {
  store: Store;
  point: PointResult;
  part: HeightError;
  edited: DeclaredError | null;
  onEdit: (edited: DeclaredError | null) => void;
  onWritten: (edited: DeclaredError) => void;
}) {
  const row = errorRow(store, point.point, part.component);
  // As it was before the hand took hold: what is in `part` may be under it just now.
  const original = point.components.find((each) => each.component === part.component) ?? part;
  const committed = row === undefined ? asDeclared(original) : declaredIn(row, original);
  const now = edited?.component === part.component ? edited : committed;
  const groups = [
    ...new Set(store.rows('point_errors').map((each) => cell(each, 'shared_group'))),
    ...(part.shared_group === null ? [] : [part.shared_group]),
  ].filter((group) => group !== '');
  if (isOwnPart(part.component)) {
    return (
      <p className="fixed">
        {part.component === 'indicative_range'
          ? 'Half the width between the two limits of the meaning. To narrow it, name a kind of deposit with closer limits.'
          : 'As stated with the tide levels of the site, the same for every point there. To lower it, read the gauge longer, or tie it to a better station.'}
      </p>
    );
  }
  if (store.readOnly) return <p className="fixed">{part.source}</p>;
  const commit = (to: DeclaredError): void => {
    if (isSame(to, committed)) onEdit(null);
    else {
      // It stays in sight until the computation has it.
      onWritten(to);
      declare(store, point.point, to);
    }
  };
  return (
    <div className="editor">
      <SizeField
        part={now}
        most={Math.max(0.5, 2 * committed.value_m)}
        onMove={(value_m) => onEdit({ ...now, value_m })}
        onLetGo={() => commit(now)}
      />
      <div className="fields">
        <Field
          name="Counted as"
          help={{
            about: 'How many standard deviations of a normal the size is; a range or a lowering has none',
          }}
        >
          {(input) => (
            <select
              {...input}
              value={String(now.sigma_level)}
              disabled={now.shape !== 'normal'}
              onChange={(event) => commit({ ...now, sigma_level: event.target.value === '1' ? 1 : 2 })}
            >
              <option value="1">1 sigma</option>
              <option value="2">2 sigma</option>
            </select>
          )}
        </Field>
        <Field name="Shape" help={columnHelp('point_errors', 'shape')}>
          {(input) => (
            <select
              {...input}
              value={now.shape}
              onChange={(event) => commit({ ...now, shape: event.target.value as ErrorShape })}
            >
              <option value="normal">normal</option>
              <option value="uniform">even over a range</option>
              <option value="one_sided">one-sided: it now lies lower</option>
            </select>
          )}
        </Field>
        <GroupField
          value={now.shared_group ?? ''}
          groups={groups}
          onCommit={(group) => commit({ ...now, shared_group: group === '' ? null : group })}
        />
      </div>
      {row === undefined ? (
        <p className="quiet">It is not declared yet; what you change here becomes its declared value.</p>
      ) : (
        <Button
          mark="undo"
          onClick={() => {
            onEdit(null);
            store.removeRow('point_errors', row.row_id);
          }}
        >
          Take the declared value back
        </Button>
      )}
    </div>
  );
}

function GroupField({
  value,
  groups,
  onCommit,
}: {
  value: string;
  groups: readonly string[];
  onCommit: (group: string) => void;
}) {
  const [typed, setTyped] = useState(value);
  const list = useId();
  useEffect(() => setTyped(value), [value]);
  const commit = (): void => {
    if (typed.trim() !== value) onCommit(typed.trim());
  };
  return (
    <Field
      name="Shared with"
      help={{
        about:
          'A name for an error this point shares with others: all that carry it are wrong by the same amount, so it does not average out. Empty: its own',
      }}
    >
      {(input) => (
        <>
          <input
            {...input}
            list={list}
            autoComplete="off"
            value={typed}
            placeholder="its own"
            onChange={(event) => setTyped(event.target.value)}
            onBlur={commit}
            onKeyDown={(event) => {
              if (event.key === 'Enter') commit();
            }}
          />
          <datalist id={list}>
            {groups.map((group) => (
              <option key={group} value={group} />
            ))}
          </datalist>
        </>
      )}
    </Field>
  );
}
