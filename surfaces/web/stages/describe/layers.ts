/** The described layers of a hole, made of the rows of `units`, and the contacts a hand can move. */

import { type Basis, type Core, coreOfCells } from '@stillstand/campaign/chain';
import type { LengthOptions, LengthUnit } from '@stillstand/campaign/tables';
import { layersOf } from '@stillstand/science/strata';
import type { DocRow } from '../../store/index.ts';
import { readLength } from './length.ts';

/** One row of `units`: a unit as far as it lies in one core. */
export interface Piece {
  row: DocRow;
  core: Core;
  /** Along its core, metres. */
  top_m: number;
  bottom_m: number;
  unit: LengthUnit;
}

/** Pieces that are one layer: described core after core under one label. */
export interface Layer {
  /** Row of its first piece: stays the same while the layer lives. */
  id: string;
  label: string;
  pieces: Piece[];
}

/** A boundary that can be moved: between two pieces of one core, or where what is described begins or ends. */
export interface Contact {
  id: string;
  core: Core;
  at_m: number;
  above: Piece | null;
  below: Piece | null;
  /** How far it can go. */
  from_m: number;
  to_m: number;
  unit: LengthUnit;
}

/** A stretch of a core nobody has described. */
export interface Gap {
  core: Core;
  from_m: number;
  to_m: number;
}

export interface Description {
  layers: Layer[];
  /** Between two units; the others are ends. From the top down. */
  contacts: Contact[];
  ends: Contact[];
  gaps: Gap[];
  /** Rows of this hole that have no place: their lengths or their core cannot be read. */
  unplaced: DocRow[];
}

/** Pieces nearer than this touch. No hand makes one thinner than the least, which an eighth of an inch still shows. */
export const TOUCH_M = 0.0005;
export const LEAST_M = 0.004;

/** Bases the rows of a hole are measured in. */
export const basesOf = (rows: readonly DocRow[], hole: string): Basis[] =>
  rows
    .filter((row) => row.cells['hole']?.trim() === hole)
    .map((row) => (row.cells['depth_basis'] ?? '').trim() as Basis);

export function description(
  rows: readonly DocRow[],
  hole: string,
  cores: readonly Core[],
  options: LengthOptions,
): Description {
  const pieces: Piece[] = [];
  const unplaced: DocRow[] = [];
  for (const row of rows) {
    if (row.cells['hole']?.trim() !== hole) continue;
    const core = coreOfCells(cores, row.cells);
    const top = readLength(row.cells['top'], options);
    const bottom = readLength(row.cells['bottom'], options);
    if (core === null || top === null || bottom === null || bottom.m < top.m) unplaced.push(row);
    else pieces.push({ row, core, top_m: top.m, bottom_m: bottom.m, unit: bottom.unit });
  }
  pieces.sort((a, b) => a.core.depthAt(a.top_m) - b.core.depthAt(b.top_m) || a.bottom_m - b.bottom_m);
  const contacts: Contact[] = [];
  const ends: Contact[] = [];
  const gaps: Gap[] = [];
  for (const core of cores) {
    const inCore = pieces.filter((piece) => piece.core === core).sort((a, b) => a.top_m - b.top_m);
    for (const contact of boundaries(core, inCore)) {
      (contact.above !== null && contact.below !== null ? contacts : ends).push(contact);
    }
    gaps.push(...gapsOf(core, inCore));
  }
  return { layers: layersIn(pieces), contacts, ends, gaps, unplaced };
}

/** As the results do it. */
const layersIn = (pieces: readonly Piece[]): Layer[] =>
  layersOf(pieces, ({ row }) => ({
    unit: row.cells['unit']?.trim() ?? '',
    sediment: row.cells['sediment']?.trim() || null,
  })).map((together) => {
    const { row } = together[0]!;
    return { id: row.row_id, label: row.cells['unit']?.trim() ?? '', pieces: together };
  });

function boundaries(core: Core, pieces: readonly Piece[]): Contact[] {
  const found: Contact[] = [];
  const add = (above: Piece | null, below: Piece | null, from_m: number, to_m: number): void => {
    const at_m = above?.bottom_m ?? below!.top_m;
    found.push({
      id: `${above?.row.row_id ?? ''}/${below?.row.row_id ?? ''}`,
      core,
      at_m,
      above,
      below,
      from_m: Math.min(from_m, at_m),
      to_m: Math.max(to_m, at_m),
      unit: (above ?? below)!.unit,
    });
  };
  for (const [i, piece] of pieces.entries()) {
    const before = pieces[i - 1];
    if (before === undefined || piece.top_m - before.bottom_m > TOUCH_M) {
      add(null, piece, before?.bottom_m ?? core.fall_in_m, Math.max(piece.top_m, piece.bottom_m - LEAST_M));
    }
    const next = pieces[i + 1];
    if (next !== undefined && next.top_m - piece.bottom_m <= TOUCH_M) {
      add(piece, next, Math.min(piece.bottom_m, piece.top_m + LEAST_M), next.bottom_m - LEAST_M);
    } else add(piece, null, Math.min(piece.bottom_m, piece.top_m + LEAST_M), next?.top_m ?? core.length_m);
  }
  return found;
}

function gapsOf(core: Core, pieces: readonly Piece[]): Gap[] {
  const gaps: Gap[] = [];
  let reached = core.fall_in_m;
  for (const piece of pieces) {
    if (piece.top_m - reached > TOUCH_M) gaps.push({ core, from_m: reached, to_m: piece.top_m });
    reached = Math.max(reached, piece.bottom_m);
  }
  if (core.length_m - reached > TOUCH_M) gaps.push({ core, from_m: reached, to_m: core.length_m });
  return gaps;
}

/** The layer a piece or contact row belongs to. */
export const layerOf = (d: Description, row_id: string): Layer | null =>
  d.layers.find((layer) => layer.pieces.some((piece) => piece.row.row_id === row_id)) ?? null;

export const baseOf = (layer: Layer): Piece => layer.pieces.at(-1)!;

/** In-situ depths of its top and base, for drawing. */
export const depthsOf = (layer: Layer): { top_m: number; bottom_m: number } => ({
  top_m: layer.pieces[0]!.core.depthAt(layer.pieces[0]!.top_m),
  bottom_m: baseOf(layer).core.depthAt(baseOf(layer).bottom_m),
});
