/** Whether a hole begins at the ground as it lives, where its own facts or its ages are looked at. */
import { ColumnField } from '../parts/index.ts';
import { useStore } from '../store/index.ts';

export function LivingGround({ hole }: { hole: string }) {
  const store = useStore();
  const row = store.rows('holes').find(({ cells }) => cells['hole']?.trim() === hole);
  if (row === undefined) return null;
  return (
    <ColumnField
      table="holes"
      column="top_is_ground"
      value={row.cells['top_is_ground'] ?? ''}
      disabled={store.readOnly}
      onCommit={(typed) => store.editRow('holes', row.row_id, { top_is_ground: typed })}
    />
  );
}
