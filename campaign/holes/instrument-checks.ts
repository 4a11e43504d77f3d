/**
 * Staff, tape, cable and receiver against a known length or mark. Readings are never corrected for what a check finds: an
 * offset beyond the error of reading it is a warning, and the errors of what was read with it are widened (assumed: a
 * uniform error as wide as the offset, its half-width ÷ √3).
 */
import type { Campaign } from '@stillstand/campaign/document';
import { type Problem, problem } from '@stillstand/campaign/problems';
import type { Row } from '@stillstand/campaign/tables';
import { square } from '@stillstand/science/base';
import type { RigSettings } from '@stillstand/science/rig';

type CheckRow = Row<'instrument_checks'>;
type Kind = CheckRow['kind'];

/** 1 sigma of reading an instrument at a known length, m; of a receiver its height. Common practice, no source. */
const READING_SIGMA_M: Readonly<Record<Kind, number>> = {
  staff: 0.001,
  tape: 0.003,
  cable: 0.01,
  receiver: 0.02,
};

export interface InstrumentOffset {
  row_id: string;
  instrument: string;
  kind: Kind;
  known_m: number;
  /** Observed − known: negative where it reads short. */
  offset_m: number;
  /** 2 sigma of reading it. */
  within_m: number;
  isBeyond: boolean;
  /** How far a receiver’s position was off; null where not checked. */
  position_off_m: number | null;
}

/** Every check in force, in the order it was written. */
export const instrumentOffsets = (rows: readonly CheckRow[]): InstrumentOffset[] =>
  rows.map(({ row_id, instrument, kind, known_m, observed_m, position_off_m }) => {
    const offset_m = observed_m - known_m;
    const within_m = 2 * READING_SIGMA_M[kind];
    return {
      row_id,
      instrument,
      kind,
      known_m,
      offset_m,
      within_m,
      isBeyond: Math.abs(offset_m) > within_m + 1e-9,
      position_off_m,
    };
  });

/** What an offset comes to over a length, m: in proportion, and never less than was found. A receiver has no length. */
function offsetOver({ kind, known_m, offset_m }: InstrumentOffset, length_m: number): number {
  const times = kind === 'receiver' || known_m <= 0 ? 1 : Math.max(1, length_m / known_m);
  return Math.abs(offset_m) * times;
}

/** The errors of this hole, 1 sigma, wide enough for what the checks of tape and cable found. Others as they are. */
export function widened({ rows }: Pick<Campaign, 'rows'>, hole: string, settings: RigSettings): RigSettings {
  const beyond = instrumentOffsets(rows.instrument_checks).filter(({ isBeyond }) => isBeyond);
  if (beyond.length === 0) return settings;
  const of = <T extends { hole: string }>(table: readonly T[]): T[] => table.filter((r) => r.hole === hole);
  const longest = (lengths: readonly (number | null)[]): number =>
    Math.max(0, ...lengths.map((m) => Math.abs(m ?? 0)));
  const wider = (sigma: number, kind: Kind, length_m: number): number => {
    const found = beyond.filter((each) => each.kind === kind).map((each) => offsetOver(each, length_m));
    return Math.sqrt(square(sigma) + square(Math.max(0, ...found)) / 3);
  };
  const soundings = of(rows.soundings);
  const runs = of(rows.runs);
  const joints = of(rows.string_items).filter((r) => r.action === 'add' && r.length_m !== null);
  const string_m = joints.reduce((sum, r) => sum + r.length_m!, 0);
  // of the string as a whole, shared among joints whose errors are independent
  const share = Math.sqrt(Math.max(1, joints.length));
  const stickUps = of(rows.drives).flatMap((r) => [r.stick_up_start_m, r.stick_up_end_m]);
  return {
    ...settings,
    sounding_sigma_m: wider(
      settings.sounding_sigma_m,
      'tape',
      longest(soundings.map((r) => r.to_sediment_m)),
    ),
    stick_up_sigma_m: wider(settings.stick_up_sigma_m, 'tape', longest(stickUps)),
    joint_sigma_m: wider(settings.joint_sigma_m * share, 'tape', string_m) / share,
    mark_sigma_m: wider(settings.mark_sigma_m, 'cable', longest(runs.map((r) => r.end_mark_m))),
    cable_mark_sigma_m: wider(
      settings.cable_mark_sigma_m,
      'cable',
      longest(runs.map((r) => (r.end_mark_m ?? 0) - (r.start_mark_m ?? r.end_mark_m ?? 0))),
    ),
  };
}

const cm = (m: number): string => `${(100 * m).toFixed(1)} cm`;
const plain = (m: number): string => `${Number(m.toFixed(2))} m`;

/** "tape T1 reads 1.2 cm short in 10 m": what a check found. */
export function offsetWords({ instrument, kind, known_m, offset_m }: InstrumentOffset): string {
  const name = instrument.toLowerCase().startsWith(kind) ? instrument : `${kind} ${instrument}`;
  const size = cm(Math.abs(offset_m));
  if (kind === 'receiver') return `${name} reads ${size} ${offset_m < 0 ? 'low' : 'high'} on a known mark`;
  return `${name} reads ${size} ${offset_m < 0 ? 'short' : 'long'} in ${plain(known_m)}`;
}

/** What it would mean for the longest length that was read. */
function offsetMeans(offset: InstrumentOffset, longest_m: number): string {
  if (offset.kind === 'receiver') return `heights by it are ${cm(offsetOver(offset, 0))} off`;
  const what = offset.kind === 'staff' ? 'a height difference' : 'a depth';
  return `${what} of ${longest_m.toFixed(2)} m is ${cm(offsetOver(offset, longest_m))} off`;
}

const WIDENS: Readonly<Record<Kind, string>> = {
  tape: 'The errors of soundings, stick-ups and joints are widened for it',
  cable: 'The errors of cable marks are widened for it',
  staff: 'Give the levelled references an error at least as large',
  receiver: 'Give the heights it was used for an error at least as large',
};

/** Each offset beyond the error of reading it. */
export function instrumentProblems({ rows, lines }: Pick<Campaign, 'rows' | 'lines'>): Problem[] {
  const depths = [...rows.soundings.map((r) => r.to_sediment_m), ...rows.runs.map((r) => r.end_mark_m)];
  const deepest_m = Math.max(0, ...depths.map((m) => m ?? 0));
  return instrumentOffsets(rows.instrument_checks)
    .filter(({ isBeyond }) => isBeyond)
    .map((offset) => {
      const isDepth = offset.kind === 'tape' || offset.kind === 'cable';
      const longest_m = isDepth && deepest_m > 0 ? deepest_m : Math.max(1, offset.known_m);
      return problem({
        severity: 'warning',
        code: 'instrument-off',
        table: 'instrument_checks',
        row_id: offset.row_id,
        line: lines.get(offset.row_id) ?? null,
        label: offset.instrument,
        column: 'observed',
        found: `${offsetWords(offset)}: ${offsetMeans(offset, longest_m)}`,
        expected: `within ${cm(offset.within_m)}, 2σ of reading it`,
        fix: `Check it again or replace it. No reading is corrected. ${WIDENS[offset.kind]} (assumed uniform, half-width ÷ √3).`,
      });
    });
}
