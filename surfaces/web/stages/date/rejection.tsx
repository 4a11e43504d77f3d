/** Whether a determination is used; rejecting it asks why. */
import { useState } from 'react';
import { Button, ColumnField, Field, Mark } from '../../parts/index.ts';
import type { DocRow } from '../../store/index.ts';
import './rejection.css';

export function Rejection({
  row,
  isReadOnly,
  onCommit,
}: {
  row: DocRow;
  isReadOnly: boolean;
  onCommit: (cells: Record<string, string>) => void;
}) {
  const [reason, setReason] = useState<string | null>(null);
  if (row.cells['status']?.trim() === 'rejected') {
    return (
      <div className="rejection">
        <p className="state">
          <Mark name="rejected" size={22} /> Rejected: it stays visible and is not used.
        </p>
        <ColumnField
          table="determinations"
          column="reason"
          name="Why it is rejected"
          value={row.cells['reason'] ?? ''}
          disabled={isReadOnly}
          onCommit={(typed) => onCommit({ reason: typed })}
        />
        <Button disabled={isReadOnly} onClick={() => onCommit({ status: 'accepted', reason: '' })}>
          Accept it again
        </Button>
      </div>
    );
  }
  if (reason === null) {
    return (
      <p className="acts">
        <Button mark="rejected" disabled={isReadOnly} onClick={() => setReason('')}>
          Reject it
        </Button>
      </p>
    );
  }
  const reject = (): void => {
    if (reason.trim() === '') return;
    onCommit({ status: 'rejected', reason: reason.trim() });
    setReason(null);
  };
  return (
    <div className="rejection">
      <Field
        name="Why is it rejected?"
        help={{
          about:
            'What makes the age not that of the layer: old wood, washed in, roots, contamination. It is printed with the date',
        }}
      >
        {(input) => (
          <input
            {...input}
            // biome-ignore lint/a11y/noAutofocus: it answers the press that asked for it
            autoFocus
            value={reason}
            autoComplete="off"
            onChange={(event) => setReason(event.target.value)}
            onKeyDown={(event) => {
              if (event.key === 'Enter') reject();
              if (event.key === 'Escape') setReason(null);
            }}
          />
        )}
      </Field>
      <p className="acts">
        <Button kind="main" disabled={reason.trim() === ''} onClick={reject}>
          Reject the date
        </Button>
        <Button onClick={() => setReason(null)}>Cancel</Button>
      </p>
    </div>
  );
}
