/** Photographs of cores: the strip that two marks cut out of a picture, straight and on in-situ depth. */
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
