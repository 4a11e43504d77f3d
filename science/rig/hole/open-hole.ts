/** A hole while its readings are folded: what the judges of each kind of reading share, and how they name what is wrong. */
import type { FindingCode, RigFinding } from '../finding.ts';
import type { RigReading } from '../reading.ts';
import type { ReducedRun } from '../sampler/run.ts';
import type { Pace } from '../sediment/pace.ts';
import type { Registration, Sediment } from '../sediment/sediment.ts';
import type { RigSettings } from '../settings.ts';
import type { AccountItem, PipeString } from '../string/string.ts';
import type { WaterKind } from '../water/water.ts';

/** A spell in which nobody drove: what the string and the plug did by themselves (a night, a tide, a meal). */
export interface Stand {
  /** Reading that told. */
  row_id: string;
  seq: number;
  /** Rise of the collar since the last reading, added joints taken off: negative settled, positive rebounded. */
  rise_m: number | null;
  /** Plug longer (sand came in) or shorter (settled). */
  plug_change_m: number | null;
}

export interface ReducedDrive {
  row_id: string;
  seq: number;
  /** Penetration before and after, below the ground at the start. */
  from_m: number;
  to_m: number;
  entered_m: number | null;
  /** Entered ÷ advance, of this drive, where soundings before and after it tell. */
  recovery: number | null;
  rate_m_per_min: number | null;
  /** Against what is usual in this hole (see pace.ts); null: not timed, or no timed drive before it. */
  pace: Pace | null;
  /** Rate that was usual before it; its vibrator's usual speed; of how many drives. */
  usual_m_per_min: number | null;
  usual_hz: number | null;
  usual_of: number;
  ended_by: string | null;
  frequency_hz: number | null;
  /** The string was lifted behind it, to try again: it stands higher at the next reading. */
  isLifted: boolean;
}

/** What the judging functions share. */
export interface OpenHole {
  settings: RigSettings;
  string: PipeString;
  /** Collar to shoe, kept up by each joint. */
  length: number | null;
  lost: boolean;
  stickUp: number | null;
  groundStart: number;
  groundNow: number;
  deepest: number;
  sediment: Sediment;
  /** Of the last plug read: its 1 sigma, penetration then, drives and runs since. */
  plugSigma: number;
  plugPenetration: number;
  drivesSince: ReducedDrive[];
  runsSince: { run: ReducedRun; event: Extract<Registration, { kind: 'run' }> | null }[];
  plugBeforeRuns: number | null;
  enteredLast: number;
  head: number | null;
  pressureHead: number | null;
  /** Fresh as soon as any fresh water went in: the lighter, the worse. */
  waterInside: WaterKind;
  /** Where the shoe last was known to be, below the ground at the start. */
  shoeAt: number | null;
  stands: Stand[];
  warnedTight: Set<AccountItem>;
  unknownNamed: boolean;
  drives: ReducedDrive[];
  runs: ReducedRun[];
  findings: RigFinding[];
}

export function find(
  hole: OpenHole,
  reading: Pick<RigReading, 'kind' | 'row_id' | 'seq'>,
  code: FindingCode,
  severity: RigFinding['severity'],
  words: Pick<RigFinding, 'found' | 'expected' | 'fix'>,
): void {
  const { kind, row_id, seq } = reading;
  hole.findings.push({ code, severity, kind, row_id, seq, ...words });
}

export function nameUnknown(hole: OpenHole, reading: RigReading): void {
  if (hole.unknownNamed) return;
  hole.unknownNamed = true;
  find(hole, reading, 'collar-to-shoe-unknown', 'error', {
    found: 'a reading that needs collar to shoe, which is unknown',
    expected: 'the length of every joint in the string',
    fix: 'Enter the missing length; this reading and those after it are not used for numbers.',
  });
}

export const lengthOf = (hole: OpenHole): number | null => hole.length;

export function penetrationOf(hole: OpenHole): number | null {
  const length = lengthOf(hole);
  if (length === null || hole.stickUp === null || hole.string.items.length === 0) return null;
  return length - hole.stickUp - hole.groundStart;
}
