/**
 * One hole as it stands: its rows read, amended and folded by the very code that computes the campaign, so that the
 * number on the rig is the number in the report. Only the hole's own rows and the small tables they refer to are read,
 * so that a reading is on the screen within milliseconds.
 */
import { type Campaign, newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import { type RigEntry, readSettings, rigEntries, rigSettings } from '@stillstand/campaign/steps';
import { type LengthUnit, parseLength, type Row, type TableName } from '@stillstand/campaign/tables';
import { runInHand, waterLevels } from '@stillstand/output/figures';
import {
  type Clearance,
  clearanceOf,
  foldHole,
  type HoleFold,
  type RigReading,
  type RigSettings,
  type RigState,
} from '@stillstand/science/rig';
import { READING_TABLES, type RowSource, type TypedRow } from './store-door.ts';

/** How the crew reads its tape. */
export type CrewUnit = 'm' | 'cm' | 'ft';

export interface HoleNow {
  row: Row<'holes'>;
  campaign: Campaign;
  /** Readings that count, in the order of seq, with what they are called. */
  entries: RigEntry[];
  readings: RigReading[];
  settings: RigSettings;
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
  ended: boolean;
  unit: CrewUnit;
  problems: Problem[];
}

/** Tables the hole's rows refer to; they are small. */
const AROUND: readonly TableName[] = ['sites', 'datums', 'pipes', 'samplers', 'settings', 'holes'];
const ENDED = new Set(['finished', 'refused', 'lost', 'abandoned']);

/** The hole with this label, or null where there is none. Pure; the same rows give the same result. */
export function holeNow(source: RowSource, hole: string): HoleNow | null {
  let document = newDocument('drill');
  for (const table of AROUND) document = withRows(document, table, source.rows(table).map(cellsOf));
  for (const table of READING_TABLES) {
    document = withRows(document, table, rowsOf(source, table, hole).map(cellsOf));
  }
  const { campaign, problems } = parseCampaign(document);
  const row = campaign.rows.holes.find((h) => h.hole === hole);
  if (row === undefined) return null;
  const { settings: choices } = readSettings(campaign.rows.settings);
  const settings = rigSettings(campaign, row, choices);
  const entries = rigEntries(campaign, hole);
  const readings = entries.map((e) => e.reading);
  const fold = foldHole(readings, settings);
  const string = stringOf(fold);
  const run = runInHand(readings);
  const tip = run === null ? null : (run.end_mark_m ?? run.start_mark_m);
  const length = fold.collar_to_shoe_m;
  const { inside_m, outside_m } = waterLevels(fold, readings);
  const ground = readings.findLast((r) => r.kind === 'ground');
  return {
    row,
    campaign,
    entries,
    readings,
    settings,
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
    ended: row.state !== null && ENDED.has(row.state),
    unit: crewUnit(source, hole, choices.listed.find((s) => s.name === 'length_unit')?.value ?? ''),
    problems: problems.filter((p) => (READING_TABLES as readonly string[]).includes(p.table)),
  };
}

const cellsOf = ({ row_id, cells }: TypedRow): Record<string, string> => ({ ...cells, row_id });

/** Rows of one hole, amended ones included: an amendment may be all that says which hole it is. */
export function rowsOf(source: RowSource, table: TableName, hole: string): TypedRow[] {
  return source.rows(table).filter((r) => r.cells['hole']?.trim() === hole);
}

function stringOf(fold: HoleFold): HoleFold['account'] {
  const within = fold.account.filter(
    (i) => i.item !== 'drive_head' && (i.fate === 'in the string' || i.fate === 'missing'),
  );
  const shoe = within.findIndex((i) => i.item === 'shoe');
  return shoe > 0 ? [within[shoe]!, ...within.filter((_, i) => i !== shoe)] : within;
}

/** The unit of the last length typed for this hole, else the campaign's own, else metres. */
function crewUnit(source: RowSource, hole: string, set: string): CrewUnit {
  let best: { seq: number; unit: LengthUnit } | null = null;
  for (const table of ['soundings', 'drives', 'joints', 'ground', 'runs'] as const) {
    for (const { cells } of rowsOf(source, table, hole)) {
      const seq = Number(cells['seq'] ?? 0);
      if (best !== null && seq < best.seq) continue;
      for (const column of [
        'to_sediment',
        'stick_up_end',
        'length',
        'ground_below_reference',
        'start_mark',
      ]) {
        const typed = cells[column];
        const read = typed ? parseLength(typed) : null;
        if (read?.ok) best = { seq, unit: read.unit };
      }
    }
  }
  if (best !== null && (best.unit === 'ft' || best.unit === 'in')) return 'ft';
  if (set === 'ft' || set === 'cm') return set;
  return 'm';
}
