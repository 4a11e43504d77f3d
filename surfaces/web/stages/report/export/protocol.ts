/** What the panel of the export and its worker say to each other. */
import type { Results } from '@stillstand/campaign/results';
import type { FigureOptions } from '@stillstand/output/figures';
import type { MapShapes } from '@stillstand/output/shapes';
import type { PackedFile } from '../protocol.ts';

export type Asked =
  | { kind: 'results'; results: Results; photos: readonly PackedFile[]; shapes: MapShapes }
  /** All figures by name, and one of them to look at; without a name the first. */
  | { kind: 'show'; turn: number; options: FigureOptions; name: string | null }
  /** Files of the named figures; those that only a page can draw come back as SVG of outlines. */
  | {
      kind: 'make';
      options: FigureOptions;
      names: readonly string[];
      svg: boolean;
      pdf: boolean;
      png: boolean;
    }
  | { kind: 'pack'; files: readonly PackedFile[] };

export type Answered =
  | { kind: 'shown'; turn: number; figures: Listed[]; shown: Shown | null }
  | { kind: 'progress'; done: number; of: number }
  | { kind: 'made'; files: PackedFile[]; pictures: Picture[] }
  | { kind: 'packed'; zip: Blob }
  | { kind: 'failed'; words: string };

export interface Listed {
  name: string;
  words: string;
}

/** A figure to look at, with its letters inside. */
export interface Shown {
  name: string;
  svg: Blob;
  width_mm: number;
  height_mm: number;
  caption: string;
  warnings: string[];
}

export interface Picture {
  name: string;
  svg: Blob;
  width_mm: number;
  height_mm: number;
}
