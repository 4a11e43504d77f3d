/** An A4 sheet to print and sign: its frame, its type, and what every sheet has. */
export { campaignNamed, Said, SheetHead, Signed, sheetHtml } from './sheet.tsx';
