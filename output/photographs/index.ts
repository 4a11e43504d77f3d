/**
 * Photographs of cores: the strip that two marks cut out of a picture, straight and on in-situ depth. Methods, accuracy
 * and pixel budget: docs/methods/photographs.md.
 */
export { photographFaults } from './fault-words.ts';
export {
  MOST_PICTURE,
  type PictureFault,
  type PictureFile,
  readPictureFile,
  toUpright,
  uprightSize,
} from './picture-file.ts';
export {
  type CorePoint,
  type Matrix,
  matrixText,
  type PictureMark,
  type PicturePoint,
  type PictureSize,
  reachOnPicture,
  type Slice,
  type SliceBox,
  type Strip,
  type StripPlace,
  sidesOf,
  sliceTransform,
  stripCorners,
  stripPlace,
} from './strip.ts';
export { STRIP_PAPER, type StripPicture, type StripPlan, stripPlan, stripSpan } from './strip-picture.ts';
