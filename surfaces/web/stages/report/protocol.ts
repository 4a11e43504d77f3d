/** What the report's screen and its worker say to each other. */
import type { DocumentTable, JsonObject } from '@stillstand/campaign/document';
import type { CampaignPipe } from '@stillstand/campaign/holes';
import type { Problem } from '@stillstand/campaign/problems';
import type { Results } from '@stillstand/campaign/results';

/** Files of photographs that have marks, by path. */
export type Photos = readonly (readonly [path: string, photo: Blob])[];

/** A file by its path in an archive. */
export type PackedFile = readonly [path: string, content: Blob];

export type Asked =
  /** A look at the page as it would be, from results that are there. */
  | {
      kind: 'look';
      turn: number;
      results: Results;
      photos: Photos;
      pipe: CampaignPipe;
      leftOut: readonly string[];
      theme: 'day' | 'night';
    }
  /** The report: computed from the document, with nothing remembered. */
  | {
      kind: 'make';
      turn: number;
      tables: [string, DocumentTable][];
      package: JsonObject | null;
      found: readonly Problem[];
      photos: Photos;
      leftOut: readonly string[];
    }
  /** Files into one archive. */
  | { kind: 'pack'; pack: number; files: readonly PackedFile[] };

export type Answered =
  | { kind: 'looked'; turn: number; html: string; figures: Listed[] }
  | { kind: 'progress'; turn: number; done: number; of: number }
  | { kind: 'made'; turn: number; made: MadeFiles }
  | { kind: 'packed'; pack: number; zip: Blob };

/** A figure by name, for choosing. */
export interface Listed {
  name: string;
  words: string;
  warnings: string[];
}

interface MadeFigure {
  name: string;
  /** With caption and its letters inside. */
  svg: Blob;
  width_mm: number;
  height_mm: number;
}

/** A report as it was made. Files are blobs: they pass between threads without being copied into the page. */
export interface MadeFiles {
  /** Name of the campaign then. */
  name: string;
  /** The page for this screen, which has the typefaces. */
  page: string;
  /** One file that opens offline. */
  html: Blob;
  figures: MadeFigure[];
  tables: PackedFile[];
  /** The sea-level table as a workbook. */
  workbook: Blob;
  geojson: Blob;
  results: Blob;
  arrays: Blob;
  /** Campaign, results, methods, references, licences and checksums, zipped. */
  dataPackage: Blob;
}

export interface Made extends MadeFiles {
  packed(files: readonly PackedFile[]): Promise<Blob>;
}
