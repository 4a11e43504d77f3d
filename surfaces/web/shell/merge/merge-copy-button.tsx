/** Chooses the file of a copy to be merged into the open campaign. */
import { useRef } from 'react';
import { Button } from '../../parts/index.ts';
import { packageId, type Store, useStore } from '../../store/index.ts';
import { type Target, useArrivals } from './copy.ts';

const targetOf = (store: Store): Target => ({
  id: store.id,
  name: store.name(),
  package_id: packageId(store.document()),
  read_only: store.readOnly,
});

export function MergeCopyButton({ onChosen }: { onChosen?: () => void }) {
  const store = useStore();
  const { bring } = useArrivals();
  const chooser = useRef<HTMLInputElement>(null);
  return (
    <>
      <Button mark="merge" disabled={store.readOnly} onClick={() => chooser.current?.click()}>
        Merge a copy…
      </Button>
      {store.readOnly ? <span className="quiet">This campaign is read only: nothing is merged.</span> : null}
      <input
        ref={chooser}
        type="file"
        accept=".zip,application/zip"
        hidden
        aria-label="A copy of this campaign"
        onChange={(event) => {
          const file = event.target.files?.[0];
          event.target.value = '';
          if (file === undefined) return;
          onChosen?.();
          void bring(file, targetOf(store));
        }}
      />
    </>
  );
}
