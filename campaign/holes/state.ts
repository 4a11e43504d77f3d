/**
 * One hole as it stands: what every command, screen, step and figure asks of it, worked out in one place by the very code
 * that computes the campaign, so that the number on the rig is the number in the report.
 */
import type { Campaign } from '@stillstand/campaign/document';
import { type PullingGear, readSettings } from '@stillstand/campaign/settings';
import type { Row } from '@stillstand/campaign/tables';
import {
  type InHole,
  inHole,
  type PipeKind,
  type RigFinding,
  type RigReading,
} from '@stillstand/science/rig';
import { type CrewUnits, crewUnits } from './crew-units.ts';
import { admitted, hasEnded, type RigEntry, type RigTable, rigEntries, rigSettings } from './rig-readings.ts';
import type { RowSource } from './row-source.ts';

/** What a state is read from: a campaign, or the tables of one that its holes need. */
export interface HoleSource extends Pick<Campaign, 'rows' | 'skipped_rows'> {
  /** The rows as typed, which say in what unit the crew reads; without them it is the campaign's own. */
  readonly typed?: RowSource;
}

/** A reading that nothing uses until somebody decides between its amendments. */
export interface HoleConflict {
  table: RigTable;
  /** The reading as first written. */
  row_id: string;
  seq: number | null;
}

export interface HoleState extends InHole {
  row: Row<'holes'>;
  campaign: HoleSource;
  /** Readings that count, in the order of seq, with what they are called and when they were written. */
  entries: readonly RigEntry[];
  /** What pulls the string. */
  pulling: PullingGear;
  /** Names of the settings somebody has given: the others are assumed. */
  given: ReadonlySet<string>;
  /** When the water levels were read, ISO 8601 as written; null where nothing was, or no time. */
  read_at: { inside: string | null; outside: string | null };
  /** Kind of pipe, where both its diameters are known and leave a bore. */
  pipe: PipeKind | null;
  /**
   * The sampler in hand, else the one used last in this hole; where none was used, the only one that goes down a string
   * (its outside diameter is known), else the only one there is. Null where several could be meant.
   */
  sampler: Row<'samplers'> | null;
  /** By its state; as it stood earlier no hole has ended. */
  ended: boolean;
  units: CrewUnits;
  conflicts: readonly HoleConflict[];
  /** What the readings say that is wrong or unsafe; a loss that the hole's state admits is a note. */
  findings: readonly RigFinding[];
}

/**
 * The hole with this label; null where there is none. `at`: as it stood after the reading of that seq. `draft`: with a
 * reading that is being typed behind the others. Pure, never throws; lengths in metres, errors 1 sigma.
 */
export function holeState(
  campaign: HoleSource,
  hole: string,
  at: number = Number.POSITIVE_INFINITY,
  draft: RigReading | null = null,
): HoleState | null {
  const row = campaign.rows.holes.find((h) => h.hole === hole);
  if (row === undefined) return null;
  const { settings: choices } = readSettings(campaign.rows.settings);
  const ended = at === Number.POSITIVE_INFINITY && draft === null && hasEnded(row.state);
  const settings = { ...rigSettings(campaign, row, choices), ended };
  const entries = rigEntries(campaign, hole).filter((e) => e.reading.seq <= at);
  const readings = entries.map((e) => e.reading);
  const unit = choices.listed.find((s) => s.name === 'length_unit')?.value ?? '';
  return {
    ...standing(entries, draft === null ? readings : [...readings, draft], settings, row),
    row,
    campaign,
    pulling: choices.pulling,
    given: new Set(campaign.rows.settings.filter((s) => s.value.trim() !== '').map((s) => s.name)),
    pipe: pipeOf(campaign, row),
    sampler: samplerOf(campaign, hole, at),
    ended,
    units: crewUnits(campaign.typed ?? null, hole, unit),
    conflicts: conflictsOf(campaign, hole, at),
  };
}

/** The same hole as it stood before a place in the order: what an older reading is compared with when it is amended. */
export function holeBefore(state: HoleState, seq: number): HoleState {
  const entries = state.entries.filter((e) => e.reading.seq < seq);
  const readings = entries.map((e) => e.reading);
  return { ...state, ...standing(entries, readings, state.settings, state.row) };
}

/** What the readings say together. */
function standing(
  entries: readonly RigEntry[],
  readings: readonly RigReading[],
  settings: InHole['settings'],
  row: Row<'holes'>,
): InHole & Pick<HoleState, 'entries' | 'read_at' | 'findings'> {
  const now = inHole(readings, settings);
  const timeOf = (row_id: string | undefined): string | null =>
    row_id === undefined ? null : (entries.find((e) => e.reading.row_id === row_id)?.time ?? null);
  return {
    ...now,
    entries,
    read_at: { inside: timeOf(now.water.inside?.row_id), outside: timeOf(now.water.outside?.row_id) },
    findings: now.fold.findings.map((finding) => admitted(finding, row)),
  };
}

function pipeOf({ rows }: HoleSource, hole: Row<'holes'>): PipeKind | null {
  const pipe = rows.pipes.find((p) => p.pipe === hole.pipe);
  if (pipe?.outside_diameter_mm == null || pipe.wall_mm === null) return null;
  const { outside_diameter_mm, wall_mm, mass_kg_per_m } = pipe;
  return outside_diameter_mm > 2 * wall_mm ? { outside_diameter_mm, wall_mm, mass_kg_per_m } : null;
}

function samplerOf(
  { rows: { runs, samplers } }: HoleSource,
  hole: string,
  at: number,
): Row<'samplers'> | null {
  const used = runs.findLast((r) => r.hole === hole && r.seq <= at && r.sampler !== null)?.sampler;
  const down = samplers.filter((s) => s.outside_mm !== null);
  const only = down.length === 1 ? down[0] : samplers.length === 1 ? samplers[0] : undefined;
  return samplers.find((s) => s.sampler === used) ?? only ?? null;
}

/** Once each: what a reading may come to is set aside at every place its amendments give it. */
function conflictsOf({ skipped_rows }: HoleSource, hole: string, at: number): HoleConflict[] {
  const found = new Map<string, HoleConflict>();
  for (const { table, row_id, seq, why, hole: of } of skipped_rows) {
    if (why !== 'conflict' || of !== hole || (seq ?? 0) > at) continue;
    const known = found.get(row_id)?.seq ?? Number.POSITIVE_INFINITY;
    found.set(row_id, { table: table as RigTable, row_id, seq: seq === null ? null : Math.min(known, seq) });
  }
  return [...found.values()];
}
