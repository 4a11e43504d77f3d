/**
 * One table as an .xlsx workbook of one sheet (ECMA-376, Office Open XML, part 1: SpreadsheetML): a heading row that stays
 * in sight, numbers as numbers, all else as inline strings, which no spreadsheet runs. No formulas, links or macros.
 */
import { zipOf } from '@stillstand/campaign/document';
import { lettersOf } from '@stillstand/campaign/import';

export interface SheetColumn {
  heading: string;
  /** Its cells are numbers as CSV has them, or empty. */
  isNumber: boolean;
}

const HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';
const MAIN = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const OFFICE = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const PACKAGE = 'http://schemas.openxmlformats.org/package/2006';
const KIND = 'application/vnd.openxmlformats-officedocument.spreadsheetml';

/** Fixed decimals that a number format is there for. */
const MOST_DECIMALS = 6;
/** Of styles: the plain one, the heading, then numbers of 0, 1, 2 … decimals. */
const HEADING_STYLE = 1;
const NUMBER_STYLE = 2;
/** Ids of formats of one's own begin here (18.8.30). */
const OWN_FORMAT = 164;
/** Widths of columns, characters. Common practice, no source. */
const COLUMN = { least: 8, most: 44 } as const;

/**
 * The same cells give the same bytes. `name` is of the sheet: at most 31 characters, none of : \ / ? * [ ]. `above`: lines of
 * words over the headings, a cell each.
 */
export function xlsx(
  name: string,
  columns: readonly SheetColumn[],
  rows: readonly (readonly string[])[],
  above: readonly string[] = [],
): Uint8Array {
  const parts: Record<string, string> = {
    '[Content_Types].xml': `<Types xmlns="${PACKAGE}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="${KIND}.sheet.main+xml"/><Override PartName="/xl/worksheets/sheet1.xml" ContentType="${KIND}.worksheet+xml"/><Override PartName="/xl/styles.xml" ContentType="${KIND}.styles+xml"/></Types>`,
    '_rels/.rels': relationships([['officeDocument', 'xl/workbook.xml']]),
    'xl/workbook.xml': `<workbook xmlns="${MAIN}" xmlns:r="${OFFICE}"><sheets><sheet name="${escaped(name)}" sheetId="1" r:id="rId1"/></sheets></workbook>`,
    'xl/_rels/workbook.xml.rels': relationships([
      ['worksheet', 'worksheets/sheet1.xml'],
      ['styles', 'styles.xml'],
    ]),
    'xl/styles.xml': styles(),
    'xl/worksheets/sheet1.xml': sheet(columns, rows, above),
  };
  return zipOf(
    Object.entries(parts).map(([path, xml]) => [path, new TextEncoder().encode(HEAD + xml)] as const),
  );
}

const relationships = (all: readonly (readonly [type: string, target: string])[]): string =>
  `<Relationships xmlns="${PACKAGE}/relationships">${all
    .map(
      ([type, target], i) => `<Relationship Id="rId${i + 1}" Type="${OFFICE}/${type}" Target="${target}"/>`,
    )
    .join('')}</Relationships>`;

function styles(): string {
  const decimals = Array.from({ length: MOST_DECIMALS + 1 }, (_, i) => i);
  const format = (n: number): string => (n === 0 ? '0' : `0.${'0'.repeat(n)}`);
  const formats = decimals.map((n) => `<numFmt numFmtId="${OWN_FORMAT + n}" formatCode="${format(n)}"/>`);
  const font = (inside: string): string => `<font>${inside}<sz val="11"/><name val="Calibri"/></font>`;
  const cell = (format: number, font: number, applied: string): string =>
    `<xf numFmtId="${format}" fontId="${font}" fillId="0" borderId="0" xfId="0"${applied}/>`;
  const cells = [
    cell(0, 0, ''),
    cell(0, 1, ' applyFont="1"'),
    ...decimals.map((n) => cell(OWN_FORMAT + n, 0, ' applyNumberFormat="1"')),
  ];
  return `<styleSheet xmlns="${MAIN}"><numFmts count="${formats.length}">${formats.join('')}</numFmts><fonts count="2">${font('')}${font('<b/>')}</fonts><fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills><borders count="1"><border/></borders><cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs><cellXfs count="${cells.length}">${cells.join('')}</cellXfs><cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles></styleSheet>`;
}

function sheet(
  columns: readonly SheetColumn[],
  rows: readonly (readonly string[])[],
  above: readonly string[],
): string {
  const head = above.length + 1;
  const widths = columns.map(({ heading }, i) => {
    const longest = Math.max(heading.length, ...rows.map((row) => row[i]!.length));
    const width = Math.min(COLUMN.most, Math.max(COLUMN.least, longest + 2));
    return `<col min="${i + 1}" max="${i + 1}" width="${width}" customWidth="1"/>`;
  });
  const lines = [
    ...above.map((words, line) => [textCell(words, `A${line + 1}`)]),
    columns.map(({ heading }, i) => textCell(heading, `${lettersOf(i)}${head}`, HEADING_STYLE)),
    ...rows.map((row, line) =>
      row.map((cell, i) => {
        const at = `${lettersOf(i)}${head + line + 1}`;
        if (cell === '') return '';
        return columns[i]!.isNumber ? numberCell(cell, at) : textCell(cell, at);
      }),
    ),
  ].map((cells, i) => `<row r="${i + 1}">${cells.join('')}</row>`);
  const still = `<sheetView workbookViewId="0"><pane ySplit="${head}" topLeftCell="A${head + 1}" activePane="bottomLeft" state="frozen"/></sheetView>`;
  return `<worksheet xmlns="${MAIN}"><sheetViews>${still}</sheetViews>${widths.length === 0 ? '' : `<cols>${widths.join('')}</cols>`}<sheetData>${lines.join('')}</sheetData></worksheet>`;
}

/** Shown with the decimals it is written with, which follow its uncertainty. */
function numberCell(cell: string, at: string): string {
  const decimals = Math.min(MOST_DECIMALS, cell.split('.')[1]?.length ?? 0);
  return `<c r="${at}" s="${NUMBER_STYLE + decimals}"><v>${cell}</v></c>`;
}

/** The most a cell of a spreadsheet holds, characters. */
const MOST_TEXT = 32_767;

const textCell = (text: string, at: string, style = 0): string =>
  `<c r="${at}"${style === 0 ? '' : ` s="${style}"`} t="inlineStr"><is><t xml:space="preserve">${escaped(text.slice(0, MOST_TEXT))}</t></is></c>`;

const ENTITIES: Readonly<Record<string, string>> = { '<': '&lt;', '>': '&gt;', '&': '&amp;', '"': '&quot;' };

/** What XML forbids is written as the format has it, _x0007_ (22.9.2.19), and so is text that looks like that. */
const escaped = (text: string): string =>
  text
    .toWellFormed()
    .replace(/_(?=x[0-9A-F]{4}_)/gi, '_x005F_')
    // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
    .replace(/[\u0000-\u0008\u000b-\u001f\ufffe\uffff]/g, (c) => {
      const code = c.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0');
      return `_x${code}_`;
    })
    .replace(/[<>&"]/g, (c) => ENTITIES[c]!);
