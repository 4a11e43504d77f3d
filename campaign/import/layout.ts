/** How a sheet is laid out: titles, one or two lines of headings, units, rows, footnotes. */
import { type Heading, headingKey, readHeading } from './heading.ts';
import { readAll, scoreAs } from './known-headings.ts';
import { KINDS, type Kind } from './mapping.ts';
import type { TheirLine, TheirSheet } from './sheet.ts';
import { isNoUnit, unitCalled } from './units.ts';

/** Headings are looked for in so many lines from the top. */
const HEADINGS_WITHIN = 40;

export interface Layout {
  /** Line numbers. */
  headings: number[];
  units: number | null;
  begin_below: number;
}

const filled = ({ cells }: TheirLine): string[] => cells.filter((cell) => cell.trim() !== '');

/** True where a line is a title: one cell, or one merged over all. */
const isTitle = (line: TheirLine): boolean => new Set(filled(line)).size < 2;

const isNumeric = (cell: string): boolean => /^[<>~±]?\s*[-+−]?[\d.,]+\s*%?$/.test(cell.trim());

/** True where a line may be headings: several cells that differ, most of them words. */
function mayBeHeadings(line: TheirLine): boolean {
  const cells = filled(line);
  return (
    !isTitle(line) &&
    cells.filter(isNumeric).length * 3 <= cells.length &&
    cells.every((c) => c.length <= 200)
  );
}

function isUnitsLine(line: TheirLine): boolean {
  const cells = filled(line);
  const units = cells.filter((cell) => unitCalled(cell) !== null);
  const known = cells.filter((cell) => unitCalled(cell) !== null || isNoUnit(cell));
  return units.length > 0 && known.length * 3 >= cells.length * 2;
}

const TYPE =
  /^(?:text|data|code|logical|nominal|none|float(?:ing)?|string|numeric|integer|date|datetime|double|char(?:acter)?)$/i;
/** A line under the headings that says of what type each column is. */
export const isTypesLine = (line: TheirLine): boolean =>
  filled(line).length > 1 && filled(line).every((cell) => TYPE.test(cell.trim()));

/**
 * Finds the headings of a sheet by the words a table of that kind is headed with, or of any kind. `said`: the line that a
 * person says they are in.
 */
export function layoutOf(sheet: TheirSheet, as: Kind | null, said: number | null = null): Layout | null {
  const headings = said === null ? headingLines(sheet, as) : sheet.lines.filter(({ line }) => line === said);
  if (headings.length === 0) return null;
  let at = sheet.lines.indexOf(headings.at(-1)!) + 1;
  let units: number | null = null;
  const next = (): TheirLine | undefined => sheet.lines[at];
  if (next() !== undefined && isUnitsLine(next()!)) {
    units = next()!.line;
    at++;
  }
  if (next() !== undefined && isTypesLine(next()!)) at++;
  return {
    headings: headings.map(({ line }) => line),
    units,
    begin_below: sheet.lines[at - 1]!.line,
  };
}

/** One line or two. */
function headingLines(sheet: TheirSheet, as: Kind | null): readonly TheirLine[] {
  const lines = sheet.lines.slice(0, HEADINGS_WITHIN);
  const kinds = as === null ? KINDS : [as];
  const score = (headings: readonly string[]): number => {
    const read = readAll(headings);
    return Math.max(...kinds.map((kind) => scoreAs(kind, read)));
  };
  let best: readonly TheirLine[] = [];
  let most = 0;
  const take = (some: readonly TheirLine[]): void => {
    const own = score(some.length === 1 ? some[0]!.cells : joined(some));
    if (own > most) [best, most] = [some, own];
  };
  for (const [at, line] of lines.entries()) {
    if (!mayBeHeadings(line)) continue;
    take([line]);
    const below = lines[at + 1];
    if (below === undefined || !mayBeHeadings(below) || isUnitsLine(below) || isTypesLine(below)) continue;
    take([line, below]);
  }
  return best;
}

/** The headings of two lines, the upper one said over the blank cells to its right where the lower one has words. */
function joined(lines: readonly TheirLine[]): string[] {
  const width = Math.max(0, ...lines.map(({ cells }) => cells.length));
  const whole = new Array<string>(width).fill('');
  for (const [i, { cells }] of lines.entries()) {
    const below = lines[i + 1]?.cells;
    let over = '';
    for (let at = 0; at < width; at++) {
      const own = (cells[at] ?? '').trim();
      if (own !== '') over = own;
      const said = own === '' && below !== undefined && (below[at] ?? '').trim() !== '' ? over : own;
      if (said !== '' && whole[at] !== said) whole[at] = `${whole[at]} ${said}`.trim();
    }
  }
  return whole;
}

/** The headings that lines of a sheet make, each read with its unit. */
export function headingsOf(
  sheet: TheirSheet,
  { headings, units }: Pick<Layout, 'headings' | 'units'>,
): Heading[] {
  const lineOf = (line: number): TheirLine | undefined => sheet.lines.find((each) => each.line === line);
  const lines = headings.map(lineOf).filter((line) => line !== undefined);
  const unit = units === null ? undefined : lineOf(units);
  const texts = joined(lines);
  const width = Math.max(texts.length, ...sheet.lines.slice(0, 200).map(({ cells }) => cells.length));
  return Array.from({ length: width }, (_, at) => readHeading(texts[at] ?? '', unit?.cells[at] ?? ''));
}

const TOTAL =
  /^(?:(?:sub|grand )?totals?|sum|mean|average|avg\.?|median|minimum|maximum|min\.?|max\.?|count|std\.?(?: ?dev\.?)?|s\.?d\.?|standard deviation|n ?= ?\d+)\s*[:=]?$/i;
/** The error of a formula, such as #N/A, #REF! or #DIV/0!, is none. */
const COMMENT = /^\s*#(?!(?:n\/a|null|num|name|ref|value|div\/0|getting_data|spill|calc)[!?]?\s*$)/i;
/** A line that begins with #, in the files curves are kept in; in other tables it may be core #3. */
export const isComment = ({ cells }: TheirLine): boolean => COMMENT.test(cells[0] ?? '');

const FOOTNOTE =
  /^(?:[*†‡§#¹²³]|\(?[a-z1-9]\)\s|notes?\b[:.]?|sources?\b[:.]?|abbreviations?\b|data from\b|after\b|see\b)/i;

/** Why a line below the headings is no row; null where it may be one. */
export function notARow(line: TheirLine, headings: readonly TheirLine[], columns: number): string | null {
  const cells = filled(line);
  const [first = ''] = cells;
  if (TOTAL.test(first.trim())) return `“${first.trim()}” of the column, not a row`;
  const own = headingKey(line.cells);
  if (headings.some((heading) => headingKey(heading.cells) === own)) return 'the headings once more';
  if (isUnitsLine(line) && cells.length > 1) return 'units once more';
  if (columns < 3 || !isTitle(line)) return null;
  if (FOOTNOTE.test(first.trim())) return 'a footnote';
  return first.length > 25 ? 'a footnote or a title' : null;
}
