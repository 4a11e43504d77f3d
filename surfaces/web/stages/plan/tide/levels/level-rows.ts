/** The tide levels of a site as the lines of a grid: which are shown, what is typed in them, what a pasted block holds. */
import { TIDE_LEVELS } from '@stillstand/campaign/tables';
import type { DocRow } from '../../../../store/index.ts';

export const ENTRIES = ['elevation_m', 'sigma_m', 'source'] as const;
export type LevelEntry = (typeof ENTRIES)[number];
export type LevelCells = Readonly<Record<LevelEntry, string>>;

/** Shown whether they are known or not; the others once they are asked for, entered or computed. */
const USUAL: ReadonlySet<string> = new Set(['HAT', 'MHHW', 'MHW', 'MSL', 'MLW', 'MLLW', 'LAT']);

/** Names of the levels shown, the highest first. */
export const shownLevels = (known: ReadonlySet<string>, asked: ReadonlySet<string>): string[] =>
  TIDE_LEVELS.filter((level) => USUAL.has(level) || known.has(level) || asked.has(level));

export const typedCells = (row: DocRow | undefined): LevelCells => ({
  elevation_m: row?.cells['elevation_m'] ?? '',
  sigma_m: row?.cells['sigma_m'] ?? '',
  source: row?.cells['source'] ?? '',
});

export const isEmpty = (cells: LevelCells): boolean => ENTRIES.every((entry) => cells[entry].trim() === '');

export interface PastedLevels {
  levels: { level: string; cells: Partial<LevelCells> }[];
  /** Lines that name no level, as they came. */
  unread: { line: number; text: string }[];
}

/**
 * Rows of a spreadsheet or lines of a list, each a level by its name, its elevation, its 1 sigma and a source; or, without
 * any name, columns from the cell that they are pasted into, down the lines that are shown. Null for a single cell.
 */
export function pastedLevels(
  text: string,
  from: { level: string; entry: LevelEntry },
  shown: readonly string[],
): PastedLevels | null {
  const lines = text
    .split(/\r\n|\r|\n/)
    .map((line, i) => ({ line: i + 1, text: line.trim() }))
    .filter((line) => line.text !== '');
  const named = lines.map(({ text: typed }) => nameIn(typed));
  if (named.every((level) => level === null)) {
    if (!/[\t\n]/.test(text.trim())) return null;
    const start = shown.indexOf(from.level);
    const entries = ENTRIES.slice(ENTRIES.indexOf(from.entry));
    return {
      levels: lines.flatMap(({ text: typed }, i) => {
        const level = shown[start + i];
        return level === undefined ? [] : [{ level, cells: cellsOf(typed.split('\t'), entries) }];
      }),
      unread: lines.slice(shown.length - start),
    };
  }
  const isHeading = (i: number): boolean =>
    i === 0 && !/(?:^|\s)[+\-−]?\d+(?:[.,]\d+)?(?:\s|$)/.test(lines[0]!.text);
  // An error that is headed 2σ is twice the one that is kept.
  const isTwice = isHeading(0) && named[0] === null && /2 ?(?:σ|sigma|sd)|95 ?%/i.test(lines[0]!.text);
  return {
    levels: lines.flatMap(({ text: typed }, i) => {
      const level = named[i];
      if (level === null || level === undefined) return [];
      const cells = partsOf(typed);
      const read = cellsOf(cells.slice(cells.findIndex((cell) => nameIn(cell) === level) + 1), ENTRIES);
      const sigma = Number(read.sigma_m?.replace(',', '.'));
      return [{ level, cells: isTwice && sigma > 0 ? { ...read, sigma_m: String(sigma / 2) } : read }];
    }),
    unread: lines.filter((_, i) => named[i] === null && !isHeading(i)),
  };
}

const NAMES: ReadonlySet<string> = new Set(TIDE_LEVELS);

/** The first word that is the name of a level. */
function nameIn(text: string): string | null {
  const word = text
    .toUpperCase()
    .split(/[^A-Z]+/)
    .find((each) => NAMES.has(each));
  return word ?? null;
}

/** Columns by tabs or semicolons, else by spaces, the words after two numbers being the source. */
function partsOf(text: string): string[] {
  if (/[\t;]/.test(text)) return text.split(/\s*[\t;]\s*/);
  const words = text.split(/[\s:=]+/);
  const isNumber = (word: string | undefined): boolean => /^[±+\-−]?\d/.test(word ?? '');
  const [name = '', first, second] = words;
  if (!isNumber(first)) return [name, words.slice(1).join(' ')];
  const after = words.slice(1).filter((word) => word !== 'm' && word !== '±');
  return isNumber(after[1])
    ? [name, after[0]!, after[1]!, after.slice(2).join(' ')]
    : [name, first!, isNumber(second) ? second! : '', after.slice(1).join(' ')];
}

const cellsOf = (cells: readonly string[], entries: readonly LevelEntry[]): Partial<LevelCells> =>
  Object.fromEntries(
    entries.flatMap((entry, i) => {
      const cell = cells[i]?.trim() ?? '';
      return cell === '' ? [] : [[entry, entry === 'source' ? cell : plain(cell)]];
    }),
  );

/** As the table keeps numbers. */
const plain = (text: string): string => text.replace(/^[±+]\s*/, '').replace('−', '-');
