/** Sizes of labels as they are sold, by what they measure (common practice, no source). Lengths in mm. */

export interface LabelSheet {
  /** As it is asked for: "a4-3x8". */
  name: string;
  about: string;
  page: { width_mm: number; height_mm: number };
  columns: number;
  rows: number;
  label: { width_mm: number; height_mm: number };
  /** From the edge of the page to the first label, and from one to the next. */
  left_mm: number;
  top_mm: number;
  pitch: { x_mm: number; y_mm: number };
}

const A4 = { width_mm: 210, height_mm: 297 };
const LETTER = { width_mm: 215.9, height_mm: 279.4 };

/** A grid in the middle of its page, `gap_mm` between columns, none between rows. */
function grid(
  name: string,
  page: LabelSheet['page'],
  [columns, rows]: [number, number],
  [width_mm, height_mm]: [number, number],
  gap_mm: number,
): LabelSheet {
  const of = page === A4 ? 'A4' : 'US letter';
  return {
    name,
    about: `${of}, ${columns * rows} of ${width_mm} × ${height_mm} mm`,
    page,
    columns,
    rows,
    label: { width_mm, height_mm },
    left_mm: (page.width_mm - columns * width_mm - (columns - 1) * gap_mm) / 2,
    top_mm: (page.height_mm - rows * height_mm) / 2,
    pitch: { x_mm: width_mm + gap_mm, y_mm: height_mm },
  };
}

/** One label a page, as printers of labels take them. */
export const rollOf = (width_mm: number, height_mm: number): LabelSheet => ({
  name: `${width_mm}x${height_mm}`,
  about: `roll, ${width_mm} × ${height_mm} mm`,
  page: { width_mm, height_mm },
  columns: 1,
  rows: 1,
  label: { width_mm, height_mm },
  left_mm: 0,
  top_mm: 0,
  pitch: { x_mm: width_mm, y_mm: height_mm },
});

export const LABEL_SHEETS: readonly LabelSheet[] = [
  grid('a4-3x8', A4, [3, 8], [70, 37], 0),
  grid('a4-3x7', A4, [3, 7], [63.5, 38.1], 2.5),
  grid('a4-2x7', A4, [2, 7], [99.1, 38.1], 2.5),
  grid('a4-5x13', A4, [5, 13], [38.1, 21.2], 2.5),
  grid('letter-3x10', LETTER, [3, 10], [66.7, 25.4], 3.2),
  rollOf(89, 36),
  rollOf(62, 29),
  rollOf(50, 25),
];

/** Least and greatest side of a roll's label. */
const LEAST_MM = { width: 25, height: 15 };
const MOST_MM = 300;

/** A sheet by its name, or a roll by its measures, "62x29"; null for what is neither, or too small for a name and a code. */
export function sheetNamed(name: string): LabelSheet | null {
  const known = LABEL_SHEETS.find((sheet) => sheet.name === name.trim().toLowerCase());
  if (known !== undefined) return known;
  const measures = /^(\d+(?:\.\d+)?)\s*[x×]\s*(\d+(?:\.\d+)?)(?:\s*mm)?$/i.exec(name.trim());
  if (measures === null) return null;
  const [width_mm, height_mm] = [Number(measures[1]), Number(measures[2])];
  return width_mm < LEAST_MM.width || height_mm < LEAST_MM.height || Math.max(width_mm, height_mm) > MOST_MM
    ? null
    : rollOf(width_mm, height_mm);
}
