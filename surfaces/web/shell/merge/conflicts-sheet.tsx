/** Conflicts that are open in this campaign, each decided by one press. */
import { openConflicts } from '@stillstand/campaign/merge';
import { useMemo } from 'react';
import * as Y from 'yjs';
import { Sheet } from '../../parts/index.ts';
import { useStore } from '../../store/index.ts';
import { ConflictRow } from './conflict-row.tsx';

export function ConflictsSheet({ onClose }: { onClose: () => void }) {
  const store = useStore();
  const document = store.document();
  const conflicts = useMemo(() => {
    void document;
    const doc = new Y.Doc();
    Y.applyUpdate(doc, store.state());
    return openConflicts(doc);
  }, [store, document]);
  return (
    <Sheet title={`Conflicts: ${conflicts.length}`} onClose={onClose}>
      {conflicts.length === 0 ? <p>Nothing is left to decide.</p> : null}
      <ol>
        {conflicts.map(({ conflict, decide }, i) => (
          <ConflictRow
            key={conflict.key}
            conflict={conflict}
            number={i + 1}
            chosen={null}
            disabled={store.readOnly}
            onChoose={(choice) => {
              if (choice === 'later') onClose();
              else decide(store, choice);
            }}
          />
        ))}
      </ol>
      <p className="quiet">Everything stays in the record, with who chose and when.</p>
    </Sheet>
  );
}
