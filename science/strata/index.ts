/** Units of a column. */
export {
  type Column,
  type ColumnFlaw,
  column,
  elevationOf,
  type PlacedUnit,
  type Placement,
} from './column.ts';
export { layersOf } from './layers.ts';
