/** Positions as they are typed: the cells they come to, and what is said of them. Nothing that is drawn. */
export {
  otherPositions,
  type PositionCells,
  type PositionSaid,
  positionPart,
  positionSaid,
  writtenPosition,
} from './position-reading.ts';
export { useGrid, useGridFound, useKnownGrids } from './use-grid.ts';
