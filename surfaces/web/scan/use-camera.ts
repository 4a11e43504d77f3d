/** The camera for as long as it is looked through, and why there is none. */
import { type RefObject, useEffect, useState } from 'react';

export type Camera = { state: 'starting' | 'on' } | { state: 'none'; why: string };

/** What a browser says where it gives no camera, in words (W3C Media Capture and Streams, 10.2). */
function whyNone(error: unknown, thing: string): string {
  const otherwise = `Choose a photograph of the ${thing}, or type what is written on it.`;
  const name = error instanceof DOMException ? error.name : '';
  if (name === 'NotAllowedError' || name === 'SecurityError')
    return `The camera is not allowed here: allow it for this page in the browser’s settings. ${otherwise}`;
  if (name === 'NotFoundError' || name === 'OverconstrainedError')
    return `This device has no camera. ${otherwise}`;
  if (name === 'NotReadableError' || name === 'AbortError')
    return `The camera is used by another program: close that one. ${otherwise}`;
  return `The camera does not start. ${otherwise}`;
}

/** `thing`: what is looked for, a word. */
export function useCamera(video: RefObject<HTMLVideoElement | null>, thing: string): Camera {
  const [camera, setCamera] = useState<Camera>({ state: 'starting' });
  useEffect(() => {
    let stream: MediaStream | null = null;
    let isOver = false;
    const stop = (): void => {
      for (const track of stream?.getTracks() ?? []) track.stop();
    };
    const start = async (): Promise<void> => {
      // Browsers hide it from pages that were not loaded safely.
      if (navigator.mediaDevices === undefined)
        throw new DOMException('no camera for this page', 'SecurityError');
      stream = await navigator.mediaDevices.getUserMedia({
        video: { facingMode: 'environment', width: { ideal: 1280 } },
      });
      const shown = video.current;
      if (isOver || shown === null) return stop();
      shown.srcObject = stream;
      await shown.play();
      if (!isOver) setCamera({ state: 'on' });
    };
    start().catch((error: unknown) => {
      stop();
      if (!isOver) setCamera({ state: 'none', why: whyNone(error, thing) });
    });
    return () => {
      isOver = true;
      stop();
    };
  }, [video, thing]);
  return camera;
}
