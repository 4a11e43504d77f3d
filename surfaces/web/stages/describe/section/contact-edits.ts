/** What is done to a contact of a section, as plain lists of edits: each list is one step of undo. */
import type { SectionResult } from '@stillstand/campaign/results';
import type { DocRow } from '../../../store/index.ts';
import type { Edit } from '../edits.ts';
import type { EditableContact, Ending } from './contacts.ts';

/** What a person says of one contact. */
export interface Said {
  ending?: Ending;
  /** From its first hole, 0 to 1. */
  at_fraction?: number;
  lift_m?: number;
}

/** Rows of the tables that a section is kept in. */
export interface SectionRows {
  lines: readonly DocRow[];
  boundaries: readonly DocRow[];
}

/** Ends of the range that a lift may have, m. */
const MOST_LIFT_M = 100;
/** A contact that ends is drawn no nearer to either hole than this share of the way. */
export const NEAREST = 0.05;

/** A line that is in no row yet, through all holes, is written with the first edit. */
export function lineOf(section: SectionResult, lines: readonly DocRow[]): { label: string; edits: Edit[] } {
  if (section.line !== null) return { label: section.line, edits: [] };
  const holes = section.holes.map(({ hole }) => hole).join('; ');
  // Written a moment ago, and not yet computed.
  const written = lines.find(({ cells }) => cells['holes'] === holes)?.cells['line'];
  if (written !== undefined) return { label: written, edits: [] };
  const label = freeLine(lines);
  return { label, edits: [{ change: 'add', table: 'section_lines', cells: { line: label, holes } }] };
}

/** A, B, C …: the first letter that no line has; after Z, numbers. */
export function freeLine(lines: readonly DocRow[]): string {
  const taken = new Set(lines.map(({ cells }) => (cells['line'] ?? '').trim().toLowerCase()));
  const letters = [...'ABCDEFGHIJKLMNOPQRSTUVWXYZ'];
  const numbers = Array.from({ length: lines.length + 1 }, (_, i) => String(i + 1));
  return [...letters, ...numbers].find((label) => !taken.has(label.toLowerCase()))!;
}

/** The row that says how it runs, kept and changed, or a new one. */
export function sayOf(
  each: EditableContact,
  section: SectionResult,
  { lines, boundaries }: SectionRows,
  said: Said,
): Edit[] {
  const { contact } = each;
  const cells: Record<string, string> = {};
  if (said.ending !== undefined) cells['ending'] = said.ending;
  if (said.at_fraction !== undefined)
    cells['at_fraction'] = written(Math.min(1 - NEAREST, Math.max(NEAREST, said.at_fraction)), 3);
  if (said.lift_m !== undefined)
    cells['lift_m'] = written(Math.min(MOST_LIFT_M, Math.max(-MOST_LIFT_M, said.lift_m)), 2);
  const row = rowOf(each, boundaries);
  if (row !== undefined) {
    // A place that is counted from the other hole.
    const isTurned = row.cells['hole_a']?.trim() !== contact.hole_a;
    if (isTurned && cells['at_fraction'] !== undefined)
      cells['at_fraction'] = written(1 - Number(cells['at_fraction']), 3);
    return [{ change: 'edit', table: 'section_boundaries', row_id: row.row_id, cells }];
  }
  const { label, edits } = lineOf(section, lines);
  return [
    ...edits,
    {
      change: 'add',
      table: 'section_boundaries',
      cells: {
        line: label,
        horizon: calledBy(contact),
        hole_a: contact.hole_a,
        hole_b: each.hole_b,
        ending: contact.ending,
        ...cells,
      },
    },
  ];
}

/** What a row calls it: its horizon, else the unit whose base it is. */
const calledBy = ({ horizon, unit_a_row_id }: EditableContact['contact']): string => horizon ?? unit_a_row_id;

/** The row that it is drawn from, or that was written a moment ago and is not yet computed. */
const rowOf = ({ contact, hole_b }: EditableContact, boundaries: readonly DocRow[]): DocRow | undefined =>
  boundaries.find(({ row_id }) => row_id === contact.boundary) ??
  boundaries.find(
    ({ cells }) =>
      cells['horizon'] === calledBy(contact) &&
      cells['hole_a'] === contact.hole_a &&
      cells['hole_b'] === hole_b,
  );

/** Nothing said any more: as it is drawn by itself. */
export const unsay = ({ contact }: EditableContact): Edit[] =>
  contact.boundary === null
    ? []
    : [{ change: 'remove', table: 'section_boundaries', row_id: contact.boundary }];

/** A correlation that is refused: the contact ends on both sides. */
export const breakTie = ({ contact }: EditableContact): Edit[] =>
  contact.tie === null
    ? []
    : [{ change: 'edit', table: 'correlations', row_id: contact.tie, cells: { status: 'refused' } }];

/** The lift that is written for it, m; 0 for none. */
export function liftOf(each: EditableContact, { boundaries }: SectionRows): number {
  const cells = rowOf(each, boundaries)?.cells;
  const lift = Number((cells?.['lift_m'] ?? '').replace('−', '-'));
  return Number.isFinite(lift) ? lift : 0;
}

const written = (value: number, decimals: number): string => String(Number(value.toFixed(decimals)));
