/**
 * A copy that came from elsewhere waits over the page until a person opens or deletes it; never from under a form that is
 * half filled.
 */
import { useCallback, useEffect, useState } from 'react';
import { Button, fileSize, useAnyUnsaved } from '../parts/index.ts';
import {
  forgetReceived,
  holdReceived,
  lookForReceived,
  type Received,
  useReceived,
  useWantedReceived,
  wantReceived,
} from '../store/index.ts';
import { type Arrivals, MERGE_PAGE } from './merge/copy.ts';
import { go, useRoute } from './route.ts';

/** What a browser hands over of files that were opened with the installed app (W3C Web App Launch). */
interface LaunchQueue {
  setConsumer(take: (launch: { files?: readonly FileSystemFileHandle[] }) => void): void;
}

export function ReceivedCopies({ bring }: { bring: Arrivals['bring'] }) {
  const all = useReceived();
  const wanted = useWantedReceived();
  const { campaign, params, stage } = useRoute();
  /** Put off while there is work to do; home shows it again. */
  const [later, setLater] = useState<ReadonlySet<string>>(new Set());
  const copy =
    all.find(({ key }) => key === wanted) ?? all.find(({ key }) => campaign === null || !later.has(key));
  const isUnsaved = useAnyUnsaved();
  const [isOpening, setOpening] = useState(false);
  const [failure, setFailure] = useState<string | null>(null);
  useEffect(() => {
    const look = (): void => void lookForReceived().catch(() => undefined);
    look();
    // Shared to another window of the app.
    addEventListener('focus', look);
    takeLaunched();
    return () => removeEventListener('focus', look);
  }, []);
  const open = useCallback(
    async ({ key, file }: Received): Promise<void> => {
      wantReceived(null);
      setOpening(true);
      setFailure(null);
      try {
        // What is neither opened nor merged stays: it may be all there is of it.
        await bring(await file(), null, () => void forgetReceived(key));
      } catch (error) {
        setFailure(error instanceof Error ? error.message : String(error));
      } finally {
        setOpening(false);
      }
    },
    [bring],
  );
  const mayOpen = !isUnsaved && !isOpening;
  useEffect(() => {
    if (copy !== undefined && copy.key === wanted && mayOpen) void open(copy);
  }, [copy, wanted, mayOpen, open]);

  if (copy === undefined) {
    return params['received'] === 'refused' ? (
      <p className="received" role="alert">
        The shared file could not be kept: this device is full. Free up storage, then share it again.{' '}
        <Button onClick={() => go({ campaign: null, stage: null, params: {} })}>Close</Button>
      </p>
    ) : null;
  }
  // The copy may be the one that is looked at.
  if (stage === MERGE_PAGE) return null;
  return (
    <div className="received" role="status">
      <p>
        <b>Copy received:</b> {copy.name}, {fileSize(copy.bytes)}.{' '}
        {isUnsaved ? <b>Save or close the open form first. </b> : null}
        {failure === null ? null : <b>Not opened: {failure}. </b>}
      </p>
      <Button kind="main" disabled={!mayOpen} onClick={() => void open(copy)}>
        Open copy
      </Button>
      {campaign === null ? null : (
        <Button onClick={() => setLater(new Set([...later, copy.key]))}>Keep for later</Button>
      )}
      <Button disabled={isOpening} onClick={() => void forgetReceived(copy.key)}>
        Delete received file
      </Button>
    </div>
  );
}

function takeLaunched(): void {
  const { launchQueue } = globalThis as { launchQueue?: LaunchQueue };
  launchQueue?.setConsumer(({ files = [] }) => {
    for (const handle of files) void handle.getFile().then((file) => holdReceived(file, file.name));
  });
}
