/** Strips of photographs, cut and straightened by a canvas; in a worker. */
import type { PhotographResult, Results } from '@stillstand/campaign/results';
import { columnBottom } from '@stillstand/output/figures';
import {
  MOST_PICTURE,
  readPictureFile,
  type StripPicture,
  type StripPlan,
  stripPlan,
  stripSpan,
  uprightSize,
} from '@stillstand/output/photographs';
import { base64 } from './typefaces.ts';

/** Strips that were made, by all they were made from: looks follow each other, and most photographs stay. */
let made = new Map<string, StripPicture>();

/** By row, one after another; a file the device does not have is missing. */
export async function stripsOf(
  results: Results,
  photos: ReadonlyMap<string, Blob>,
): Promise<Map<string, StripPicture>> {
  const strips = new Map<string, StripPicture>();
  const kept = new Map<string, StripPicture>();
  for (const photograph of results.photographs) {
    const hole = results.holes.find((each) => each.hole === photograph.hole);
    if (hole === undefined || stripSpan(photograph) === null) continue;
    const bottom_m = columnBottom(results, hole);
    const photo = photos.get(photograph.file);
    const key = JSON.stringify([photograph, bottom_m, photo?.size ?? null]);
    const strip = made.get(key) ?? (await stripOf(photograph, photo, bottom_m));
    kept.set(key, strip);
    strips.set(photograph.row_id, strip);
  }
  made = kept;
  return strips;
}

async function stripOf(
  photograph: PhotographResult,
  photo: Blob | undefined,
  bottom_m: number,
): Promise<StripPicture> {
  if (photo === undefined) return { fault: 'missing' };
  if (photo.size > MOST_PICTURE.bytes) return { fault: 'too-large' };
  const file = readPictureFile(new Uint8Array(await photo.arrayBuffer()));
  if (typeof file === 'string') return { fault: file };
  const plan = stripPlan(photograph, uprightSize(file), bottom_m);
  if (typeof plan === 'string') return { fault: plan };
  // Upright: the orientation of the file is applied unless asked otherwise (HTML, createImageBitmap).
  const bitmap = await createImageBitmap(photo).catch(() => null);
  if (bitmap === null) return { fault: 'broken' };
  const straight = surface(plan.large);
  straight.pen.setTransform(plan.matrix);
  straight.pen.drawImage(bitmap, 0, 0);
  bitmap.close();
  return await kept(smaller(inTheGround(straight.canvas, plan), plan));
}

function surface({ width_px, height_px }: StripPlan['large']) {
  const canvas = new OffscreenCanvas(width_px, height_px);
  const pen = canvas.getContext('2d');
  if (pen === null) throw new Error('this browser gives no drawing surface');
  pen.imageSmoothingQuality = 'high';
  return { canvas, pen };
}

function inTheGround(straight: OffscreenCanvas, { large, slices }: StripPlan): OffscreenCanvas {
  const { canvas, pen } = surface(large);
  const width = large.width_px;
  for (const { from, to } of slices)
    pen.drawImage(
      straight,
      ...([0, from.top, width, from.bottom - from.top] as const),
      ...([0, to.top, width, to.bottom - to.top] as const),
    );
  return canvas;
}

/** Halved step by step, so that every pixel of the large one counts. */
function smaller(from: OffscreenCanvas, { halvings }: StripPlan): OffscreenCanvas {
  let canvas = from;
  for (let n = 0; n < Math.max(halvings.across, halvings.along); n++) {
    const half = surface({
      width_px: n < halvings.across ? canvas.width / 2 : canvas.width,
      height_px: n < halvings.along ? canvas.height / 2 : canvas.height,
    });
    half.pen.drawImage(canvas, 0, 0, half.canvas.width, half.canvas.height);
    canvas = half.canvas;
  }
  return canvas;
}

async function kept(canvas: OffscreenCanvas): Promise<StripPicture> {
  const png = await canvas.convertToBlob({ type: 'image/png' });
  return { url: `data:image/png;base64,${base64(new Uint8Array(await png.arrayBuffer()))}` };
}

/** The same strip in shades of grey: luminance alone (SVG 1.1, feColorMatrix saturate 0), as the command line has it. */
export async function stripInGreys(strip: StripPicture): Promise<StripPicture> {
  if ('fault' in strip) return strip;
  const png = Uint8Array.from(atob(strip.url.slice(strip.url.indexOf(',') + 1)), (byte) =>
    byte.charCodeAt(0),
  );
  const bitmap = await createImageBitmap(new Blob([png], { type: 'image/png' }));
  const { canvas, pen } = surface({ width_px: bitmap.width, height_px: bitmap.height });
  pen.drawImage(bitmap, 0, 0);
  bitmap.close();
  const image = pen.getImageData(0, 0, canvas.width, canvas.height);
  const { data } = image;
  for (let i = 0; i < data.length; i += 4)
    data.fill(0.213 * data[i]! + 0.715 * data[i + 1]! + 0.072 * data[i + 2]!, i, i + 3);
  pen.putImageData(image, 0, 0);
  return await kept(canvas);
}
