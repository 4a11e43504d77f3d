/**
 * One hole as it stands: its rows read, amended and folded by the very code that computes the campaign, so that the
 * number on the rig is the number in the report. Only the hole's own rows and the small tables they refer to are read,
 * so that a reading is on the screen within milliseconds.
 */
import { type Campaign, parseCampaign, typedReadings } from '@stillstand/campaign/document';
import { hasEnded, type RigEntry, rigEntries, rigSettings } from '@stillstand/campaign/holes';
import type { Problem } from '@stillstand/campaign/problems';
import { type PullingGear, readSettings } from '@stillstand/campaign/settings';
import { type LengthUnit, parseLength, type Row, type TableName } from '@stillstand/campaign/tables';
import { runInHand, waterLevels } from '@stillstand/output/figures';
import {
  type Clearance,
  clearanceOf,
  foldHole,
  type HoleFold,
  type PipeKind,
  type RigReading,
  type RigSettings,
  type RigState,
} from '@stillstand/science/rig';
import { documentOf, isSame } from '../../holes/part-of.ts';
import { READING_TABLES, type ReadingTable, type RowSource, type TypedRow } from './store-door.ts';

/** How the crew reads a length. */
export type CrewUnit = 'm' | 'cm' | 'ft';

/** What is measured apart: pipe bought in feet may be driven by a metric tape. The tape reads all that is neither. */
export type CrewUnits = Readonly<Record<'pipe' | 'tape' | 'cable', CrewUnit>>;

/** What a length in this column is read on. */
export const readOn = (column: string): keyof CrewUnits =>
  column === 'length' ? 'pipe' : column === 'start_mark' || column === 'end_mark' ? 'cable' : 'tape';

export interface HoleNow {
  row: Row<'holes'>;
  campaign: Pick<Campaign, 'rows' | 'aside'>;
  /** Readings that count, in the order of seq, with what they are called. */
  entries: RigEntry[];
  readings: RigReading[];
  settings: RigSettings;
  /** What pulls the string. */
  pulling: PullingGear;
  /** Names of the settings somebody has given: the others are assumed. */
  given: ReadonlySet<string>;
  fold: HoleFold;
  /** After the last reading. */
  last: RigState | null;
  /** Items in the string, from the shoe up. */
  string: HoleFold['account'];
  run: Extract<RigReading, { kind: 'run' }> | null;
  clearance: Clearance | null;
  water: { inside_m: number | null; outside_m: number | null; head_m: number | null };
  /** Ground below the reference, as last read. */
  ground_m: number | null;
  /** Kind of pipe, where both its diameters are known. */
  pipe: PipeKind | null;
  /** The sampler in hand, or the one used last. */
  sampler: Row<'samplers'> | null;
  ended: boolean;
  units: CrewUnits;
  problems: Problem[];
}

/** Tables the hole's rows refer to; they are small. */
const AROUND: readonly TableName[] = ['sites', 'datums', 'pipes', 'samplers', 'settings', 'holes'];

/** The hole with this label, or null where there is none. Pure; the same rows give the same result. */
export const holeNow = (source: RowSource, hole: string): HoleNow | null => holeReader()(source, hole);

type Parsed = Pick<Campaign, 'rows' | 'aside'> & { problems: Problem[] };
type RowLists = readonly (readonly TypedRow[])[];

/**
 * `holeNow` that remembers what it has read: a table whose rows are the same is not read again, and of one that only
 * grew only the new rows are, so that one more reading costs little more than one fold. The answer is the same.
 */
