/** In which units a crew reads: as it last typed. What was typed in a reading that no longer counts says nothing. */
import { rowsInForce, type TypedRow } from '@stillstand/campaign/document';
import { type LengthUnit, momentOf, parseLength } from '@stillstand/campaign/tables';
import { RIG_TABLES } from './rig-readings.ts';
import type { RowSource } from './row-source.ts';

/** How the crew reads a length. */
export type CrewUnit = 'm' | 'cm' | 'ft';

/**
 * What is measured apart, and the columns it is read in: of a row the first that was typed counts. Pipe bought in feet
 * may be driven by a metric tape, and a core lie on a table with a rule of its own. Where a run touched is offered and
 * seldom typed: its lowest mark says more.
 */
const READ_IN = {
  pipe: ['length'],
  cable: ['end_mark', 'start_mark', 'cable_at_collar', 'stop', 'full', 'sediment', 'interval'],
  core: ['recovered', 'fall_in', 'bottom', 'top'],
  tape: [
    'to_sediment',
    'to_water_inside',
    'to_water_after',
    'to_water_before',
    'water_outside',
    'stick_up_end',
    'stick_up_start',
    'stick_up',
    'ground_below_reference',
    'to',
    'from',
    'inside_top',
    'outside_top',
  ],
} as const satisfies Readonly<Record<string, readonly string[]>>;
type ReadOn = keyof typeof READ_IN;
const INSTRUMENTS = Object.keys(READ_IN) as ReadOn[];

export interface CrewUnits extends Readonly<Record<ReadOn, CrewUnit>> {
  /** Of the last length typed on any of them: where one unit has to do for all. */
  readonly last: CrewUnit;
}

/** What a length in this column is read on; the tape reads all that is nothing else's. */
export const readOn = (column: string): ReadOn =>
  INSTRUMENTS.find((on) => (READ_IN[on] as readonly string[]).includes(column)) ?? 'tape';

/**
 * The unit of the last length typed on each of pipe, cable, core and tape: in this hole; else by the clock in any hole
 * of the campaign, as a crew that goes on to the next hole keeps its tape. Nothing typed: the tape is in the campaign's
 * own unit (`set`, as in its settings), else metres; the others are as the tape, never the tape as the pipe.
 */
export function crewUnits(source: RowSource | null, hole: string, set: string): CrewUnits {
  const tables = source === null ? [] : inForce(source);
  const here = lastUnits(tables, INSTRUMENTS, ({ cells }) =>
    cells['hole']?.trim() === hole ? Number(cells['seq'] ?? 0) : null,
  );
  const missing = INSTRUMENTS.filter((on) => here[on] === undefined);
  const anywhere = lastUnits(tables, missing, ({ cells }) => momentOf(cells['time'] ?? ''));
  const own = set === 'ft' || set === 'cm' ? set : 'm';
  const unitOf = (typed: LengthUnit | undefined, otherwise: CrewUnit): CrewUnit => {
    if (typed === undefined) return otherwise;
    return typed === 'ft' || typed === 'in' ? 'ft' : own === 'ft' ? 'm' : own;
  };
  const tape = unitOf(here.tape ?? anywhere.tape, own);
  const of = (on: ReadOn): CrewUnit => unitOf(here[on] ?? anywhere[on], tape);
  return {
    pipe: of('pipe'),
    cable: of('cable'),
    core: of('core'),
    tape,
    last: unitOf(here.last, set === 'in' ? 'ft' : own),
  };
}

interface InForce {
  decimal_comma: boolean;
  /** The newest first: of a long hole only a few cells are read. */
  rows: readonly TypedRow[];
}

const inForce = (source: RowSource): InForce[] =>
  ([...RIG_TABLES, 'pushes', 'pieces'] as const).map((table) => ({
    decimal_comma: source.dialect?.(table)?.decimal_comma ?? false,
    rows: rowsInForce(table, source.rows(table)).reverse(),
  }));

/**
 * The units of the rows that come last, of the instruments asked for; `place` is where a row comes, null or not a number
 * where it does not count. It is asked for rows alone that say something of them: of a season that is a small part.
 */
function lastUnits(
  tables: readonly InForce[],
  instruments: readonly ReadOn[],
  place: (row: TypedRow) => number | null,
): Partial<Record<ReadOn | 'last', LengthUnit>> {
  const last: Partial<Record<ReadOn | 'last', { at: number; unit: LengthUnit }>> = {};
  for (const { rows, decimal_comma } of tables) {
    for (const row of rows) {
      for (const on of instruments) {
        const column = READ_IN[on].find((c) => (row.cells[c] ?? '') !== '');
        const at = column === undefined ? null : place(row);
        if (column === undefined || at === null || Number.isNaN(at)) continue;
        const tells = ([on, 'last'] as const).filter((of) => at > (last[of]?.at ?? Number.NEGATIVE_INFINITY));
        const read = tells.length === 0 ? null : parseLength(row.cells[column]!, { decimal_comma });
        // a zero is offered, or the same on any tape
        if (read?.ok && read.metres !== 0) for (const of of tells) last[of] = { at, unit: read.unit };
      }
    }
  }
  return Object.fromEntries(Object.entries(last).map(([on, { unit }]) => [on, unit]));
}
