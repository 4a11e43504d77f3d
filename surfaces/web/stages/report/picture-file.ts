/**
 * A figure as a picture of dots, drawn by the browser from the SVG with its letters inside. Only a page can draw an SVG
 * (a worker's createImageBitmap refuses one); decoding, drawing and packing wait off the page's own thread.
 */

import { withResolution } from '@stillstand/output/figures';

const MM_PER_INCH = 25.4;

export async function pngOf(
  figure: { svg: Blob; width_mm: number; height_mm: number },
  dots_per_inch = 300,
): Promise<Blob> {
  const width = Math.round((figure.width_mm / MM_PER_INCH) * dots_per_inch);
  const height = Math.round((figure.height_mm / MM_PER_INCH) * dots_per_inch);
  const url = URL.createObjectURL(figure.svg);
  try {
    const image = new Image(width, height);
    image.src = url;
    await image.decode();
    const canvas = document.createElement('canvas');
    canvas.width = width;
    canvas.height = height;
    const pen = canvas.getContext('2d');
    if (pen === null) throw new Error('this browser gives no drawing surface');
    pen.drawImage(image, 0, 0, width, height);
    const blob = await new Promise<Blob>((resolve, reject) => {
      canvas.toBlob(
        (drawn) =>
          drawn === null ? reject(new Error('the picture is too large for this browser')) : resolve(drawn),
        'image/png',
      );
    });
    const png = withResolution(new Uint8Array(await blob.arrayBuffer()), dots_per_inch);
    return new Blob([png], { type: 'image/png' });
  } finally {
    URL.revokeObjectURL(url);
  }
}
