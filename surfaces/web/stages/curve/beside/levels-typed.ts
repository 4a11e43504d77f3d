/** Levels of another curve as people copy them: from a spreadsheet, a paper's supplement, or our own curve.csv. */
import { normalQuantile } from '@stillstand/science/base';

interface TypedLevel {
  /** As they will be written. */
  age_cal_bp: string;
  level_m: string;
  /** Empty where none is stated. */
  level_sigma_m: string;
}

export interface LevelsTyped {
  levels: TypedLevel[];
  /** What is wrong, line by line, with what was expected. */
  faults: string[];
  /** That its errors are from columns of a 95 % range. */
  isFromRange: boolean;
}

const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)$/;
/** Of the half width of a central 95 %. */
const Z95 = normalQuantile(0.975);

const HEADINGS = {
  age: /^age|cal ?_?bp/i,
  sigma: /sigma|^sd|_sd|error|±/i,
  lower: /^(rsl|level).*lower.?95/i,
  upper: /^(rsl|level).*upper.?95/i,
  level: /^(level|rsl|height|sea)/i,
} as const;

/**
 * A level a line: age in cal BP, level in m, 1 sigma in m; separated by tabs, commas, semicolons or spaces, with or without
 * a line of headings. Of our own curve.csv the 1 sigma is a 95 % range's.
 */
export function levelsTyped(text: string): LevelsTyped {
  const lines = text.split(/\r?\n/).map((line, i) => ({ line: i + 1, cells: cellsOf(line, text) }));
  const filled = lines.filter(({ cells }) => cells.some((cell) => cell !== ''));
  const [first] = filled;
  if (first === undefined) return { levels: [], faults: [], isFromRange: false };
  const isHeading =
    !NUMBER.test(plain(first.cells[0] ?? '')) && first.cells.some((cell) => /[a-z]/i.test(cell));
  const at = (heading: RegExp): number =>
    isHeading ? first.cells.findIndex((cell) => heading.test(cell)) : -1;
  const of = isHeading
    ? {
        age: at(HEADINGS.age),
        level: at(HEADINGS.level),
        sigma: at(HEADINGS.sigma),
        lower: at(HEADINGS.lower),
        upper: at(HEADINGS.upper),
      }
    : { age: 0, level: 1, sigma: 2, lower: -1, upper: -1 };
  if (of.age === -1 || of.level === -1)
    return {
      levels: [],
      faults: [
        `Line ${first.line}: found ${first.cells.filter(Boolean).join(', ')}; expected headings for the age and the level, or numbers alone.`,
      ],
      isFromRange: false,
    };
  const levels: TypedLevel[] = [];
  const faults: string[] = [];
  const isFromRange = of.sigma === -1 && of.lower !== -1 && of.upper !== -1;
  for (const { line, cells } of isHeading ? filled.slice(1) : filled) {
    const cell = (column: number): string => plain(cells[column] ?? '');
    const [age, level] = [cell(of.age), cell(of.level)];
    const sigma = isFromRange ? halfRange(cell(of.lower), cell(of.upper)) : cell(of.sigma);
    const odd =
      [age, level].find((each) => !NUMBER.test(each)) ?? (sigma === '' || NUMBER.test(sigma) ? null : sigma);
    if (odd !== null || Number(sigma) < 0) {
      faults.push(
        `Line ${line}: found ${cells.filter(Boolean).join(', ') || 'nothing'}; expected an age in cal BP, a level in m and its 1 sigma in m.`,
      );
      continue;
    }
    if (levels.some((each) => Number(each.age_cal_bp) === Number(age))) {
      faults.push(`Line ${line}: found ${age} cal BP a second time; expected one line for each age.`);
      continue;
    }
    levels.push({ age_cal_bp: age, level_m: level, level_sigma_m: sigma });
  }
  return { levels, faults, isFromRange };
}

/** Commas part cells unless tabs or semicolons do: then they are decimal. */
function cellsOf(line: string, text: string): string[] {
  const isTabbed = text.includes('\t');
  if (isTabbed || text.includes(';'))
    return line.split(isTabbed ? '\t' : ';').map((cell) => decimal(cell.trim()));
  return line.trim().split(text.includes(',') ? /\s*,\s*/ : /\s+/);
}

const decimal = (cell: string): string => (/^[+\-−]?\d+,\d+$/.test(cell) ? cell.replace(',', '.') : cell);

const plain = (cell: string): string => cell.replace('−', '-').replace(/^±\s*/, '');

const halfRange = (lower: string, upper: string): string =>
  NUMBER.test(lower) && NUMBER.test(upper) && Number(upper) >= Number(lower)
    ? ((Number(upper) - Number(lower)) / (2 * Z95)).toFixed(4)
    : '?';
