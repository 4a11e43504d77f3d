/** Units of a column and grain size. */
export {
  type Column,
  type ColumnFlaw,
  column,
  elevationOf,
  type PlacedUnit,
  type Placement,
} from './column.ts';
export {
  type FolkWard,
  type FolkWardPercentiles,
  folkWard,
  type GrainSizeCurve,
  phiAt,
  phiFromMillimetres,
  type SizeClass,
  sizeClass,
} from './grain-size.ts';
export { layersOf } from './layers.ts';
