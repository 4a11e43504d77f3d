/** A label held before the camera, photographed, or typed: what carries it is opened. */
import { type CodeFound, thingOfCode } from '@stillstand/campaign/chain';
import type { Campaign } from '@stillstand/campaign/document';
import { useEffect, useRef, useState } from 'react';
import { Button, Dialog, Field, Mark, useLoaded } from '../../../../parts/index.ts';
import { codeReader, type ReadCode } from './read-code.ts';
import { useCamera } from './use-camera.ts';
import './scan-dialog.css';

/** Between two looks at the video, ms: a hand holds a label still for longer. */
const EVERY_MS = 120;

export type Found = Extract<CodeFound, { ok: true }>;

export function ScanDialog({
  campaign,
  onFound,
  onClose,
}: {
  campaign: Campaign;
  onFound: (found: Found) => void;
  onClose: () => void;
}) {
  const video = useRef<HTMLVideoElement>(null);
  const file = useRef<HTMLInputElement>(null);
  const camera = useCamera(video);
  const reader = useLoaded(codeReader);
  const [typed, setTyped] = useState('');
  /** What was read last and leads nowhere. */
  const [problem, setProblem] = useState('');
  const take = (text: string): void => {
    const found = thingOfCode(campaign, text);
    if (found.ok) onFound(found);
    else setProblem(`Found “${found.found.slice(0, 60)}”; expected ${found.expected}. ${found.fix}`);
  };
  useLooking(camera.state === 'on' ? reader : null, video, take);
  const photograph = async (picture: File): Promise<void> => {
    const read = await codeReader();
    const bitmap = await createImageBitmap(picture).catch(() => null);
    if (bitmap === null) {
      setProblem(`${picture.name} is no picture this browser can read. Choose a photograph of the label.`);
      return;
    }
    const text = read({ source: bitmap, width: bitmap.width, height: bitmap.height }, 'photo');
    bitmap.close();
    if (text === null)
      setProblem(`No code was found in ${picture.name}. Photograph the label closer, flat and sharp.`);
    else take(text);
  };
  return (
    <Dialog title="Scan a label" onClose={onClose}>
      <div className="scan">
        {camera.state === 'none' ? (
          <p className="scan-says" role="status">
            <Mark name="close" size={18} />
            <span>{camera.why}</span>
          </p>
        ) : (
          <>
            <video ref={video} muted playsInline aria-label="What the camera sees" />
            <p role="status">
              {camera.state === 'starting' ? 'Starting the camera…' : 'Hold the code before the camera.'}
            </p>
          </>
        )}
        {problem === '' ? null : (
          <p className="scan-says problem" role="alert">
            <Mark name="stop" size={18} />
            <span>{problem}</span>
          </p>
        )}
        <form
          onSubmit={(event) => {
            event.preventDefault();
            take(typed);
          }}
        >
          <Field
            name="Code or label"
            help={{
              about: 'What is written on the label: its name, the code in words, or a registered identifier',
            }}
          >
            {(input) => (
              <input
                {...input}
                value={typed}
                autoComplete="off"
                autoCapitalize="off"
                spellCheck={false}
                onChange={({ target }) => setTyped(target.value)}
              />
            )}
          </Field>
          <p className="acts">
            <Button kind="main" type="submit" disabled={typed.trim() === ''}>
              Open label
            </Button>
            <Button mark="photo" onClick={() => file.current?.click()}>
              Choose a photograph
            </Button>
          </p>
        </form>
        <input
          ref={file}
          className="unseen"
          tabIndex={-1}
          type="file"
          accept="image/*"
          aria-label="Photograph of a label"
          title="A photograph of the label, with its code sharp"
          onChange={({ target }) => {
            const picture = target.files?.[0];
            if (picture !== undefined) void photograph(picture);
            target.value = '';
          }}
        />
      </div>
    </Dialog>
  );
}

/** Looks at the video again and again; the same code in one hand is said once. */
function useLooking(
  read: ReadCode | null,
  video: React.RefObject<HTMLVideoElement | null>,
  onText: (text: string) => void,
): void {
  const tell = useRef(onText);
  useEffect(() => {
    tell.current = onText;
  });
  useEffect(() => {
    if (read === null) return;
    let last = '';
    const look = setInterval(() => {
      const shown = video.current;
      if (shown === null || shown.videoWidth === 0) return;
      const text = read({ source: shown, width: shown.videoWidth, height: shown.videoHeight }, 'video');
      if (text === null || text === last) return;
      last = text;
      tell.current(text);
    }, EVERY_MS);
    return () => clearInterval(look);
  }, [read, video]);
}
