/** In which units a crew reads: as it last typed. What was typed in a reading that no longer counts says nothing. */
import { type LengthUnit, parseLength } from '@stillstand/campaign/tables';
import { RIG_TABLES } from './rig-readings.ts';
import { inForceOf, type RowSource } from './row-source.ts';

/** How the crew reads a length. */
export type CrewUnit = 'm' | 'cm' | 'ft';

/** What is measured apart: pipe bought in feet may be driven by a metric tape. The tape reads all that is neither. */
type ReadOn = 'pipe' | 'tape' | 'cable';

export interface CrewUnits extends Readonly<Record<ReadOn, CrewUnit>> {
  /** Of the last length typed on any of them: where one unit has to do for all. */
  readonly last: CrewUnit;
}

/** What a length in this column is read on. */
export const readOn = (column: string): ReadOn =>
  column === 'length' ? 'pipe' : column === 'start_mark' || column === 'end_mark' ? 'cable' : 'tape';

/** Of each reading the first of these that was typed. */
const TYPED = [
  'length',
  'start_mark',
  'end_mark',
  'to_sediment',
  'to_water_inside',
  'to_water_after',
  'stick_up_end',
  'ground_below_reference',
  'to',
] as const;

/**
 * The unit of the last length typed for this hole on each of pipe, tape and cable. Nothing typed: the tape is in the
 * campaign's own unit (`set`, as in its settings), else metres; pipe and cable are as the tape, never the tape as the pipe.
 */
export function crewUnits(source: RowSource | null, hole: string, set: string): CrewUnits {
  const last: Partial<Record<ReadOn | 'last', { seq: number; unit: LengthUnit }>> = {};
  for (const table of source === null ? [] : ([...RIG_TABLES, 'pushes'] as const)) {
    const decimal_comma = source!.dialect?.(table)?.decimal_comma ?? false;
    // The newest first: of a long hole only a few cells are read.
    for (const { cells } of inForceOf(source!, table, hole).toReversed()) {
      const column = TYPED.find((c) => (cells[c] ?? '') !== '');
      const seq = Number(cells['seq'] ?? 0);
      if (column === undefined) continue;
      const tells = ([readOn(column), 'last'] as const).filter((on) => seq > (last[on]?.seq ?? -1));
      const read = tells.length === 0 ? null : parseLength(cells[column]!, { decimal_comma });
      if (read?.ok) for (const on of tells) last[on] = { seq, unit: read.unit };
    }
  }
  const own = set === 'ft' || set === 'cm' ? set : 'm';
  const unitOf = (on: ReadOn | 'last', otherwise: CrewUnit): CrewUnit => {
    const typed = last[on]?.unit;
    if (typed === undefined) return otherwise;
    return typed === 'ft' || typed === 'in' ? 'ft' : own === 'ft' ? 'm' : own;
  };
  const tape = unitOf('tape', own);
  return {
    pipe: unitOf('pipe', tape),
    tape,
    cable: unitOf('cable', tape),
    last: unitOf('last', set === 'in' ? 'ft' : own),
  };
}
