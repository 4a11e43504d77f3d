/** The day-end sheet: one A4 page of what happened, to be signed. */
export { daySheetHtml } from './day-sheet.tsx';
