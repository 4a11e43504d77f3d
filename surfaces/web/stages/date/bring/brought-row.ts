/** One row of a laboratory's table as a determination of ours, with what is wrong with it. Nothing of it is dropped. */

import type { TheirLine } from '@stillstand/campaign/import';
import type { Fault } from '@stillstand/campaign/tables';
import { CURVE_NAMES } from '@stillstand/published/curves';
import { readDetermination } from '../age.ts';
import { FILLED, type Filled, type Mapping } from './mapping.ts';

export interface BroughtRow {
  line: number;
  /** As they would be written. */
  cells: Record<string, string>;
  /** By column; the row can be taken nonetheless, and is then named among the problems until it is mended. */
  faults: Partial<Record<string, Fault>>;
  /** What could be read but is doubtful, in words. */
  doubts: string[];
  /** Why it is not taken unless asked for: a laboratory code that is here already. */
  known: string | null;
}

export interface BringOptions {
  mapping: Mapping;
  /** For all rows whose own cell is empty. */
  fixed: Partial<Record<Filled, string>>;
  /** Their columns that are none of ours go into the note. */
  keepRest: boolean;
  /** Their numbers are written 3,05; ours are not. */
  decimal_comma: boolean;
  /** Cells changed by hand, by line. */
  mended: ReadonlyMap<number, Readonly<Record<string, string>>>;
}

export interface Here {
  /** Labels of the samples. */
  samples: readonly string[];
  /** Where the carbon of a sample comes from, by its label, where its material tells. */
  carbon: ReadonlyMap<string, 'atmosphere' | 'sea' | 'mixed'>;
  lab_codes: ReadonlySet<string>;
}

export function broughtRows(
  headings: readonly string[],
  lines: readonly TheirLine[],
  options: BringOptions,
  here: Here,
): BroughtRow[] {
  const seen = new Map<string, number>();
  return lines.map((line) => {
    const cells = { ...cellsOf(headings, line, options, here), ...options.mended.get(line.line) };
    const { row, faults } = readDetermination(cells, {});
    const all: BroughtRow['faults'] = { ...faults };
    const need = (column: string, expected: string, fix: string): void => {
      if (all[column] === undefined && (cells[column] ?? '').trim() === '') {
        all[column] = { code: 'missing', found: '', expected, fix };
      }
    };
    need('lab_code', 'the laboratory’s code', 'Choose the column that has it, or type it here.');
    need('sample', 'the sample that was dated', 'Choose the column that has it, or type it here.');
    need('method', 'how it was dated', 'Choose one for all rows.');
    need('value', 'an age', 'Choose the column that has it, or type it here.');
    need('error', '1 sigma', 'Choose the column that has it, or type it here.');
    if (row.method === 'radiocarbon') {
      need(
        'calibration_curve',
        'the curve to calibrate on',
        'Choose one for all rows, and change the others one by one.',
      );
    }
    if (row.error !== null && row.error === 0) {
      all['error'] = {
        code: 'no-error',
        found: cells['error'] ?? '',
        expected: 'a 1 sigma above 0',
        fix: 'Ask the laboratory.',
      };
    }
    const sample = (cells['sample'] ?? '').trim();
    if (sample !== '' && !here.samples.includes(sample)) {
      all['sample'] = {
        code: 'unknown-sample',
        found: sample,
        expected: 'a sample of this campaign',
        fix: 'Choose the sample it belongs to, or place the sample in Describe.',
      };
    }
    const code = (cells['lab_code'] ?? '').trim();
    const before = seen.get(code);
    const known =
      code === ''
        ? null
        : here.lab_codes.has(code)
          ? `${code} is in the campaign already`
          : before !== undefined
            ? `${code} is in line ${before} too`
            : null;
    if (code !== '' && before === undefined) seen.set(code, line.line);
    return { line: line.line, cells, faults: all, doubts: doubtsOf(row, here.carbon.get(sample)), known };
  });
}

