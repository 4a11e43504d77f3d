/** A figure as a picture of dots. */
import { Resvg } from '@resvg/resvg-js';
import { withResolution } from '@stillstand/output/figures';
import { outlinedSvg, readSvg, svgSize } from '@stillstand/output/typeset';

const POINTS_PER_INCH = 72;

/**
 * The figure as PNG, 216 dots to the inch if not said otherwise; the file says how many.
 * Takes the SVG our figures write; anything else throws RangeError.
 */
export function figureToPng(svg: string, dots_per_inch = 216): Uint8Array {
  const { width } = svgSize(readSvg(svg));
  const picture = new Resvg(outlinedSvg(svg), {
    fitTo: { mode: 'width', value: Math.round((width * dots_per_inch) / POINTS_PER_INCH) },
    font: { loadSystemFonts: false },
  });
  return withResolution(picture.render().asPng(), dots_per_inch);
}
