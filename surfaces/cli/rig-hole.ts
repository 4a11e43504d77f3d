/** One hole of a campaign as the rig's commands need it: its readings folded, its pipe, its samplers, its last levels. */
import type { Campaign, CampaignDocument } from '@stillstand/campaign/document';
import { admitted, type RigEntry, rigEntries, rigSettings, safetyProblems } from '@stillstand/campaign/holes';
import { type Problem, problem } from '@stillstand/campaign/problems';
import { type PullingGear, readSettings } from '@stillstand/campaign/settings';
import { parseLength, type Row, type TableName } from '@stillstand/campaign/tables';
import {
  foldHole,
  type HoleFold,
  type PipeKind,
  type RigReading,
  type RigSettings,
  type RigState,
  type WaterKind,
} from '@stillstand/science/rig';
import { openCampaign } from './campaign-folder.ts';
import { WrongUse } from './command.ts';
import { type CrewUnit, isFeet } from './crew-length.ts';

export const RIG_TABLES = ['ground', 'joints', 'drives', 'soundings', 'water', 'runs'] as const;

export interface RigHole {
  name: string;
  row: Row<'holes'>;
  campaign: Campaign;
  document: CampaignDocument;
  settings: RigSettings;
  /** What pulls the string, as the campaign's settings say. */
  pulling: PullingGear;
  entries: RigEntry[];
  readings: RigReading[];
  fold: HoleFold;
  last: RigState | null;
  /** Of the run in hand, else of the last run, else the only one that goes down a string. */
  sampler: Row<'samplers'> | null;
  pipe: PipeKind | null;
  unit: CrewUnit;
  /** Of the last drive, sounding or run; null where there was none. */
  string_seq: number | null;
  /** Of reading the hole's tables, and of what its readings say. */
  problems: Problem[];
}

/** As it stood after the reading `at` (its seq), or after the last. */
export async function openRigHole(
  path: string,
  name: string,
  at = Number.POSITIVE_INFINITY,
): Promise<RigHole> {
  const { campaign, document, problems } = await openCampaign(path);
  const row = campaign.rows.holes.find((h) => h.hole === name);
  if (row === undefined) {
    const labels = campaign.rows.holes.map((h) => h.hole).join(', ');
    throw new WrongUse(`No hole “${name}”. There are: ${labels === '' ? 'none' : labels}.`);
  }
  const { settings: choices } = readSettings(campaign.rows.settings);
  const settings = {
    ...rigSettings(campaign, row, choices),
    ...(at < Number.POSITIVE_INFINITY ? { ended: false } : {}),
  };
  const entries = rigEntries(campaign, name).filter((e) => e.reading.seq <= at);
  const readings = entries.map((e) => e.reading);
  const fold = foldHole(readings, settings);
  return {
    name,
    row,
    campaign,
    document,
    settings,
    pulling: choices.pulling,
    entries,
    readings,
    fold,
    last: fold.states.at(-1) ?? null,
    sampler: samplerOf(campaign, name, at),
    pipe: pipeOf(campaign, row),
    unit: crewUnit(document, name, choices.listed.find((s) => s.name === 'length_unit')?.value ?? ''),
    string_seq: readings.findLast((r) => ['drive', 'sounding', 'run'].includes(r.kind))?.seq ?? null,
    problems: [
      ...problems.filter((p) => (RIG_TABLES as readonly string[]).includes(p.table) && isOf(p, name)),
      ...findingProblems(campaign, row, entries, fold),
      ...safetyProblems(campaign).filter((p) => isOf(p, name) || !isOfSomeHole(p, campaign)),
    ],
  };
}

/** A problem of this hole, or one whose hole cannot be told. */
function isOf(p: Problem, hole: string): boolean {
  return p.label === null || p.label === hole || p.label.startsWith(`${hole} `);
}

/** A standing no of a day is of every hole. */
const isOfSomeHole = (p: Problem, campaign: Campaign): boolean =>
  campaign.rows.holes.some((h) => h.hole === p.label);

function findingProblems(
  campaign: Campaign,
  row: Row<'holes'>,
  entries: readonly RigEntry[],
  fold: HoleFold,
): Problem[] {
  const table = new Map(entries.map((e) => [e.reading.row_id, e.table]));
  return fold.findings.map((finding) => {
    const { code, severity, row_id, seq, found, expected, mend } = admitted(finding, row);
    return problem({
      severity,
      code,
      row_id,
      found,
      expected,
      mend,
      table: table.get(row_id) ?? 'holes',
      line: campaign.lines.get(row_id) ?? null,
      label: `${row.hole} seq ${seq}`,
    });
  });
}

function samplerOf(campaign: Campaign, hole: string, at: number): Row<'samplers'> | null {
  const { runs, samplers } = campaign.rows;
  const used = runs.findLast((r) => r.hole === hole && r.seq <= at && r.sampler !== null)?.sampler ?? null;
  const down = samplers.filter((s) => s.outside_mm !== null);
  return samplers.find((s) => s.sampler === used) ?? (down.length === 1 ? down[0]! : null);
}

