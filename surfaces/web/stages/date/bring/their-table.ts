/** A laboratory's table, whatever it came in: lines of cells, of which one holds the headings. */
import { readCells } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import { guessMapping, headingLine } from './mapping.ts';
import type { TheirLine, TheirSheet } from './their-sheet.ts';

export interface Brought {
  /** What it is called. */
  name: string;
  sheets: TheirSheet[];
  problems: Problem[];
  decimal_comma: boolean;
}

/** Larger than any laboratory's table. */
const MOST_BYTES = 20_000_000;

/** Reads a file or pasted text. Never throws; what cannot be read is said in the problems and has no sheets. */
export async function bringTable(name: string, bytes: Uint8Array): Promise<Brought> {
  const nothing = { name, sheets: [], decimal_comma: false };
  if (bytes.length > MOST_BYTES) {
    return {
      ...nothing,
      problems: [
        refused(
          'table-too-large',
          `${Math.round(bytes.length / 1e6)} MB`,
          'a table of at most 20 MB',
          'Save only the sheet with the results.',
        ),
      ],
    };
  }
  if (bytes[0] === 0x50 && bytes[1] === 0x4b) {
    // Only a spreadsheet costs the code that opens one.
    const { readWorkbook } = await import('./workbook.ts');
    const { sheets, fault } = readWorkbook(bytes);
    return {
      ...nothing,
      sheets,
      problems:
        fault === null
          ? []
          : [
              refused(
                'not-a-spreadsheet',
                fault,
                'a spreadsheet (.xlsx) or CSV',
                'Open it in a spreadsheet program and save it as .xlsx or CSV.',
              ),
            ],
    };
  }
  if (bytes[0] === 0xd0 && bytes[1] === 0xcf) {
    return {
      ...nothing,
      problems: [
        refused(
          'old-spreadsheet',
          'a spreadsheet in the old binary format',
          '.xlsx or CSV',
          'Open it in a spreadsheet program and save it as .xlsx or CSV.',
        ),
      ],
    };
  }
  // A letter above the table may show another delimiter than the table: the one with the best headings is right.
  const readings = ['', 'sep=,\n', 'sep=;\n', 'sep=\t\n'].map((sep) => readText(name, bytes, sep));
  return readings.reduce((best, next) => (headingsIn(next) > headingsIn(best) ? next : best));
}

function readText(name: string, bytes: Uint8Array, sep: string): Brought {
  const isMarked = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf;
  const front = new TextEncoder().encode(sep);
  const text = sep === '' ? bytes : Uint8Array.from([...front, ...bytes.subarray(isMarked ? 3 : 0)]);
  const { cells, problems } = readCells('table', text);
  const lines = [
    ...(cells.columns.length === 0 ? [] : [{ line: 1, cells: [...cells.columns] }]),
    ...cells.rows.map((row) => ({ line: row.line, cells: [...row.cells] })),
  ];
  return {
    name,
    sheets: lines.length === 0 ? [] : [{ name, lines }],
    // Lines of another length than the first are what a letter above a table is made of.
    problems: problems.filter(
      (p) => p.severity === 'error' && (p.line === null || p.code === 'unclosed-quote'),
    ),
    decimal_comma: cells.dialect.delimiter !== ',' && writesCommas(lines, cells.dialect.delimiter === ';'),
  };
}

/**
 * True where some number has a decimal comma and none a decimal point. Three decimals may be thousands, unless a 0 stands
 * alone before them or the cells are parted by semicolons, because their commas are decimal.
 */
function writesCommas(lines: readonly TheirLine[], isSure: boolean): boolean {
  const cells = lines.flatMap((line) => line.cells.map((cell) => cell.trim()));
  const comma = isSure ? /^[-+−]?\d+,\d+$/ : /^[-+−]?(?:0,\d+|\d+,(?:\d{1,2}|\d{4,}))$/;
  return cells.some((cell) => comma.test(cell)) && !cells.some((cell) => /^[-+−]?\d+\.\d+$/.test(cell));
}

const headingsIn = ({ sheets: [sheet] }: Brought): number =>
  sheet === undefined ? -1 : Object.keys(guessMapping(sheet.lines[headingLine(sheet.lines)]!.cells)).length;

function refused(code: string, found: string, expected: string, fix: string): Problem {
  return {
    severity: 'error',
    code,
    table: 'determinations',
    row_id: null,
    line: null,
    label: null,
    column: null,
    found,
    expected,
    fix,
  };
}
