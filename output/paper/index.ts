/** Figures on paper: PNG, PDF with embedded fonts, and SVG that carries its letters. Node only. */
export { figureToSvg, fontCss } from './fonts.ts';
export { figureToPdf } from './pdf.ts';
export { figureToPng } from './png.ts';