export function holeReader(): (source: RowSource, hole: string) => HoleNow | null {
  const kept = new Map<
    TableName,
    { of: readonly TypedRow[]; own: TypedRow[]; around: RowLists; parsed: Parsed }
  >();
  let keptHole = '';
  return (source, hole) => {
    if (hole !== keptHole) kept.clear();
    keptHole = hole;
    const around = AROUND.map((table) => source.rows(table));
    const read = (table: ReadingTable): Parsed => {
      const of = source.rows(table);
      const last = kept.get(table);
      const sameAround = last?.around.every((rows, i) => isSame(rows, around[i]!)) ?? false;
      if (last !== undefined && sameAround && isSame(last.of, of)) return last.parsed;
      const own = rowsOf(source, table, hole);
      const grown = last !== undefined && sameAround ? withNewRows(source, around, table, last, own) : null;
      const parsed = grown ?? parseTable(source, around, table, own);
      kept.set(table, { of, own, around, parsed });
      return parsed;
    };
    const parsed = READING_TABLES.map(read);
    const rows = { ...parsed[0]!.rows };
    for (const [i, table] of READING_TABLES.entries()) {
      Object.assign(rows, { [table]: parsed[i]!.rows[table] });
    }
    return stateOf(
      source,
      hole,
      rows,
      parsed.flatMap((p) => p.aside),
      parsed.flatMap((p) => p.problems),
    );
  };
}

/**
 * What was read and the new rows behind it; null where that is not the same as reading all anew: something was amended,
 * a label or a place in the order may clash, or a new row has a problem.
 */
function withNewRows(
  source: RowSource,
  around: RowLists,
  table: ReadingTable,
  last: { own: readonly TypedRow[]; parsed: Parsed },
  own: readonly TypedRow[],
): Parsed | null {
  // readings are never edited, so the same row_id is the same row; the labels of runs are compared with each other
  if (table === 'runs' || own.length < last.own.length) return null;
  if (last.own.some((r, i) => r.row_id !== own[i]!.row_id)) return null;
  const added = own.slice(last.own.length);
  if (added.some((r) => (r.cells['amends'] ?? '') !== '')) return null;
  const before = last.parsed.rows[table];
  const parsed = parseTable(source, around, table, added);
  const fresh = parsed.rows[table];
  const after = before.at(-1)?.seq ?? 0;
  if (parsed.problems.length > 0 || parsed.aside.length > 0 || fresh.some((r) => r.seq <= after)) return null;
  return { ...last.parsed, rows: { ...last.parsed.rows, [table]: [...before, ...fresh] } };
}

/** One table of readings with the tables it refers to. */
function parseTable(
  source: RowSource,
  around: RowLists,
  table: ReadingTable,
  rows: readonly TypedRow[],
): Parsed {
  const document = documentOf(source, [
    ...AROUND.map((name, i) => [name, around[i]!] as const),
    [table, rows],
  ]);
  const { campaign, problems } = parseCampaign(document);
  return {
    rows: campaign.rows,
    aside: campaign.aside.filter((a) => a.table === table),
    problems: problems.filter((p) => p.table === table),
  };
}

function stateOf(
  source: RowSource,
  hole: string,
  rows: Campaign['rows'],
  aside: Campaign['aside'],
  problems: Problem[],
): HoleNow | null {
  const campaign = { rows, aside };
  const row = campaign.rows.holes.find((h) => h.hole === hole);
  if (row === undefined) return null;
  const { settings: choices } = readSettings(campaign.rows.settings);
  const settings = rigSettings(campaign, row, choices);
  const entries = rigEntries(campaign, hole);
  return {
    row,
    campaign,
    entries,
    settings,
    pulling: choices.pulling,
    given: new Set(campaign.rows.settings.filter((s) => s.value.trim() !== '').map((s) => s.name)),
    ...folded(
      entries.map((e) => e.reading),
      settings,
    ),
    pipe: pipeOf(campaign, row),
    sampler: samplerOf(campaign, hole),
    ended: hasEnded(row.state),
    units: crewUnits(source, hole, choices.listed.find((s) => s.name === 'length_unit')?.value ?? ''),
    problems,
  };
}

/** The hole as it stood before a place in the order: what an older reading is compared with when it is amended. */
export function nowBefore(now: HoleNow, seq: number): HoleNow {
  const entries = now.entries.filter((e) => e.reading.seq < seq);
  return {
    ...now,
    entries,
    ...folded(
      entries.map((e) => e.reading),
      now.settings,
    ),
  };
}

type Folded = Pick<
  HoleNow,
  'readings' | 'fold' | 'last' | 'string' | 'run' | 'clearance' | 'water' | 'ground_m'
>;

