/** A copy of the campaign as one zip; how much room the device has, and whether the browser promised to keep it. */
import { capital } from '@stillstand/campaign/tables';
import { useEffect, useState } from 'react';
import { useComputation, useCurveWanted, useProgress } from '../../compute/index.ts';
import { Button, counted, download, fileName, Plate, printed, Sheet } from '../../parts/index.ts';
import { askToPersist, deviceWords, type Space, space, useStore } from '../../store/index.ts';
import { MergeCopyButton } from '../merge/merge-copy-button.tsx';

export function SaveSheet({ onClose }: { onClose: () => void }) {
  const store = useStore();
  const [room, setRoom] = useState<Space | null>(null);
  const [state, setState] = useState<'idle' | 'packing' | 'done'>('idle');
  const [failure, setFailure] = useState<string | null>(null);
  useEffect(() => {
    void space().then(setRoom);
  }, []);
  const { changes, exported_ms } = store.keptElsewhere();

  const save = async (): Promise<void> => {
    setState('packing');
    setFailure(null);
    try {
      download(await store.exportZip(), `${fileName(store.name())}.zip`);
      setState('done');
    } catch (error) {
      setFailure(`${capital(deviceWords(error))}. Everything entered is still on this device: try again.`);
      setState('idle');
    }
  };
  return (
    <Sheet
      title="Save a copy"
      onClose={onClose}
      foot={
        <Button kind="main" mark="save" disabled={state === 'packing'} onClick={() => void save()}>
          {state === 'packing' ? 'Packing…' : 'Save as zip'}
        </Button>
      }
    >
      <p>
        Everything entered is kept on this device as you enter it. A tablet can be lost, flooded or cleared:
        carry a copy on another device. The zip holds every table, photo and file; any Stillstand opens it.
      </p>
      <p>
        {exported_ms === null
          ? 'No copy has been saved yet'
          : `The last copy was saved ${agoWords(exported_ms)}`}
        {changes === 0 ? '.' : `; ${counted(changes, 'change')} since then are only here.`}
      </p>
      {failure === null ? null : (
        <Plate state="danger" word="The copy was not made">
          <p>{failure}</p>
        </Plate>
      )}
      {state === 'done' ? (
        <p role="status">
          <b>Saved.</b> Check your downloads folder, then copy it to another device.
        </p>
      ) : null}
      <SaveResults name={fileName(store.name())} />
      <p>
        <MergeCopyButton onChosen={onClose} />
      </p>
      {room === null ? null : (
        <>
          <p>
            Room used: {megabytes(room.used_bytes)} of {megabytes(room.quota_bytes)} this browser allows.
          </p>
          {room.persistent ? (
            <p>The browser promised not to clear it by itself.</p>
          ) : (
            <Plate state="caution" word="The browser has not promised to keep this">
              <p>It may clear the data when the device runs full. Ask it to keep them, or install the app.</p>
              <p>
                <Button onClick={() => void askToPersist().then(() => space().then(setRoom))}>
                  Ask to keep the data
                </Button>
              </p>
            </Plate>
          )}
        </>
      )}
    </Sheet>
  );
}

/** `results.json` as `stillstand compute` writes it; waits for the whole curve. */
function SaveResults({ name }: { name: string }) {
  const { state, results } = useComputation();
  const progress = useProgress();
  const [isAsked, setAsked] = useState(false);
  useCurveWanted(isAsked);
  useEffect(() => {
    if (state === 'failed') setAsked(false);
    if (!isAsked || state !== 'final' || results === null) return;
    setAsked(false);
    void import('@stillstand/campaign/results').then(({ writeResults }) => {
      download(new Blob([writeResults(results).json], { type: 'application/json' }), `${name}-results.json`);
    });
  }, [isAsked, state, results, name]);
  return (
    <p>
      <Button mark="save" disabled={isAsked} onClick={() => setAsked(true)}>
        {isAsked
          ? `Computing the whole curve${progress === null ? '' : `, ${Math.floor(progress * 100)} %`}`
          : 'Save the results (JSON)'}
      </Button>
    </p>
  );
}

const megabytes = (bytes: number): string =>
  bytes < 1e6
    ? `${printed(bytes / 1e3, 0)} kB`
    : bytes < 1e9
      ? `${printed(bytes / 1e6, 0)} MB`
      : `${printed(bytes / 1e9, 1)} GB`;

function agoWords(ms: number): string {
  const days = Math.floor((Date.now() - ms) / 86_400_000);
  return days < 1 ? 'today' : `${counted(days, 'day')} ago`;
}
