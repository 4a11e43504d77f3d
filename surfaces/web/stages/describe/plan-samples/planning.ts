/** What planning a sample, and taking it, do to the tables. */
import { type Cut, cutOf, takenCells } from '@stillstand/campaign/chain';
import type { Row, TableName } from '@stillstand/campaign/tables';
import type { DocRow } from '../../../store/index.ts';
import type { Described } from '../described.ts';
import { type Edit, freeLabel } from '../edits.ts';

/** Half a sample from a unit whose depth was not planned, m (common practice, no source). */
const HALF_M = 0.01;

type Unit = 'm' | 'cm' | 'ft';
type Planned = Row<'planned_samples'>;

/** The tape of the crew. */
export const tapeUnit = (setting: string | null): Unit =>
  setting === 'cm' || setting === 'ft' ? setting : 'm';

/** A planned sample with the next free label, its place to be typed. */
export const addPlanned = (rowsOf: (table: TableName) => readonly DocRow[], hole: string): Edit[] => [
  {
    change: 'add',
    table: 'planned_samples',
    cells: { sample: freeLabel(hole, [...rowsOf('samples'), ...rowsOf('planned_samples')]), hole },
  },
];

/** Where to cut: at the planned depth, or else in the middle of the planned unit where it is first met. */
export function cutFor(planned: Planned, { cores, description }: Described): Cut | null {
  if (planned.top_m !== null || planned.bottom_m !== null) return cutOf(planned, cores);
  const piece = description.layers.find(({ label }) => label !== '' && label === planned.unit)?.pieces[0];
  if (piece === undefined) return null;
  const half_m = Math.min(HALF_M, (piece.bottom_m - piece.top_m) / 2);
  const middle_m = (piece.top_m + piece.bottom_m) / 2;
  return { core: piece.core, top_m: middle_m - half_m, bottom_m: middle_m + half_m };
}

export const takePlanned = (planned: Planned, cut: Cut | null, unit: Unit): Edit[] => [
  { change: 'add', table: 'samples', cells: takenCells(planned, cut, unit) },
];

/** A sample that gets another label stays the one that was planned. */
export const relabelPlanned = (
  planned: readonly DocRow[],
  label: string,
  { sample }: Readonly<Record<string, string>>,
): Edit[] =>
  label === '' || sample === undefined || sample.trim() === ''
    ? []
    : planned
        .filter(({ cells }) => cells['sample']?.trim() === label)
        .map(({ row_id }) => ({ change: 'edit', table: 'planned_samples', row_id, cells: { sample } }));
