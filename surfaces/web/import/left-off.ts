/** Tables that are half decided: whoever leaves the page and returns finds them as they were, until the window is closed. */
import type { Kind, Mapping, TheirSheet } from '@stillstand/campaign/import';
import type { Corrections } from './corrected.ts';
import type { Read } from './source.tsx';

/** A sheet as it is understood now; `key` is the same for tables headed alike. */
export interface Chosen {
  sheet: TheirSheet;
  mapping: Mapping;
  key: string;
}

export interface LeftOff {
  theirs: Read;
  sheetAt: number;
  kind: Kind | undefined;
  /** By sheet and kind, so that looking at another costs no decision. */
  chosen: ReadonlyMap<string, Chosen | null>;
  /** By sheet. */
  corrections: ReadonlyMap<number, Corrections>;
}

const all = new Map<string, LeftOff>();

const keyOf = (campaign: string, as: Kind | undefined): string => `${campaign} ${as ?? ''}`;

export const leftOff = (campaign: string, as: Kind | undefined): LeftOff | null =>
  all.get(keyOf(campaign, as)) ?? null;

export function leave(campaign: string, as: Kind | undefined, table: LeftOff): void {
  all.set(keyOf(campaign, as), table);
}

export function forget(campaign: string, as: Kind | undefined): void {
  all.delete(keyOf(campaign, as));
}
