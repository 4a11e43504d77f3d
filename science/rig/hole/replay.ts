/**
 * A hole's story, reading by reading: what was done, what it changed, what was wrong or unsafe about it. The state after
 * each reading is that of `reduceHole` over all readings up to it; undoing is withdrawing a reading and folding again.
 */
import { tapeLength } from '@stillstand/science/base';
import { metres, type RigFinding } from '../finding.ts';
import type { RigReading } from '../reading.ts';
import { type RigSettings, rigDefaults } from '../settings.ts';
import { itemName } from '../string/account.ts';
import { type ReducedHole, type RigState, reduceHole } from './hole.ts';

export interface ReplayChange {
  what: string;
  from_m: number | null;
  to_m: number | null;
}

export interface ReplayStep {
  row_id: string;
  seq: number;
  kind: RigReading['kind'];
  /** One line in words, lengths in metres. */
  did: string;
  state: RigState;
  changed: ReplayChange[];
  /** About this reading, also where only a later one brought it to light. */
  findings: RigFinding[];
}

const QUANTITIES: readonly [keyof RigState, string][] = [
  ['collar_to_shoe_m', 'collar to shoe'],
  ['stick_up_m', 'stick-up'],
  ['penetration_m', 'penetration'],
  ['plug_m', 'plug'],
  ['removed_m', 'removed'],
  ['entered_m', 'entered'],
  ['inflow_m', 'inflow'],
  ['head_m', 'head of water'],
];
/** Smaller changes are not told. */
const TOLD_M = 0.0005;

/** The readings in order of `seq`, each as a step. Pure; never throws. */
export function replayHole(
  readings: readonly RigReading[],
  settings: RigSettings = rigDefaults,
): { steps: ReplayStep[]; fold: ReducedHole } {
  const fold = reduceHole(readings, settings);
  const byId = Map.groupBy(fold.findings, (f) => f.row_id);
  const ordered = [...readings].sort((a, b) => a.seq - b.seq);
  let before: RigState | null = null;
  const steps = ordered.map((reading, i): ReplayStep => {
    const state = fold.states[i]!;
    const step: ReplayStep = {
      row_id: reading.row_id,
      seq: reading.seq,
      kind: reading.kind,
      did: didOf(reading, fold),
      state,
      changed: changesOf(before, state),
      findings: (byId.get(reading.row_id) ?? []).filter(
        (f) => f.kind === reading.kind && f.seq === reading.seq,
      ),
    };
    before = state;
    return step;
  });
  return { steps, fold };
}

function changesOf(before: RigState | null, after: RigState): ReplayChange[] {
  return QUANTITIES.flatMap(([key, what]) => {
    const from_m = (before?.[key] ?? null) as number | null;
    const to_m = after[key] as number | null;
    if (from_m === null && (to_m === null || to_m === 0)) return [];
    if (from_m !== null && to_m !== null && Math.abs(to_m - from_m) < TOLD_M) return [];
    return [{ what, from_m, to_m }];
  });
}

function didOf(reading: RigReading, fold: ReducedHole): string {
  const words = DID[reading.kind] as (reading: RigReading, fold: ReducedHole) => (string | null)[];
  return words(reading, fold)
    .filter((word) => word !== null)
    .join(', ');
}

const m = (length: number | null): string =>
  length === null || !Number.isFinite(length) ? 'not read' : metres(length);
const when = (length: number | null, words: string): string | null =>
  length === null ? null : `${words} ${m(length)}`;

type Of<K extends RigReading['kind']> = Extract<RigReading, { kind: K }>;

const DID: { [K in RigReading['kind']]: (r: Of<K>, fold: ReducedHole) => (string | null)[] } = {
  joint: (r) => [
    `${itemName(r)} ${{ add: 'added', remove: 'removed', pull: 'pulled', cut: 'cut', left: 'left', lost: 'lost' }[r.action]}`,
    r.length_m === null ? null : m(r.length_m),
    r.tight === null ? null : r.tight ? 'tight' : 'not tight',
  ],
  drive: (r, fold) => {
    const drive = fold.drives.find((d) => d.row_id === r.row_id && d.seq === r.seq);
    const rate = drive?.rate_m_per_min ?? null;
    return [
      `driven from stick-up ${m(r.stick_up_start_m)} to ${m(r.stick_up_end_m)}`,
      drive === undefined ? null : `${m(drive.to_m - drive.from_m)} deeper`,
      rate === null ? null : `${rate.toFixed(2)} m/min${drive?.pace ? ` (${drive.pace})` : ''}`,
      r.frequency_hz === null ? null : `vibrator ${r.frequency_hz} Hz`,
      r.ended_by === null ? null : `ended by ${r.ended_by}`,
    ];
  },
  sounding: (r) => [
    r.purpose === null ? 'sounded' : `sounded ${r.purpose.replace('_', ' ')}`,
    when(r.cable_at_collar_m, 'tape at the collar reads'),
    when(r.to_sediment_m, 'sediment at'),
    when(r.to_water_inside_m, 'water inside at'),
    when(r.water_outside_m, 'water outside below the reference'),
    when(r.stick_up_m, 'stick-up'),
  ],
  run: (r, fold) => {
    const run = fold.runs.find((x) => x.row_id === r.row_id && x.seq === r.seq);
    return [
      `run ${r.run} from ${m(r.start_mark_m)} to ${m(r.end_mark_m)}`,
      r.strokes === null ? null : `${r.strokes} strokes`,
      when(r.recovered_m, 'came up'),
      r.fall_in_m ? `of it fall-in ${m(r.fall_in_m)}` : null,
      run === undefined || run.removed_from === 'nothing'
        ? null
        : `removed ${m(run.removed_m)} (${{ soundings: 'by soundings', advance: 'by its marks', recovered: 'by what came up' }[run.removed_from]})`,
      run === undefined || run.clearance_m === null || run.clearance_sigma_m === null
        ? null
        : `clearance ${tapeLength(run.clearance_m, 'm', 'at most')} ± ${tapeLength(2 * run.clearance_sigma_m, 'm', 'at least')}`,
      r.outcome === null ? null : r.outcome.replace('_', ' '),
    ];
  },
  ground: (r) => [`ground ${m(r.ground_below_reference_m)} below the reference`],
  water: (r) => [
    `${r.volume_l === null ? 'water' : `${r.volume_l} L of${r.water === null ? '' : ` ${r.water}`} water`} added`,
    when(r.to_water_before_m, 'water inside before at'),
    when(r.to_water_after_m, 'after at'),
  ],
};
