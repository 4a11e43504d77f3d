/** Rows of the rig's tables as the plain readings that the rig's reducer takes. */
import { type Campaign, compareReadings, type InOrder } from '@stillstand/campaign/document';
import { rowName } from '@stillstand/campaign/tables';
import type { RigFinding, RigReading, RigSettings } from '@stillstand/science/rig';
import { rigDefaults } from '@stillstand/science/rig';
import { widened } from './instrument-checks.ts';
import { ownThreadLoss } from './pipe-stock.ts';

/** The tables whose readings are folded into the state of a hole. */
export const RIG_TABLES = [
  'ground_levels',
  'string_items',
  'drives',
  'soundings',
  'water_added',
  'runs',
] as const;
export type RigTable = (typeof RIG_TABLES)[number];

/** A reading of the rig as the reducer takes it, with the table it stands in. */
export interface RigEntry {
  table: RigTable;
  reading: RigReading;
  /** What a person calls it. */
  name: string;
  time: string | null;
}

/** No zero check reads the sediment: in version 1 it had what the cable read in that column. */
function sedimentOrZero(r: {
  purpose: string | null;
  to_sediment_m: number | null;
  cable_at_collar_m: number | null;
}): { to_sediment_m: number | null; cable_at_collar_m: number | null } {
  const isCheck = r.purpose === 'zero_check';
  return {
    to_sediment_m: isCheck ? null : r.to_sediment_m,
    cable_at_collar_m: r.cable_at_collar_m ?? (isCheck ? r.to_sediment_m : null),
  };
}

/** Every rig reading of one hole, in their order (`compareReadings`): what the hole's state is folded from. */
export function rigEntries(
  campaign: Pick<Campaign, 'rows' | 'skipped_rows'>,
  hole: string,
): (RigEntry & { row: { row_id: string } })[] {
  const { rows } = campaign;
  const found: (RigEntry & { row: { row_id: string } })[] = [];
  const take = <T extends { row_id: string; seq: number; time: string | null; hole: string }>(
    table: RigTable,
    of: readonly T[],
    name: (row: T) => string,
    reading: (row: T) => RigReading,
    from: object | null = null,
  ): void => {
    for (const row of rowsOfHole(of, hole)) found.push(entryOf(table, row, name, reading, from));
  };
  const base = <T extends { row_id: string; seq: number }>({ row_id, seq }: T) => ({ row_id, seq });

  take(
    'ground_levels',
    rows.ground_levels,
    () => 'ground level',
    (r) => ({ kind: 'ground', ...base(r), ground_below_reference_m: r.ground_below_reference_m }),
  );
  take(
    'string_items',
    rows.string_items,
    (r) => `${r.item.replace('_', ' ')} ${r.joint ?? ''} ${r.action}`.replace('  ', ' '),
    (r) => {
      const makeup_loss_m = ownThreadLoss(rows.pipe_stock, r);
      return {
        kind: 'joint',
        ...base(r),
        action: r.action,
        item: r.item,
        label: r.joint ?? r.stock_item,
        length_m: r.length_m,
        tight: r.tight,
        ...(makeup_loss_m === null ? {} : { makeup_loss_m }),
      };
    },
    rows.pipe_stock,
  );
  take(
    'drives',
    rows.drives,
    () => 'drive',
    (r) => ({
      kind: 'drive',
      ...base(r),
      stick_up_start_m: r.stick_up_start_m,
      stick_up_end_m: r.stick_up_end_m,
      duration_s: r.duration_s,
      ended_by: r.ended_by,
      frequency_hz: r.frequency_hz,
      obstruction_response: r.obstruction_response,
    }),
  );
  take(
    'soundings',
    rows.soundings,
    (r) => `sounding ${r.purpose?.replace('_', ' ') ?? ''}`.trim(),
    (r) => ({
      kind: 'sounding',
      ...base(r),
      purpose: r.purpose,
      ...sedimentOrZero(r),
      to_water_inside_m: r.to_water_inside_m,
      water_outside_m: r.water_outside_m,
      collar_to_shoe_m: r.collar_to_shoe_m,
      stick_up_m: r.stick_up_m,
      sigma_m: r.sigma_m,
    }),
  );
  take(
    'water_added',
    rows.water_added,
    () => 'water added',
    (r) => ({
      kind: 'water',
      ...base(r),
      volume_l: r.volume_l,
      water: r.kind,
      to_water_before_m: r.to_water_before_m,
      to_water_after_m: r.to_water_after_m,
    }),
  );
  take(
    'runs',
    rows.runs,
    (r) => `run ${r.run}`,
    (r) => ({
      kind: 'run',
      ...base(r),
      run: r.run,
      start_mark_m: r.start_mark_m,
      end_mark_m: r.end_mark_m,
      strokes: r.strokes,
      recovered_m: r.recovered_m,
      fall_in_m: r.fall_in_m,
      loss_position: r.loss_position,
      outcome: r.outcome,
    }),
  );
  found.push(...readingsSetAside(campaign.skipped_rows, hole));
  return found.sort((a, b) => compareReadings(placeOf(a), placeOf(b)));
}

const placeOf = ({ table, time, reading: { seq, row_id } }: RigEntry): InOrder => ({
  table,
  seq,
  time,
  row_id,
});

/**
 * One reading for one row, so that a row that stays the same object is known to be the same reading: until the other
 * rows it is read `from` are others.
 */
const entries = new WeakMap<object, { entry: RigEntry & { row: { row_id: string } }; from: object | null }>();

