/** Why a point is excluded, asked wherever it is rejected. */
import { ColumnField } from '../parts/index.ts';
import { type DocRow, useStore } from '../store/index.ts';

export function RejectionReason({ row }: { row: DocRow }) {
  const store = useStore();
  return (
    <ColumnField
      table="points"
      column="reason"
      name="Reason for exclusion"
      value={row.cells['reason'] ?? ''}
      disabled={store.readOnly}
      onCommit={(reason) => store.editRow('points', row.row_id, { reason })}
    />
  );
}
