/**
 * What describing does to the tables, as plain lists of edits: each list is one step of undo. Past 250 lines because it is
 * one list of what a hand can do.
 */

import type { Core } from '@stillstand/campaign/chain';
import type { LengthUnit, TableName } from '@stillstand/campaign/tables';
import type { Store } from '../../store/index.ts';
import { baseOf, type Contact, type Gap, type Layer, LEAST_M, type Piece, TOUCH_M } from './layers.ts';
import { writtenLength } from './length.ts';
import { sidesAt } from './tie.ts';

export type Edit =
  | { change: 'add'; table: TableName; cells: Record<string, string> }
  | { change: 'edit'; table: TableName; row_id: string; cells: Record<string, string> }
  | { change: 'remove'; table: TableName; row_id: string };

/** Does the edits as one; returns the row_ids of rows added, in their order. Null where they were refused, which is said. */
export function carryOut(store: Store, edits: readonly Edit[]): string[] | null {
  const added: string[] = [];
  if (edits.length === 0) return added;
  const isDone = store.together(() => {
    for (const edit of edits) {
      if (edit.change === 'add') added.push(store.addRow(edit.table, edit.cells));
      else if (edit.change === 'edit') store.editRow(edit.table, edit.row_id, edit.cells);
      else store.removeRow(edit.table, edit.row_id);
    }
  });
  return isDone ? added : null;
}

const editUnit = (row_id: string, cells: Record<string, string>): Edit => ({
  change: 'edit',
  table: 'units',
  row_id,
  cells,
});

/** A tie between holes, as its row has it. */
interface Tie {
  row_id: string;
  cells: Readonly<Record<string, string>>;
}

/**
 * The contact somewhere else in its core; both units that meet there follow. What was typed stays as typed, unless it
 * lies beyond the neighbours.
 */
export function moveContact(contact: Contact, to_m: number, typed?: string): Edit[] {
  const at_m = Math.min(contact.to_m, Math.max(contact.from_m, to_m));
  const asTyped = at_m === to_m ? typed : undefined;
  const edits: Edit[] = [];
  if (contact.above !== null) {
    edits.push(
      editUnit(contact.above.row.row_id, { bottom: asTyped ?? writtenLength(at_m, contact.above.unit) }),
    );
  }
  if (contact.below !== null) {
    edits.push(
      editUnit(contact.below.row.row_id, { top: asTyped ?? writtenLength(at_m, contact.below.unit) }),
    );
  }
  return edits;
}

/** Cells that say what a layer is; the rest say where a piece of it lies. */
const PLACE = new Set(['row_id', 'hole', 'unit', 'depth_basis', 'run', 'top', 'bottom', 'contact_below']);
const wordsOf = (piece: Piece): Record<string, string> =>
  Object.fromEntries(Object.entries(piece.row.cells).filter(([column]) => !PLACE.has(column)));

/** Something about the whole layer, in every row of it; its contact stands in the last. */
export function describeLayer(layer: Layer, cells: Record<string, string>): Edit[] {
  const { contact_below, ...words } = cells;
  const edits = Object.keys(words).length === 0 ? [] : layer.pieces.map((p) => editUnit(p.row.row_id, words));
  if (contact_below !== undefined) edits.push(editUnit(baseOf(layer).row.row_id, { contact_below }));
  return edits;
}

/** Another label for the layer. A tie that was typed with the label names a row from now on. */
export function relabelLayer(layer: Layer, hole: string, label: string, ties: readonly Tie[]): Edit[] {
  return [
    ...layer.pieces.map((piece) => editUnit(piece.row.row_id, { unit: label })),
    ...tiesByRow(ties, hole, layer, layer.id),
  ];
}

/**
 * Two units where one was, with the same words, parted at a place in one of its cores. The lower one gets a label of
 * its own, and what is tied to the base. The row above the new contact is new.
 */
export function splitLayer(
  layer: Layer,
  piece: Piece,
  at_m: number,
  taken: readonly string[],
  hole: string,
  ties: readonly Tie[],
): Edit[] {
  if (!(at_m >= piece.top_m + LEAST_M && at_m <= piece.bottom_m - LEAST_M)) return [];
  const label = labelAfter(layer.label, taken);
  const at = writtenLength(at_m, piece.unit);
  const { row_id: _, ...cells } = piece.row.cells;
  const below = layer.pieces.slice(layer.pieces.indexOf(piece));
  return [
    { change: 'add', table: 'units', cells: { ...cells, bottom: at, contact_below: 'sharp' } },
    editUnit(piece.row.row_id, { top: at }),
    ...below.map((p) => editUnit(p.row.row_id, { unit: label })),
    ...tiesByRow(ties, hole, layer, piece.row.row_id),
  ];
}

