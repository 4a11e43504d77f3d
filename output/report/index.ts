/** Results made readable: a line or twelve, tables, and the report. */
export { coordinatesOf, resultsGeoJson } from './geojson.ts';
export { headline } from './headline.ts';
export { methodsText } from './methods-text.ts';
export { bibtexOf, risOf } from './references.ts';
export { type ReportOptions, reportHtml } from './report.tsx';
export { citedIn } from './sections/methods.tsx';
export type { ResultTable } from './tables/table.ts';
export { NO_TABLE, pointsWorkbook, resultTables, TABLES } from './tables.ts';
export { type WhereFrom, whereFrom } from './where/where-from.ts';
