/** Parts every screen is made of; they know no science. Numbers are written as in the figures and the report. */
export { counted, decimalsFor, printed, signed } from '@stillstand/output/words';
export { ActionBar, Button } from './button.tsx';
export { Dialog, FormDialog, Sheet, WholeDialog } from './dialog.tsx';
export { Keypad } from './entry/keypad.tsx';
export {
  completeLength,
  emptied,
  type PadKey,
  type PadUnit,
  pressKey,
  readTyping,
  type Typing,
} from './entry/keypad-typing.ts';
export { LengthEntry } from './entry/length-entry.tsx';
export { useWholeSelected } from './entry/whole-selected.ts';
export { AmendmentChoice } from './fields/amendment-choice.tsx';
export { ColumnField, columnHelp, labelsFor } from './fields/column-field.tsx';
export { Field, type Help } from './fields/field.tsx';
export { PositionField } from './fields/position-field.tsx';
export { typedKeys } from './fields/typed-keys.ts';
export { useAnyUnsaved, useUnsaved } from './fields/unsaved.ts';
export { UnsavedMark } from './fields/unsaved-mark.tsx';
export { download, fileName, fileSize } from './file.ts';
export { GridCell } from './grid/grid-cell.tsx';
export { Mark, type MarkName } from './mark.tsx';
export { type Changed, ChangedContext, type ChangedNumbers, type ShownNumber } from './number/changed.ts';
export { Quantity } from './number/quantity.tsx';
export { Staff } from './number/staff.tsx';
export { TraceContext, Traced } from './number/traced.tsx';
export { useWidth } from './number/use-width.ts';
export { PaperPage } from './paper-page.tsx';
export { Plate } from './plate.tsx';
export { Table } from './table.tsx';
export { useLoaded } from './use-loaded.ts';
