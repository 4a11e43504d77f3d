/** What laboratories measure: units, grain size, loss on ignition and density from weights. */
export { panWeight, quantityCalled, WEIGHED_NAMES } from './called.ts';
export {
  type CountedClass,
  type GrainClass,
  type GrainClasses,
  type GrainFault,
  grainClasses,
} from './grain-classes.ts';
export {
  type FolkWard,
  type FolkWardPercentiles,
  folkWard,
  type GrainSizeCurve,
  millimetresFromPhi,
  phiAt,
  phiFromMillimetres,
  type SizeClass,
  sizeClass,
} from './grain-size.ts';
export { type GrainSizeClass, grainSizeClasses } from './grain-size-classes.ts';
export { type GrainStatistics, grainStatistics, type Parts } from './grain-statistics.ts';
export { type Moments, moments } from './moments.ts';
export {
  fromPanWeights,
  type PanWeights,
  type Weighed,
  type Weighing,
  type WeightFault,
} from './pan-weights.ts';
export { type ScaleName, SIZE_SCALES, type SizeRange, type SizeScale, sizeRange } from './size-range.ts';
export { textureName } from './texture.ts';
export { convertedUnit, type LaboratoryUnit, laboratoryUnit } from './units.ts';
