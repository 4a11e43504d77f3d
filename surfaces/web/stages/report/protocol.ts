/** What the report's screen and its worker say to each other. */
import type { Dating } from '@stillstand/campaign/budget';
import type { DocumentTable, JsonObject } from '@stillstand/campaign/document';
import type { CampaignPipe } from '@stillstand/campaign/holes';
import type { Problem } from '@stillstand/campaign/problems';
import type { Results } from '@stillstand/campaign/results';
import type { MapShapes } from '@stillstand/output/shapes';

/** A file by its path in an archive. */
export type PackedFile = readonly [path: string, content: Blob];

export type Asked =
  /** A look at the page as it would be, from results that are there. */
  | {
      kind: 'look';
      turn: number;
      results: Results;
      /** Those that have marks and are on this device. */
      photos: readonly PackedFile[];
      shapes: MapShapes;
      pipe: CampaignPipe;
      dating: Dating;
      leftOut: readonly string[];
      theme: 'day' | 'night';
    }
  /** The report: computed from the document, with nothing remembered. */
  | ({
      kind: 'make';
      turn: number;
      found: readonly Problem[];
      photos: readonly PackedFile[];
      shapes: MapShapes;
      leftOut: readonly string[];
    } & MadeFrom)
  /** Files into one archive. */
  | { kind: 'pack'; pack: number; files: readonly PackedFile[] }
  /** The data package of a report that was made. */
  | ({
      kind: 'package';
      pack: number;
      results: Blob;
      arrays: Blob;
      /** Null where this browser cannot make one. */
      geopackage: Blob | null;
      /** Those on this device; null to leave all out. */
      photographs: readonly PackedFile[] | null;
    } & MadeFrom);

/** What a report is made from. */
export interface MadeFrom {
  tables: [string, DocumentTable][];
  package: JsonObject | null;
  /** The history. */
  files: [string, Uint8Array][];
}

export type Answered =
  | { kind: 'looked'; turn: number; html: string; figures: Listed[] }
  | { kind: 'progress'; turn: number; done: number; of: number }
  | { kind: 'made'; turn: number; made: MadeFiles }
  | { kind: 'packing'; pack: number; words: string }
  | { kind: 'packed'; pack: number; zip: Blob }
  | { kind: 'not-packed'; pack: number; words: string };

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
  /** Files that the table photos names. */
  photographs: string[];
}

/** Hears what is being done, in words. */
export type Tell = (words: string) => void;

export interface Made extends MadeFiles {
  packed(files: readonly PackedFile[]): Promise<Blob>;
  geopackage(): Promise<Blob>;
  /** Campaign, photographs (null: left out), results, methods, references, licences and checksums, zipped. */
  dataPackage(photographs: readonly PackedFile[] | null, tell: Tell): Promise<Blob>;
}