/** What the readings say together. */
function folded(readings: RigReading[], settings: RigSettings): Folded {
  const fold = foldHole(readings, settings);
  const string = stringOf(fold);
  const run = runInHand(readings);
  const tip = run === null ? null : (run.end_mark_m ?? run.start_mark_m);
  const length = fold.collar_to_shoe_m;
  const { inside_m, outside_m } = waterLevels(fold, readings);
  const ground = readings.findLast((r) => r.kind === 'ground');
  return {
    readings,
    fold,
    last: fold.states.at(-1) ?? null,
    string,
    run,
    clearance: tip === null || length === null ? null : clearanceOf(tip, length, fold.joints_in, settings),
    water: {
      inside_m,
      outside_m,
      head_m: inside_m === null || outside_m === null || string.length === 0 ? null : outside_m - inside_m,
    },
    ground_m: ground?.kind === 'ground' ? ground.ground_below_reference_m : null,
  };
}

/** All rows of the readings of one hole: an amendment may be all that says, or no longer says, which hole it is. */
function rowsOf(source: RowSource, table: TableName, hole: string): TypedRow[] {
  const rows = source.rows(table);
  const { of } = typedReadings(table, rows);
  return rows.filter((row) => isOf(row, hole) || of.get(row.row_id)?.rows.some((r) => isOf(r, hole)));
}

const isOf = (row: TypedRow, hole: string): boolean => row.cells['hole']?.trim() === hole;

function stringOf(fold: HoleFold): HoleFold['account'] {
  const within = fold.account.filter(
    (i) => i.item !== 'drive_head' && (i.fate === 'in the string' || i.fate === 'missing'),
  );
  const shoe = within.findIndex((i) => i.item === 'shoe');
  return shoe > 0 ? [within[shoe]!, ...within.filter((_, i) => i !== shoe)] : within;
}

function pipeOf(campaign: Pick<Campaign, 'rows'>, row: Row<'holes'>): PipeKind | null {
  const pipe = campaign.rows.pipes.find((p) => p.pipe === row.pipe);
  if (pipe?.outside_diameter_mm == null || pipe.wall_mm === null) return null;
  const { outside_diameter_mm, wall_mm, mass_kg_per_m } = pipe;
  return outside_diameter_mm > 2 * wall_mm ? { outside_diameter_mm, wall_mm, mass_kg_per_m } : null;
}

function samplerOf(campaign: Pick<Campaign, 'rows'>, hole: string): Row<'samplers'> | null {
  const used = campaign.rows.runs.findLast((r) => r.hole === hole && r.sampler !== null)?.sampler;
  const { samplers } = campaign.rows;
  return samplers.find((s) => s.sampler === used) ?? samplers[0] ?? null;
}

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
 * campaign's own unit, else metres; pipe and cable are as the tape, never the tape as the pipe.
 */
function crewUnits(source: RowSource, hole: string, set: string): CrewUnits {
  const last: Partial<Record<keyof CrewUnits, { seq: number; unit: LengthUnit }>> = {};
  for (const table of ['soundings', 'water', 'drives', 'joints', 'ground', 'runs', 'pushes'] as const) {
    const decimal_comma = source.dialect?.(table)?.decimal_comma ?? false;
    const row = source
      .rows(table)
      .findLast((r) => isOf(r, hole) && TYPED.some((c) => (r.cells[c] ?? '') !== ''));
    const column = TYPED.find((c) => (row?.cells[c] ?? '') !== '');
    if (row === undefined || column === undefined) continue;
    const read = parseLength(row.cells[column]!, { decimal_comma });
    const seq = Number(row.cells['seq'] ?? 0);
    const on = readOn(column);
    if (read.ok && seq > (last[on]?.seq ?? -1)) last[on] = { seq, unit: read.unit };
  }
  const own = set === 'ft' || set === 'cm' ? set : 'm';
  const unitOf = (on: keyof CrewUnits, otherwise: CrewUnit): CrewUnit => {
    const typed = last[on]?.unit;
    if (typed === undefined) return otherwise;
    return typed === 'ft' || typed === 'in' ? 'ft' : own === 'ft' ? 'm' : own;
  };
  const tape = unitOf('tape', own);
  return { pipe: unitOf('pipe', tape), tape, cable: unitOf('cable', tape) };
}
