/** A code held before the camera, photographed, or typed in words. */
import { useEffect, useRef, useState } from 'react';
import { Button, Field, Mark, useLoaded } from '../parts/index.ts';
import { codeReader, type ReadCode } from './read-code.ts';
import { useCamera } from './use-camera.ts';
import './code-scanner.css';

/** Between two looks at the video, ms: a hand holds a code still for longer. */
const EVERY_MS = 120;

export function CodeScanner({
  thing,
  field,
  about,
  action,
  onCode,
}: {
  /** What carries the code, a word: "label". */
  thing: string;
  /** The field for typing, and its help. */
  field: string;
  about: string;
  /** What its button does. */
  action: string;
  /** Takes what was read; why it leads nowhere, or null. */
  onCode: (text: string) => string | null;
}) {
  const video = useRef<HTMLVideoElement>(null);
  const file = useRef<HTMLInputElement>(null);
  const camera = useCamera(video, thing);
  const reader = useLoaded(codeReader);
  const [typed, setTyped] = useState('');
  /** What was read last and leads nowhere. */
  const [problem, setProblem] = useState('');
  const take = (text: string): void => {
    const why = onCode(text);
    if (why !== null) setProblem(why);
  };
  useLooking(camera.state === 'on' ? reader : null, video, take);
  const photograph = async (picture: File): Promise<void> => {
    const read = await codeReader();
    const bitmap = await createImageBitmap(picture).catch(() => null);
    if (bitmap === null) {
      setProblem(`${picture.name} is no picture this browser can read. Choose a photograph of the ${thing}.`);
      return;
    }
    const text = read({ source: bitmap, width: bitmap.width, height: bitmap.height }, 'photo');
    bitmap.close();
    if (text === null)
      setProblem(`No code was found in ${picture.name}. Photograph the ${thing} closer, flat and sharp.`);
    else take(text);
  };
  return (
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
        <Field name={field} help={{ about }}>
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
            {action}
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
        aria-label={`Photograph of a ${thing}`}
        title={`A photograph of the ${thing}, with its code sharp`}
        onChange={({ target }) => {
          const picture = target.files?.[0];
          if (picture !== undefined) void photograph(picture);
          target.value = '';
        }}
      />
    </div>
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
