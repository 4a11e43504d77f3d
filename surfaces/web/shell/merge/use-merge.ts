/** The merge of a copy as the page goes through it: planned in a worker, decided by a person, kept by the store. */
import type { Decisions, MergePlan } from '@stillstand/campaign/merge';
import { capital } from '@stillstand/campaign/tables';
import { useCallback, useEffect, useRef, useState } from 'react';
import { counted } from '../../parts/index.ts';
import { crew, deviceWords, type Store } from '../../store/index.ts';
import { openAmong } from './decided.ts';
import type { Answered, Asked } from './protocol.ts';

export interface Merge {
  /** Null while it is made. */
  plan: MergePlan | null;
  state: 'planning' | 'planned' | 'merging';
  /** Why it was not planned, or not merged; nothing was changed then. */
  failure: string | null;
  merge: (decisions: Decisions) => void;
}

/** `name` is that of the campaign in the copy; `onMerged` is called once the device has it. */
export function useMerge(store: Store, zip: Blob, name: string, onMerged: () => void): Merge {
  const [plan, setPlan] = useState<MergePlan | null>(null);
  const [state, setState] = useState<Merge['state']>('planning');
  const [failure, setFailure] = useState<string | null>(null);
  const work = useRef<ReturnType<typeof mergeWorker> | null>(null);

  useEffect(() => {
    const worker = mergeWorker();
    work.current = worker;
    let isOver = false;
    setPlan(null);
    setFailure(null);
    setState('planning');
    store
      .fileSizes()
      .then((files) => worker.ask({ kind: 'plan', zip, state: store.state(), files }))
      .then(
        (answered) => {
          if (isOver) return;
          setPlan(answered.plan);
          setState('planned');
        },
        (error: unknown) => {
          if (isOver) return;
          const why = error instanceof Error ? error.message : String(error);
          setFailure(`The copy could not be held against this campaign: ${why}.`);
        },
      );
    return () => {
      isOver = true;
      worker.stop();
      work.current = null;
    };
  }, [store, zip]);

  const merge = useCallback(
    (decisions: Decisions): void => {
      const worker = work.current;
      if (worker === null) return;
      const keep = async (): Promise<void> => {
        const files = await store.fileSizes();
        const merged = await worker.ask({
          kind: 'merge',
          state: store.state(),
          files,
          decisions,
          crew: crew(),
        });
        if (merged.kind !== 'merged') return;
        const blobs = [...merged.files].map(
          ([path, bytes]) => [path, new Blob([bytes as Uint8Array<ArrayBuffer>])] as const,
        );
        await store.merge({ update: merged.update, files: new Map(blobs), words: `merge a copy of ${name}` });
        store.say(mergedWords(merged.plan, decisions));
        onMerged();
      };
      setState('merging');
      setFailure(null);
      keep().catch((error: unknown) => {
        if (work.current !== worker) return;
        setFailure(`${capital(deviceWords(error))}.`);
        setState('planned');
      });
    },
    [store, name, onMerged],
  );
  return { plan, state, failure, merge };
}

/** "Merged: 212 changes came in, 1 to decide." */
function mergedWords(plan: MergePlan, decisions: Decisions): string {
  const open = openAmong(plan.conflicts, decisions).length;
  const { come } = plan.files;
  const came = [
    `${counted(changesIn(plan), 'change')} came in`,
    ...(come.length === 0 ? [] : [counted(come.length, 'file')]),
    ...(open === 0 ? [] : [`${open} to decide`]),
  ];
  return `Merged: ${came.join(', ')}.`;
}

/** Acts that come in; rows, where the copy has no history in common. */
export const changesIn = ({ by, theirs, came }: MergePlan): number =>
  by === 'history'
    ? theirs.length
    : came.reduce((sum, { added, changed, deleted }) => sum + added + changed + deleted, 0);

/** Asks one thing after another. */
function mergeWorker() {
  const worker = new Worker(new URL('./merge.worker.ts', import.meta.url), { type: 'module' });
  return {
    ask: (asked: Asked): Promise<Exclude<Answered, { kind: 'failed' }>> =>
      new Promise((resolve, reject) => {
        worker.onmessage = ({ data }: MessageEvent<Answered>) => {
          if (data.kind === 'failed') reject(new Error(data.why));
          else resolve(data);
        };
        // A worker that cannot even be loaded says nothing.
        worker.onerror = (event) =>
          reject(new Error(event.message || 'a part of the app that does not load'));
        worker.postMessage(asked);
      }),
    stop: () => worker.terminate(),
  };
}