/** One unit of two that follow one another: the upper one's words and label, the lower one's base. */
export function mergeLayers(upper: Layer, lower: Layer, hole: string, ties: readonly Tie[]): Edit[] {
  const words = wordsOf(upper.pieces[0]!);
  const last = baseOf(upper);
  const first = lower.pieces[0]!;
  const oneRow = last.core === first.core && Math.abs(first.top_m - last.bottom_m) <= TOUCH_M;
  const edits: Edit[] = lower.pieces.map((piece) =>
    editUnit(piece.row.row_id, { ...words, unit: upper.label }),
  );
  if (oneRow) {
    edits.push(editUnit(first.row.row_id, { top: last.row.cells['top'] ?? '' }), {
      change: 'remove',
      table: 'units',
      row_id: last.row.row_id,
    });
  } else edits.push(editUnit(last.row.row_id, { contact_below: '' }));
  // The contact that is no more takes its ties along; those of the lower base stay.
  // A label that both have says nothing of which.
  const above = upper.label === lower.label ? { ...upper, label: '' } : upper;
  const gone = ties.filter((tie) => sidesAt(tie, hole, above).length > 0);
  return [
    ...gone.map(({ row_id }): Edit => ({ change: 'remove', table: 'correlations', row_id })),
    ...tiesByRow(
      ties.filter((tie) => !gone.includes(tie)),
      hole,
      lower,
      oneRow && last === upper.pieces[0] ? lower.id : upper.id,
    ),
    ...edits,
  ];
}

/** A unit over a stretch nobody has described: of its own, or the one above going on. */
export function addUnit(
  hole: string,
  gap: Gap,
  goesOn: Layer | null,
  taken: readonly string[],
  unit: LengthUnit,
): Edit[] {
  const words = goesOn === null ? { sediment: 'unknown' } : wordsOf(goesOn.pieces[0]!);
  const edits: Edit[] = [
    {
      change: 'add',
      table: 'units',
      cells: {
        ...words,
        hole,
        unit: goesOn?.label ?? nextLabel(taken),
        depth_basis: gap.core.basis,
        run: gap.core.run,
        top: writtenLength(gap.from_m, unit),
        bottom: writtenLength(gap.to_m, unit),
        // A unit that goes on takes its base along.
        contact_below: goesOn === null ? '' : (baseOf(goesOn).row.cells['contact_below'] ?? ''),
      },
    },
  ];
  if (goesOn !== null) edits.push(editUnit(baseOf(goesOn).row.row_id, { contact_below: '' }));
  return edits;
}

/** Deletes a unit; its stretch is then undescribed. */
export function removeLayer(layer: Layer, hole: string, ties: readonly Tie[]): Edit[] {
  return [
    ...layer.pieces.map((p): Edit => ({ change: 'remove', table: 'units', row_id: p.row.row_id })),
    ...ties
      .filter((tie) => sidesAt(tie, hole, layer).length > 0)
      .map((tie): Edit => ({ change: 'remove', table: 'correlations', row_id: tie.row_id })),
  ];
}

/** Labels 1, 2, 3 … from the top down. */
export function renumber(layers: readonly Layer[], hole: string, ties: readonly Tie[]): Edit[] {
  return layers.flatMap((layer, i): Edit[] => {
    const label = String(i + 1);
    return layer.label === label ? [] : relabelLayer(layer, hole, label, ties);
  });
}

/** "T1-01", "T1-02" …: the first that no sample has, taken or planned. */
export function freeLabel(
  hole: string,
  samples: readonly { cells: Readonly<Record<string, string>> }[],
): string {
  const labels = new Set(samples.map((s) => s.cells['sample']?.trim() ?? ''));
  const at = (number: number): string => `${hole}-${String(number).padStart(2, '0')}`;
  let number = 1;
  while (labels.has(at(number))) number++;
  return at(number);
}

/** A sample in the core, 2 cm thick unless there is less; `samples`: those whose labels are not free, planned ones too. */
export function placeSample(
  hole: string,
  core: Core,
  at_m: number,
  samples: readonly { cells: Readonly<Record<string, string>> }[],
  unit: LengthUnit,
): Edit[] {
  const half = Math.min(0.01, core.length_m / 2);
  const middle = Math.min(core.length_m - half, Math.max(half, at_m));
  return [
    {
      change: 'add',
      table: 'samples',
      cells: {
        sample: freeLabel(hole, samples),
        hole,
        depth_basis: core.basis,
        run: core.run,
        top: writtenLength(middle - half, unit),
        bottom: writtenLength(middle + half, unit),
      },
    },
  ];
}

/** Ties at the base of a layer, by the first row of what the layer becomes, which is what results call it by. */
function tiesByRow(ties: readonly Tie[], hole: string, layer: Layer, row_id: string): Edit[] {
  return ties.flatMap((tie): Edit[] => {
    const sides = sidesAt(tie, hole, layer).filter((side) => tie.cells[`unit_${side}`]?.trim() !== row_id);
    const cells = Object.fromEntries(sides.map((side) => [`unit_${side}`, row_id]));
    return sides.length === 0 ? [] : [{ change: 'edit', table: 'correlations', row_id: tie.row_id, cells }];
  });
}

/** "2" parted gives "2b", then "2c"; nothing else is renamed. */
export function labelAfter(label: string, taken: readonly string[]): string {
  if (label === '') return nextLabel(taken);
  const stem = label.replace(/[b-z]$/, '');
  for (const letter of 'bcdefghijklmnopqrstuvwxyz') {
    if (!taken.includes(`${stem}${letter}`)) return `${stem}${letter}`;
  }
  return nextLabel(taken);
}

/** The number after the highest. */
function nextLabel(taken: readonly string[]): string {
  const numbers = taken.map((label) => Number.parseInt(label, 10)).filter(Number.isFinite);
  return String(Math.max(0, ...numbers) + 1);
}
