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
  alike,
  type CellConflict,
  type How,
  listOf,
  type SetCell,
} from './acts.ts';
export { type Change, changed, changeWords, isChangedSince } from './changes.ts';
export { withCommas, withPoints } from './decimal-signs.ts';
export { type Cells, editing, type News } from './editing.ts';
export { fill, headsOf, replaceUnknownTable, underName } from './fill.ts';
export { layForeign, layForm, layHeadings, layPackage, listTables } from './lay-file.ts';
export { columnCalled, type DocRow, isKnownLayout } from './layout.ts';
export { type MadeIn, make } from './make.ts';
export { type Migrated, migrated } from './migrate.ts';
export { nextSeq, type Writer } from './new-reading.ts';
export { readDocument, readTable, type TableMemory, type TableRead } from './read.ts';
export { type Reader, reader } from './reader.ts';
export { isSound } from './sound.ts';
export { type Unattended, unattended } from './unattended.ts';
