/**
 * Labels for samples and cores, on sheets and rolls: a page to print, each label with its name as large as it fits, where
 * it is from, and a code that a camera reads (ISO/IEC 18004). Lengths in mm.
 */
export { Code, codeBits } from './code.tsx';
export { type Label, labelsOf, placeWords, type Which } from './labels-of.ts';
export { labelsHtml, type Printed } from './page.tsx';
export { LABEL_SHEETS, type LabelSheet, rollOf, sheetNamed } from './sheets.ts';
