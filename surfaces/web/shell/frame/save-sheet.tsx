/** A copy of the campaign as one zip; how much room the device has, and whether the browser promised to keep it. */
import { useEffect, useState } from 'react';
import { useComputation, useCurveWanted, useProgress } from '../../compute/index.ts';
import { useDaily } from '../../copies/index.ts';
import { Button, counted, download, fileName, fileSize, Plate, Sheet } from '../../parts/index.ts';
import { askToPersist, type Space, space, useStore } from '../../store/index.ts';
import { DirectLink } from '../direct-link.tsx';
import { MergeCopyButton } from '../merge/merge-copy-button.tsx';
import { DailyCopies } from './daily-copies.tsx';
import { PhotoChoice } from './photo-choice.tsx';
import { canShareZip, useCopy } from './use-copy.ts';
import './save-sheet.css';

export function SaveSheet({ onClose }: { onClose: () => void }) {
  const store = useStore();
  const { daily } = useDaily();
  const copy = useCopy(daily.noteSaved);
  const [isLinking, setLinking] = useState(false);
  const identity = store.document().package?.['id'];
  const { changes, exported_ms } = store.keptElsewhere();
  return (
    <Sheet
      title="Save a copy"
      onClose={onClose}
      foot={
        <>
          {canShareZip() ? (
            <Button disabled={copy.state === 'packing'} onClick={() => void copy.share()}>
              {copy.state === 'ready to share' ? 'Share packed copy' : 'Share copy'}
            </Button>
          ) : null}
          <Button
            kind="main"
            mark="save"
            disabled={copy.state === 'packing'}
            onClick={() => void copy.save()}
          >
            {copy.state === 'packing' ? 'Packing…' : 'Save as zip'}
          </Button>
        </>
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
      <PhotoChoice
        photos={copy.photos}
        rest_bytes={copy.rest_bytes}
        isWith={copy.isWithPhotos}
        onChange={copy.choosePhotos}
      />
      {copy.failure === null ? null : (
        <Plate state="danger" word="The copy was not made">
          <p>{copy.failure}</p>
        </Plate>
      )}
      <p role="status">
        {copy.state === 'saved' ? (
          <>
            <b>Saved.</b> Check your downloads folder, then copy it to another device.
          </>
        ) : copy.state === 'shared' ? (
          <>
            <b>Shared.</b> Check on the other device that it arrived and opens.
          </>
        ) : copy.state === 'ready to share' ? (
          'The copy is packed. Press Share packed copy.'
        ) : null}
      </p>
      <section className="save-part" aria-labelledby="send-copy">
        <h3 id="send-copy">Send to another device</h3>
        <p>
          {canShareZip()
            ? 'Share copy hands the zip to another app, or to a device nearby.'
            : 'This browser does not share zip files. Save the zip, then send it with the device’s own files app.'}{' '}
          On the other device, share it to Stillstand, or press Open a file.
        </p>
        <p>A direct link exchanges copies with a device on the same hotspot, without internet.</p>
        <p>
          <Button onClick={() => setLinking(true)}>Link devices</Button>
        </p>
        <p>
          <MergeCopyButton onChosen={onClose} />
        </p>
      </section>
      <DailyCopies />
      <SaveResults name={fileName(store.name())} />
      <Room />
      {isLinking ? (
        <DirectLink
          campaign={typeof identity === 'string' ? identity : null}
          name={store.name()}
          pack={copy.pack}
          onOpen={onClose}
          onClose={() => setLinking(false)}
        />
      ) : null}
    </Sheet>
  );
}

function Room() {
  const [room, setRoom] = useState<Space | null>(null);
  useEffect(() => {
    void space().then(setRoom);
  }, []);
  if (room === null) return null;
  return (
    <>
      <p>
        Room used: {fileSize(room.used_bytes)} of {fileSize(room.quota_bytes)} this browser allows.
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

function agoWords(ms: number): string {
  const days = Math.floor((Date.now() - ms) / 86_400_000);
  return days < 1 ? 'today' : `${counted(days, 'day')} ago`;
}
