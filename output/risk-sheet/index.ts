/** The risk assessment as a sheet to go through, fill in and sign. */
export { type RiskSheet, riskSheetHtml, riskSheetOf } from './risk-sheet.tsx';