/** A shell calibrated on the air's curve, or on the sea's without its offset, gives an age that looks right. */
function doubtsOf(
  row: ReturnType<typeof readDetermination>['row'],
  carbon: 'atmosphere' | 'sea' | 'mixed' | undefined,
): string[] {
  if (row.method !== 'radiocarbon' || row.calibration_curve === null || carbon === undefined) return [];
  const isSea = row.calibration_curve === 'marine20';
  if (carbon === 'sea' && !isSea)
    return [`Its sample is of the sea, and ${row.calibration_curve} is the air’s curve.`];
  if (carbon === 'atmosphere' && isSea)
    return ['Its sample took its carbon from the air, and marine20 is the sea’s curve.'];
  if (isSea && row.delta_r === null) return ['The sea’s curve needs a reservoir offset ΔR for this coast.'];
  return carbon === 'mixed' && row.marine_fraction === null
    ? ['Its sample mixes carbon of air and sea: state the marine share.']
    : [];
}

function cellsOf(
  headings: readonly string[],
  { cells: theirs }: TheirLine,
  { mapping, fixed, keepRest, decimal_comma }: BringOptions,
  here: Here,
): Record<string, string> {
  const cells: Record<string, string> = {};
  for (const column of FILLED) {
    const at = mapping[column];
    const typed = at === undefined ? '' : (theirs[at] ?? '').trim();
    cells[column] = typed === '' ? (fixed[column] ?? '') : typed;
  }
  // "5920 ± 25" in one cell is an age and its error.
  const both = /^(.*\d)\s*(?:±|\+\s*\/?\s*[-−])\s*(\d.*)$/u.exec(cells['value']!);
  if (both !== null && cells['error'] === '') {
    cells['value'] = both[1]!.trim();
    cells['error'] = both[2]!.trim();
  }
  if (decimal_comma) {
    for (const column of NUMBERS) cells[column] = cells[column]!.replace(/(\d),(\d)/, '$1.$2');
  }
  cells['value'] = withoutYears(cells['value']!);
  cells['error'] = withoutYears(cells['error']!.replace(/^(?:±|\+\s*\/?\s*[-−])\s*/u, ''));
  cells['sample'] = sampleHere(cells['sample']!, here.samples);
  cells['calibration_curve'] = curveWord(cells['calibration_curve']!);
  cells['method'] = methodWord(cells['method']!);
  if (keepRest) {
    const used = new Set(Object.values(mapping));
    const rest = theirs.flatMap((cell, i) =>
      used.has(i) || cell.trim() === ''
        ? []
        : [`${(headings[i] ?? '').trim() || `column ${i + 1}`}: ${cell.trim()}`],
    );
    cells['note'] = [cells['note']!, ...rest].filter(Boolean).join('; ');
  }
  return Object.fromEntries(Object.entries(cells).filter(([, cell]) => cell !== ''));
}

const NUMBERS = ['value', 'error', 'delta13c_permil', 'delta_r', 'delta_r_error', 'marine_fraction'] as const;

/** "5920 BP", "5920 14C yr BP", "25 yr": the number alone. */
const withoutYears = (text: string): string =>
  text.replace(/\s*(?:14c\s*)?(?:(?:yrs?|years?|a)\.?)?\s*(?:bp)?\.?$/iu, '').trim();

const bare = (label: string): string => label.toLowerCase().replace(/[^\p{L}\p{N}]/gu, '');

/** Our label for theirs where it differs by signs and case alone, and only one does. */
function sampleHere(typed: string, samples: readonly string[]): string {
  if (samples.includes(typed)) return typed;
  const same = samples.filter((label) => bare(label) === bare(typed));
  return typed !== '' && same.length === 1 ? same[0]! : typed;
}

/** "SHCal 20" as the table writes it. */
const curveWord = (typed: string): string => {
  const word = bare(typed);
  return CURVE_NAMES.find((name) => bare(name) === word) ?? typed;
};

/** Words for radiocarbon by accelerator or by counting. */
const methodWord = (typed: string): string =>
  /^(?:ams|14c|c-?14|radiocarbon|lsc|gpc)\b/i.test(typed.trim()) ? 'radiocarbon' : typed;
