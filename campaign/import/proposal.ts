/** What would be added to a campaign, said line by line, before anything is. */
import type { Problem } from '@stillstand/campaign/problems';
import type { TableName } from '@stillstand/campaign/tables';

/** A row of ours, cells by column. */
export interface ProposedRow {
  readonly table: TableName;
  readonly cells: Readonly<Record<string, string>>;
  /** Line of theirs it comes from; of a row that is made, the first that needs it. */
  readonly line: number;
  /** Made because others name it: a sample at a depth, a site, a datum. */
  readonly made: boolean;
}

/**
 * What becomes of one line of theirs. Every line of the sheet has one.
 * - `used`: at least one row comes from it
 * - `set_aside`: a title, headings, units, a footnote, a repetition, or left out by the person
 * - `problem`: no row comes from it until what is wrong is corrected
 */
export interface LineOutcome {
  readonly line: number;
  readonly outcome: 'used' | 'set_aside' | 'problem';
  /** Why, where it is not used; otherwise what came of it. */
  readonly why: string;
}

/** A sample of the campaign that a line belongs to. */
export interface FoundSample {
  readonly line: number;
  readonly sample: string;
  readonly how: 'label' | 'depth';
}

/** Something only a person can say. */
export interface Decision {
  /** Where in the mapping it is written: `fixed.method`, `columns.D.unit`, `decimal_comma`. */
  readonly where: string;
  /** Heading of theirs it is about; null for the whole table. */
  readonly heading: string | null;
  readonly question: string;
  /** What is taken until somebody decides; null where lines wait for it. */
  readonly taken: string | null;
  /** Words to choose from; empty where it is free. */
  readonly choices: readonly string[];
  /** Their words, each decided at `where.word`; empty where one word decides. */
  readonly words: readonly string[];
}

export interface Proposal {
  /** In the order in which they are added: what others name comes first. */
  readonly rows: readonly ProposedRow[];
  readonly lines: readonly LineOutcome[];
  readonly found: readonly FoundSample[];
  readonly problems: readonly Problem[];
  readonly decisions: readonly Decision[];
}
