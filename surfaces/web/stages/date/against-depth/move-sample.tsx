/** Another depth for a sample: both ends in one act, which Undo takes back. */
import { choiceName } from '@stillstand/campaign/tables';
import { useState } from 'react';
import { ColumnField, counted, FormDialog } from '../../../parts/index.ts';
import { type DocRow, useStore } from '../../../store/index.ts';

export function MoveSample({
  sample,
  others,
  onClose,
}: {
  sample: DocRow;
  /** Dates of the sample besides the one it is moved for. */
  others: number;
  onClose: () => void;
}) {
  const store = useStore();
  const [draft, setDraft] = useState<Readonly<Record<string, string>>>({});
  const basis = sample.cells['depth_basis']?.trim() ?? '';
  const run = sample.cells['run']?.trim() ?? '';
  const columns = basis === 'elevation' ? ['elevation_m'] : ['top', 'bottom'];
  const changed = Object.entries(draft).filter(([column, typed]) => (sample.cells[column] ?? '') !== typed);
  return (
    <FormDialog
      title={`Move sample ${sample.cells['sample'] ?? ''}`}
      action="Save depth"
      isReady={changed.length > 0}
      onClose={onClose}
      onSubmit={() => {
        // Where it is refused what was typed stays, and the news says why.
        if (store.editRow('samples', sample.row_id, Object.fromEntries(changed))) onClose();
      }}
      below={
        <p className="quiet">
          {basis === '' ? '' : `Depths are measured in: ${choiceName(basis)}${run === '' ? '' : ` ${run}`}. `}
          {others === 0
            ? ''
            : `${counted(others, 'other date')} of this sample ${others === 1 ? 'moves' : 'move'} too. `}
          What it was before stays in the history of the campaign.
        </p>
      }
    >
      {columns.map((column) => (
        <ColumnField
          key={column}
          table="samples"
          column={column}
          value={draft[column] ?? sample.cells[column] ?? ''}
          lengthUnit={store.setting('length_unit')}
          onType={(typed) => setDraft((before) => ({ ...before, [column]: typed }))}
          onCommit={() => true}
        />
      ))}
    </FormDialog>
  );
}
