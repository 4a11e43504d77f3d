/**
 * Lists that go with samples and cores: the sheet of a parcel to a laboratory, and where everything is kept. Each as CSV, as
 * a workbook and as a page to print.
 */
export { ARCHIVE_PARTS, type ArchivePart, archiveOf } from './archive.ts';
export { type List, listCsv, listXlsx } from './list.ts';
export { listHtml } from './page.tsx';
export { entriesOfParcel, type Parcel, type ParcelSample, parcelLabels, parcelSent } from './parcel.ts';
export { submissionOf } from './submission.ts';
export { nextParcelLabel, samplesToSend, type ToSend } from './to-send.ts';
