/**
 * A figure set in its typefaces: PDF with embedded fonts, text as outlines for a picture. Runs anywhere; the font files
 * are given once, from the disk (`output/paper`) or from the app's own files.
 */
export { outlinedSvg } from './outlined.ts';
export { figureToPdf } from './pdf.ts';
export { withPlainZero } from './plain-zero.ts';
export { type Inherited, inherit, readSvg, type SvgElement, svgSize, translation } from './svg-tree.ts';
export {
  FACE_FILES,
  type FaceFile,
  FEATURES,
  giveTypefaces,
  setWidth,
  TYPEFACE_NAMES,
  type TypefaceName,
  typeface,
} from './typefaces.ts';
export { setText } from './typesetting.ts';
