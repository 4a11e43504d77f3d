/**
 * A campaign's document as a replica: a Yjs document that merges with its copies on other devices. How the document lies
 * in it, how it is filled, read, edited and migrated; no screen, no storage, no network.
 */
export {
  actWords,
  amendedCells,
  type CellsOf,
  cellsIn,
  dayWords,
  doneWords,
  momentWords,
  writerWords,
} from './act-words.ts';
export {
  type Act,
  type ActChange,
  type Acts,
  actsOf,
  type CellConflict,
  type How,
  type SetCell,
} from './acts.ts';
export { type Change, changed, isChangedSince } from './changes.ts';
export { type Cells, editing, type News } from './editing.ts';
export { fill } from './fill.ts';
export { type DocRow, isKnownLayout } from './layout.ts';
export { type Migrated, migrated } from './migrate.ts';
export { nextSeq, type Writer } from './new-reading.ts';
export { readDocument, readTable, type TableMemory, type TableRead } from './read.ts';
export { type Reader, reader } from './reader.ts';
