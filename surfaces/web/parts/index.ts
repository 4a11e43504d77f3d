/** Parts every screen is made of; they know no science. Numbers are written as in the figures and the report. */
export { counted, decimalsFor, printed, signed } from '@stillstand/output/words';
export { AmendmentChoice } from './amendment-choice.tsx';
export { ActionBar, Button } from './button.tsx';
export { ColumnField, columnHelp, columnWords, labelsFor } from './column-field.tsx';
export { Dialog, FormDialog, Sheet } from './dialog.tsx';
export { Field, type Help } from './field.tsx';
export { download, fileName } from './file.ts';
export { Keypad } from './keypad.tsx';
export {
  completeLength,
  type PadKey,
  type PadUnit,
  pressKey,
  readTyping,
  type Typing,
} from './keypad-typing.ts';
export { LengthEntry } from './length-entry.tsx';
export { Mark, type MarkName } from './mark.tsx';
export { Plate } from './plate.tsx';
export { Quantity } from './quantity.tsx';
export { Staff } from './staff.tsx';
export { Table } from './table.tsx';
export { TraceContext, Traced } from './traced.tsx';
export { useAnyUnsaved, useUnsaved } from './unsaved.ts';
export { UnsavedMark } from './unsaved-mark.tsx';
export { useWidth } from './use-width.ts';
export { useWholeSelected } from './whole-selected.ts';
