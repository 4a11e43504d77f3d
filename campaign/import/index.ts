/**
 * Somebody's table, as it came, to rows of a campaign: read, understood, mapped by a person, proposed line by line, and
 * added at once. docs/methods/import.md says how. No file system, no screen; nothing changes before `withProposal`.
 */
export { withProposal } from './add.ts';
export { lettersOf, placeOf } from './columns.ts';
export { decided } from './decide.ts';
export { type Cells, type Here, hereOf } from './here.ts';
export { columnOfHeading } from './known-headings.ts';
export { KINDS, type Kind, type MappedColumn, type Mapping } from './mapping.ts';
export type { Decision, FoundSample, LineOutcome, Proposal, ProposedRow } from './proposal.ts';
export { proposed } from './proposed.ts';
export { readMapping } from './read-mapping.ts';
export { readTheirs } from './read-theirs.ts';
export type { TheirLine, TheirSheet, Theirs } from './sheet.ts';
export { methodAsked, SHEET_ASKS, SHEET_SAMPLE, SHEET_SAYS } from './submission-sheet.ts';
export { TABLE_OF, type Target, targetsOf } from './targets.ts';
export { bestSheet, type Knowledge, type Understanding, understand } from './understand.ts';
