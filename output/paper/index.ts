/** Figures on paper: PNG, PDF with embedded fonts, and SVG that carries its letters; strips of photographs for them. Node only. */
import './typeface-files.ts';

export { figureToPdf } from '@stillstand/output/typeset';
export { figureToSvg, fontCss } from './fonts.ts';
export { figureToPng } from './png.ts';
export { stripInGreys, stripOfPhotograph } from './strip-picture.ts';
