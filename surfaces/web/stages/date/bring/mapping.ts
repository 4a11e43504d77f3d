/** Which of their columns is which of ours, as the table is understood at first, and where its rows begin. */
import { placeOf, type TheirLine, type TheirSheet, understand } from '@stillstand/campaign/import';

/** Columns of ours a laboratory's table can fill, in the order they are asked for. */
export const FILLED = [
  'lab_code',
  'sample',
  'value',
  'error',
  'reported_as',
  'delta13c_permil',
  'fraction_dated',
  'method',
  'calibration_curve',
  'delta_r',
  'delta_r_error',
  'marine_fraction',
  'note',
] as const;
export type Filled = (typeof FILLED)[number];

/** Column of ours → place of theirs. */
export type Mapping = Partial<Record<Filled, number>>;

export interface ReadTable {
  /** Line of the headings, the last of two. */
  headingLine: number;
  headings: readonly string[];
  /** Lines below the headings and their units. */
  lines: readonly TheirLine[];
  mapping: Mapping;
  decimal_comma: boolean;
}

/** `line`: the one a person says the headings are in. */
export function readDates(sheet: TheirSheet, line?: number): ReadTable {
  const understood = understand(sheet, { as: 'dates', ...(line === undefined ? {} : { headings: line }) });
  if (understood === null) {
    const first = sheet.lines[0]!;
    return {
      headingLine: first.line,
      headings: first.cells,
      lines: sheet.lines.slice(1),
      mapping: {},
      decimal_comma: false,
    };
  }
  const { columns, headings, begin_below, decimal_comma } = understood.mapping;
  const mapping: Mapping = {};
  for (const { to, column } of columns) {
    const ours = FILLED.find((each) => each === to);
    if (ours !== undefined) mapping[ours] = placeOf(column);
  }
  return {
    headingLine: headings.at(-1)!,
    headings: columns.map(({ heading }) => heading),
    lines: sheet.lines.filter((each) => each.line > begin_below),
    mapping,
    decimal_comma,
  };
}