function pipeOf(campaign: Campaign, row: Row<'holes'>): PipeKind | null {
  const pipe = campaign.rows.pipes.find((p) => p.pipe === row.pipe);
  if (pipe === undefined || pipe.outside_diameter_mm === null || pipe.wall_mm === null) return null;
  const { outside_diameter_mm, wall_mm, mass_kg_per_m } = pipe;
  return { outside_diameter_mm, wall_mm, mass_kg_per_m };
}

/** What the crew last typed for this hole, else the campaign's own unit, else metres. */
function crewUnit(document: CampaignDocument, hole: string, set: string): CrewUnit {
  let best: { seq: number; unit: CrewUnit } | null = null;
  const columns = ['to_sediment', 'stick_up_end', 'length', 'start_mark', 'ground_below_reference'];
  for (const name of RIG_TABLES) {
    for (const cells of rowsOf(document, name)) {
      const seq = Number(cells['seq']);
      if (cells['hole']?.trim() !== hole || (best !== null && seq < best.seq)) continue;
      for (const column of columns) {
        const read = parseLength(cells[column] ?? '');
        if (read.ok) best = { seq, unit: isFeet(read.unit) ? 'ft' : 'm' };
      }
    }
  }
  return best?.unit ?? (set === 'ft' || set === 'in' ? 'ft' : 'm');
}

/** Rows of a table by column, as typed. */
function rowsOf(document: CampaignDocument, table: TableName): Record<string, string>[] {
  const { columns = [], rows = [] } = document.tables.get(table) ?? {};
  return rows.map((row) => Object.fromEntries(columns.map((c, i) => [c, row.cells[i] ?? ''])));
}

/** What has changed the plug since it was last sounded; empty where the sounding stands. */
export function sinceSounded(hole: RigHole): string[] {
  const { entries } = hole;
  const at = entries.findLastIndex(
    ({ reading: r }) => r.kind === 'sounding' && r.to_sediment_m !== null && r.purpose !== 'zero_check',
  );
  return entries
    .slice(at + 1)
    .filter(({ reading: r }) => r.kind === 'drive' || r.kind === 'run' || r.kind === 'joint')
    .map((e) => `${e.name} (seq ${e.reading.seq})`);
}

/** What the tape last read at the collar with the tip level with it; 0 where nobody looked. */
export function zeroCheck(hole: RigHole): number {
  const check = hole.readings.findLast((r) => r.kind === 'sounding' && r.purpose === 'zero_check');
  return check?.kind === 'sounding' ? (check.to_sediment_m ?? 0) : 0;
}

export interface WaterNow {
  /** Below the collar as it stands now; null where nobody read it. */
  inside_m: number | null;
  outside_m: number | null;
  inside: WaterKind;
}

/** Water levels as last read, carried to where the collar stands now. */
export function waterNow(hole: RigHole): WaterNow {
  const stickUp = hole.last?.stick_up_m ?? null;
  let inside: number | null = null;
  let outside: number | null = null;
  let kind: WaterKind = 'sea';
  hole.readings.forEach((r, i) => {
    const then = hole.fold.states[i]!.stick_up_m;
    if (r.kind === 'sounding') {
      if (r.water_outside_m !== null) outside = r.water_outside_m;
      if (r.to_water_inside_m !== null && then !== null) inside = r.to_water_inside_m - then;
    } else if (r.kind === 'water') {
      if (r.water === 'fresh') kind = 'fresh';
      if (r.to_water_after_m !== null && then !== null) inside = r.to_water_after_m - then;
    }
  });
  const below = (m: number | null) => (m === null || stickUp === null ? null : m + stickUp);
  return { inside_m: below(inside), outside_m: below(outside), inside: kind };
}

/** Said by commands about a hole whose string is already out. */
export const AT_OPTION = {
  at: {
    type: 'string',
    value: 'SEQ',
    about: 'the hole as it stood after this reading; the last if not given',
  },
} as const;

/** Why a string has no length: nothing is in the hole, or a joint of it was not measured. */
export function noString(hole: RigHole): Problem {
  return hole.fold.joints_in === 0
    ? missingReading(
        'joints',
        hole.name,
        'a string in the hole',
        hole.string_seq === null
          ? 'Nothing has gone in yet: enter shoe and joints.'
          : `The string is out. Use --at SEQ to see it earlier, for example --at ${hole.string_seq}.`,
      )
    : missingReading('joints', hole.name, 'collar to shoe', 'Enter the length of every joint in the string.');
}

/** A needed reading that is not there. */
export function missingReading(table: string, label: string | null, expected: string, mend: string): Problem {
  return problem({ severity: 'error', code: 'reading-missing', table, label, found: '', expected, mend });
}

/** A folder and a hole, or neither: the rig's commands take both or plain options. */
export function holeWords(positionals: readonly string[]): [string, string] | null {
  if (positionals.length === 0) return null;
  const [folder, hole, ...others] = positionals;
  if (folder === undefined || hole === undefined || others.length > 0) {
    throw new WrongUse('Expected a campaign folder and one hole, or no folder and the lengths as options');
  }
  return [folder, hole];
}
