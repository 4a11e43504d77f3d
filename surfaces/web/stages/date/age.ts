/** One determination as its cells stand, typed or half typed: its age, or what keeps it from having one. */
import type { Campaign } from '@stillstand/campaign/document';
import type { DateResult } from '@stillstand/campaign/results';
import {
  type AgeRange,
  ageOf,
  givenOnScreen,
  isForOffset,
  type OwnCurves,
  type Published,
} from '@stillstand/campaign/steps';
import {
  type Column,
  type Fault,
  isNeeded,
  type LengthOptions,
  type Row,
  readCell,
  readLimit,
  schemas,
} from '@stillstand/campaign/tables';
import { isCurveName } from '@stillstand/published/curves';

export type Cells = Readonly<Record<string, string>>;

export type Age =
  | { kind: 'dated'; date: DateResult }
  /** Not to be dated as it stands, and why. */
  | { kind: 'undated'; why: string }
  /** The curve is still being read. */
  | { kind: 'waiting' };

const COLUMNS: Readonly<Record<string, Column>> = schemas.determinations.columns;
/** Without these there is nothing to calibrate; the others may be wrong and are named beside their field. */
const NEEDED: Readonly<Record<string, string>> = {
  method: 'a method',
  value: 'the age the laboratory gave',
  error: 'its 1 sigma',
};

export interface ReadDetermination {
  row: Row<'determinations'>;
  /** By column. */
  faults: Record<string, Fault>;
}

/** Cells to values, column by column; a cell that cannot be read is null and has its fault. */
export function readDetermination(cells: Cells, options: LengthOptions): ReadDetermination {
  const faults: Record<string, Fault> = {};
  const row: Record<string, unknown> = {};
  for (const [name, column] of Object.entries(COLUMNS)) {
    const typed = cells[name]?.trim() ?? '';
    row[name] ??= null;
    if (typed === '') continue;
    const limit = name === 'value' ? readLimit(typed) : null;
    if (limit !== null) row['qualifier'] ??= limit.qualifier;
    const read = readCell(name, column, limit?.value || typed, options);
    if (read.fault !== undefined) faults[name] = read.fault;
    if (read.value !== undefined) row[name] = read.value;
  }
  // A limit has no error of its own.
  if (row['qualifier'] !== null && row['qualifier'] !== 'not_determined') row['error'] ??= 0;
  // Every column was set by the schema the type comes from.
  return { row: row as unknown as Row<'determinations'>, faults };
}

/** Whether value and error are F14C. */
export const isReportedAsF14C = (cells: Cells): boolean =>
  cells['method']?.trim() === 'radiocarbon' && cells['reported_as']?.trim() === 'f14c';

/** Air has never held 3; no age is given to parts of a year. */
const MOST_F14C = 3;

/** Whether what stands as a radiocarbon age is more likely an F14C of which nobody said so. */
export function isPerhapsF14C(cells: Cells, options: LengthOptions): boolean {
  const { method, value } = readDetermination(cells, options).row;
  const isUnsaid = (cells['reported_as']?.trim() ?? '') === '';
  if (method !== 'radiocarbon' || !isUnsaid || value === null) return false;
  return value > 0 && value < MOST_F14C && !Number.isInteger(value);
}

export function ageOfCells(
  cells: Cells,
  options: LengthOptions,
  published: Published,
  own: OwnCurves['of'],
  sample: Row<'samples'> | null,
  range: AgeRange,
  /** Measurements and age densities are taken from it; null: it is still being read. */
  campaign: Campaign | null,
): Age {
  const { row, faults } = readDetermination(cells, options);
  for (const [column, words] of Object.entries(NEEDED)) {
    const fault = faults[column];
    if (fault !== undefined)
      return { kind: 'undated', why: `Found “${fault.found}”; expected ${fault.expected}.` };
    const isMissing = row[column as keyof typeof row] === null;
    if (isMissing && isNeeded(COLUMNS[column]!, (other) => cells[other] ?? ''))
      return { kind: 'undated', why: `It waits for ${words}.` };
  }
  if (isForOffset(row)) {
    return {
      kind: 'undated',
      why: `It is not dated: its age is known${row.known_age_ce === null ? ` by ${row.paired_with}` : `, ${row.known_age_ce} CE`}. It gives the ΔR of ${row.delta_r_group ?? 'its water, once that has a name'}.`,
    };
  }
  const given = givenOnScreen(row, campaign, published);
  if ('why' in given) return { kind: 'undated', why: given.why };
  const age = ageOf(given, published, own, sample, range);
  if (age === null) {
    const { calibration_curve: curve } = row;
    if (curve !== null && isCurveName(curve)) return { kind: 'waiting' };
    const why =
      curve === null
        ? 'It waits for its calibration curve: northern or southern atmosphere, or the sea.'
        : `No curve ${curve} can be used: look at the table of calibration curves.`;
    return { kind: 'undated', why };
  }
  return 'reason' in age && 'kind' in age
    ? { kind: 'undated', why: `${age.reason}.` }
    : { kind: 'dated', date: age as DateResult };
}
