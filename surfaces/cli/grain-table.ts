/** A table of grain-size classes, a row a sample and a column a class, handed to `grains`. */
import { type GrainClass, type ScaleName, type SizeRange, sizeRange } from '@stillstand/science/laboratory';
import { WrongUse } from './command.ts';
import { type PlainRow, type PlainTable, readPlainTable } from './plain-table.ts';

export interface GrainRow {
  /** Its sample, or its line where it names none. */
  name: string;
  line: number;
  classes: GrainClass[];
}

interface ClassColumn extends SizeRange {
  column: string;
  name: string;
  sigma: string | null;
}

/** Said after the class in a heading. */
const UNIT = /[\s_]*[([]?(?:%|percent|pct|wt\.? ?%|g)[)\]]?$/;

/** @throws WrongUse for a table with fewer than two classes. */
export async function readGrainTable(
  path: string,
  scale: ScaleName,
): Promise<{ table: PlainTable; rows: GrainRow[] }> {
  const table = await readPlainTable(path, []);
  const classes = table.columns.flatMap((column) => classOf(column, scale, table.columns) ?? []);
  if (classes.length < 2 && table.problems.every(({ severity }) => severity !== 'error'))
    throw new WrongUse(
      `${table.name}: found the columns ${table.columns.join(', ')}; expected a column for each class, such as > 2 mm, 1-2 mm, 63-125 µm, 3-4 phi, silt, clay`,
    );
  const rows = table.rows.map((row) => ({
    name: row.text('sample') || row.text('id') || `line ${row.line}`,
    line: row.line,
    classes: classes.flatMap((each) => amountIn(row, each) ?? []),
  }));
  return { table, rows };
}

function classOf(column: string, scale: ScaleName, columns: readonly string[]): ClassColumn | null {
  const name = column.replace(UNIT, '').replaceAll('_', ' ').trim();
  const range = sizeRange(name, scale);
  if (range === null) return null;
  const sigma = [`${column}_sigma`, `${column} sigma`, `${name} sigma`].find((each) =>
    columns.includes(each),
  );
  return { column, name, sigma: sigma ?? null, ...range };
}

/** Null for an empty cell; `<0.5` is a limit. */
function amountIn(row: PlainRow, { column, name, sigma, ...range }: ClassColumn): GrainClass | null {
  const typed = row.text(column).trim();
  const is_limit = typed.startsWith('<');
  const amount = is_limit ? Number(typed.slice(1)) : row.number(column);
  if (amount === null) return null;
  if (is_limit && !(amount > 0)) {
    row.problem(column, typed, 'a number behind <', 'Correct it. The class is left out until then.');
    return null;
  }
  return {
    id: column,
    name,
    coarser_phi: range.coarser_phi,
    finer_phi: range.finer_phi,
    amount,
    sigma: sigma === null ? null : row.number(sigma, { min: 0 }),
    is_limit,
  };
}
