/** Tables for spreadsheets: CSV (RFC 4180) in which no text is a formula, and .xlsx workbooks of one sheet. */
export { type CsvColumn, csv, noFormula } from './csv.ts';
export { type SheetColumn, xlsx } from './xlsx.ts';
