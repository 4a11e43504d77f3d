/** Conflicts that a merge left open: counted above every page until they are decided. */
import { alike } from '@stillstand/campaign/replica';
import { schemas } from '@stillstand/campaign/tables';
import { lazy, Suspense, useState } from 'react';
import { useComputation } from '../../compute/index.ts';
import { Button, counted, Mark } from '../../parts/index.ts';
import { type Store, useStore } from '../../store/index.ts';

const ConflictsSheet = lazy(async () => ({
  default: (await import('./conflicts-sheet.tsx')).ConflictsSheet,
}));

/** Problems of readings that two devices amended or moved. */
const OF_READINGS = new Set(['amendment-conflict', 'move-conflict']);

export function ConflictsNotice() {
  const store = useStore();
  const { problems } = useComputation();
  const [isShown, show] = useState(false);
  const count = cellsOpen(store) + problems.filter(({ code }) => OF_READINGS.has(code)).length;
  if (count === 0 && !isShown) return null;
  return (
    <>
      {count === 0 ? null : (
        <p className="refused open-conflicts">
          <Mark name="merge" size={20} />
          <span>{counted(count, 'conflict')} to decide: two devices said different things.</span>
          <Button onClick={() => show(true)}>Show conflicts</Button>
        </p>
      )}
      {isShown ? (
        <Suspense fallback={null}>
          <ConflictsSheet onClose={() => show(false)} />
        </Suspense>
      ) : null}
    </>
  );
}

/** A label and the cells that name it are one conflict. */
function cellsOpen(store: Store): number {
  const found = store
    .conflicts()
    .filter(
      ({ table, row_id }) =>
        !schemas[table].readings && store.rows(table).some((row) => row.row_id === row_id),
    );
  return alike(found).length;
}
