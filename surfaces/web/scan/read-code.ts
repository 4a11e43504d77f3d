/**
 * The code in a picture, read by the other half of the library that draws our labels, on every device alike; loaded when
 * it is first asked for.
 */

/** What is drawn and read at once: a video, or a photograph. */
type Source = { source: CanvasImageSource; width: number; height: number };

/** Pixels of the longer side: enough for a label at arm's length, and a frame of it is read in some 10 ms. */
const VIDEO_PX = 800;
const PHOTO_PX = 1600;
/** A frame has the next one after it; a photograph is looked at as long as it takes. */
const PHOTO_MS = 3000;

export type ReadCode = (of: Source, kind: 'video' | 'photo') => string | null;

export async function codeReader(): Promise<ReadCode> {
  const { default: decodeQR } = await import('qr/decode.js');
  const canvas = document.createElement('canvas');
  const pen = canvas.getContext('2d', { willReadFrequently: true });
  return ({ source, width, height }, kind) => {
    const scale = Math.min(1, (kind === 'video' ? VIDEO_PX : PHOTO_PX) / Math.max(width, height, 1));
    canvas.width = Math.round(width * scale);
    canvas.height = Math.round(height * scale);
    if (pen === null || canvas.width === 0 || canvas.height === 0) return null;
    pen.drawImage(source, 0, 0, canvas.width, canvas.height);
    const picture = pen.getImageData(0, 0, canvas.width, canvas.height);
    try {
      return decodeQR(picture, kind === 'photo' ? { timeLimit: PHOTO_MS } : {});
    } catch {
      // It throws where there is no code to read.
      return null;
    }
  };
}
