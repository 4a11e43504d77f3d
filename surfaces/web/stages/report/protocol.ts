/** What the report's screen and its worker say to each other. */
import type { DocumentTable, JsonObject } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import type { Results } from '@stillstand/campaign/results';

export type Asked =
  /** A look at the page as it would be, from results that are there. */
  | { kind: 'look'; turn: number; results: Results; leftOut: readonly string[]; theme: 'day' | 'night' }
  /** The report: computed from the document, with nothing remembered. */
  | {
      kind: 'make';
      turn: number;
      tables: [string, DocumentTable][];
      package: JsonObject | null;
      found: readonly Problem[];
      leftOut: readonly string[];
    };

export type Answered =
  | { kind: 'looked'; turn: number; html: string; figures: Listed[] }
  | { kind: 'progress'; turn: number; done: number; of: number }
  | { kind: 'made'; turn: number; made: Made };

/** A figure by name, for choosing. */
export interface Listed {
  name: string;
  words: string;
  warnings: string[];
}

interface MadeFigure {
  name: string;
  /** With caption and its letters inside. */
  svg: string;
  width_mm: number;
  height_mm: number;
}

/** A report as it was made, with everything that can be taken away. */
export interface Made {
  results: Results;
  /** One file that opens offline. */
  html: string;
  /** The same without typefaces, which the screen has. */
  page: string;
  figures: MadeFigure[];
  tables: [name: string, csv: string][];
  geojson: string;
  json: string;
  draws: Uint8Array;
}