function entryOf<T extends { row_id: string; time: string | null }>(
  table: RigTable,
  row: T,
  name: (row: T) => string,
  reading: (row: T) => RigReading,
  from: object | null,
): RigEntry & { row: { row_id: string } } {
  const known = entries.get(row);
  if (known !== undefined && known.from === from) return known.entry;
  const entry = { table, reading: reading(row), name: name(row), row, time: row.time };
  entries.set(row, { entry, from });
  return entry;
}

/** Rows by hole, sorted out once for each table: a thousand holes are not a thousand walks through every reading. */
const byHole = new WeakMap<readonly object[], ReadonlyMap<string, readonly unknown[]>>();

function rowsOfHole<T extends { hole: string }>(rows: readonly T[], hole: string): readonly T[] {
  let index = byHole.get(rows) as ReadonlyMap<string, readonly T[]> | undefined;
  if (index === undefined) {
    index = Map.groupBy(rows, (row) => row.hole);
    byHole.set(rows, index);
  }
  return index.get(hole) ?? [];
}

/**
 * A row that could not be read, or that two amendments correct differently, still happened: as a reading without
 * numbers it makes unknown what depends on it (the length of the string from a joint on, what a run removed), instead
 * of being computed as if it were not there.
 */
function readingsSetAside(
  skipped_rows: Campaign['skipped_rows'],
  hole: string,
): (RigEntry & { row: { row_id: string } })[] {
  return skipped_rows.flatMap((row) => {
    if (row.hole !== hole || row.seq === null) return [];
    const reading = emptyReading(row, row.seq);
    if (reading === null) return [];
    const why = row.why === 'conflict' ? 'has amendments that differ' : 'cannot be read';
    const name = `${rowName(row.table, {})} number ${row.seq}, which ${why}`;
    return [{ table: row.table as RigTable, reading, name, row, time: null }];
  });
}

/** What is known of a reading without its numbers: the words that can be read, and on which its amendments agree. */
function emptyReading(
  { table, row_id, label, ...row }: Campaign['skipped_rows'][number],
  seq: number,
): RigReading | null {
  const agreed = row.mayBeWithdrawn ? null : row.agreed;
  const base = { row_id, seq };
  const word = (field: string): string | null => {
    const value = agreed?.[field];
    return typeof value === 'string' ? value : null;
  };
  if (table === 'string_items') {
    const [action, item] = [word('action'), word('item')];
    // What was done is known, or else an item of unknown length may be in the string.
    const isKnown = action !== null && item !== null && agreed !== null;
    return {
      kind: 'joint',
      ...base,
      action: isKnown ? (action as JointReading['action']) : 'add',
      item: isKnown ? (item as JointReading['item']) : 'joint',
      label: isKnown ? word('joint') : null,
      length_m: null,
      tight: isKnown && agreed['tight'] === true ? true : null,
    };
  }
  if (table === 'drives') {
    const unknown = { stick_up_start_m: null, stick_up_end_m: null, duration_s: null, frequency_hz: null };
    return {
      kind: 'drive',
      ...base,
      ...unknown,
      ended_by: word('ended_by') as DriveReading['ended_by'],
      obstruction_response: word('obstruction_response') as Response,
    };
  }
  if (table === 'runs') {
    const unknown = {
      start_mark_m: null,
      end_mark_m: null,
      strokes: null,
      recovered_m: null,
      fall_in_m: null,
    };
    return {
      kind: 'run',
      ...base,
      run: word('run') ?? label ?? '',
      ...unknown,
      loss_position: word('loss_position') as RunReading['loss_position'],
      outcome: word('outcome') as RunReading['outcome'],
    };
  }
  return null;
}

type JointReading = Extract<RigReading, { kind: 'joint' }>;
type DriveReading = Extract<RigReading, { kind: 'drive' }>;
type Response = NonNullable<DriveReading['obstruction_response']> | null;
type RunReading = Extract<RigReading, { kind: 'run' }>;

/** States in which nothing goes deeper. */
export const END_STATES = ['finished', 'refused', 'lost', 'abandoned'] as const;

/** Nothing goes deeper there: by its state. */
export const hasEnded = (state: string | null | undefined): boolean =>
  (END_STATES as readonly (string | null | undefined)[]).includes(state);

/** Ended with less than was wanted: the string lost, or the hole given up. A refusal is an end that the ground makes. */
export const isGivenUp = (state: string | null | undefined): state is 'lost' | 'abandoned' =>
  state === 'lost' || state === 'abandoned';

/** The crew's choices for one hole; of a computation's settings those that reach the rig. */
export function rigSettings(
  campaign: Pick<Campaign, 'rows'>,
  hole: Campaign['rows']['holes'][number],
  settings: Pick<RigSettings, 'sounding_sigma_m' | 'cable_mark_sigma_m' | 'water_outside' | 'plug_kind'> & {
    clearance_margin_m: number;
  },
): RigSettings {
  const pipe = campaign.rows.pipes.find((p) => p.pipe === hole.pipe);
  return widened(campaign, hole.hole, {
    ...rigDefaults,
    makeup_loss_m: pipe?.makeup_loss_m ?? rigDefaults.makeup_loss_m,
    margin_m: settings.clearance_margin_m,
    sounding_sigma_m: settings.sounding_sigma_m,
    cable_mark_sigma_m: settings.cable_mark_sigma_m,
    water_outside: settings.water_outside,
    plug_kind: settings.plug_kind,
    ended: hasEnded(hole.state),
  });
}

/** A loss that the hole's own state admits is a fact of the campaign, nothing left to correct; others stay as found. */
export function admitted(finding: RigFinding, hole: Campaign['rows']['holes'][number]): RigFinding {
  if (finding.code !== 'string-lost' || hole.state !== 'lost') return finding;
  return {
    ...finding,
    severity: 'note',
    fix: 'The hole is marked lost; its readings are used down to the loss.',
  };
}
