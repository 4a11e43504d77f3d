/** Labels: rows that are there already, rows that name others, and what is made because it is named. */
import {
  type Column,
  columnName,
  type Fault,
  labelColumn,
  nearest,
  schemas,
  type TableName,
} from '@stillstand/campaign/tables';
import type { Cells, Here } from './here.ts';
import type { ProposedRow } from './proposal.ts';

type Columns = Readonly<Record<string, Column>>;

/** Made where a row names one that is not there: they say no more than their name. */
const MADE: Readonly<Record<string, string>> = { sites: 'site', datums: 'datum' };

export function nameChecks(here: Here) {
  const labels = new Map<TableName, Set<string>>();
  const labelsOf = (table: TableName): Set<string> => {
    if (!labels.has(table)) {
      const column = labelColumn(table);
      const rows = column === null ? [] : here.rows(table);
      labels.set(table, new Set(rows.map((row) => row[column!] ?? '').filter((label) => label !== '')));
    }
    return labels.get(table)!;
  };
  const saidBy = new Map<string, SaidBy>();
  const read = new Set<TableName>();
  const known = (table: TableName, key: string): SaidBy | undefined => {
    if (!read.has(table)) {
      read.add(table);
      for (const cells of here.rows(table))
        for (const own of keysOf(table, cells)) saidBy.set(own, { line: null, cells });
    }
    return saidBy.get(key);
  };

  return {
    /** What a row names and is neither there nor made. */
    missing(table: TableName, cells: Cells, line: number): { column: string; fault: Fault }[] {
      return Object.entries(schemas[table].columns as Columns).flatMap(([name, column]) => {
        const label = cells[name] ?? '';
        if (column.kind !== 'reference' || label === '' || column.to in MADE) return [];
        // A sample of the line was found or is made with it.
        if (column.to === 'samples' && name === 'sample' && table !== 'samples') return [];
        const there = labelsOf(column.to as TableName);
        if (there.has(label)) return [];
        const near = nearest(label, there);
        const what = column.to === 'holes' ? 'a core of the campaign' : `one of ${column.to}`;
        const fix =
          near !== null
            ? `Perhaps ${near} is meant.`
            : column.to === 'holes'
              ? 'Import the cores first.'
              : 'Correct it, or add that row first.';
        return [{ column: name, fault: { code: 'unknown-label', found: label, expected: what, fix }, line }];
      });
    },
    /** A label that another line of the table has for something else: neither is the other said again. */
    twice(table: TableName, cells: Cells, line: number): { column: string; fault: Fault }[] {
      const column = labelColumn(table);
      if (column === null) return [];
      return keysOf(table, cells).flatMap((key) => {
        const before = known(table, key);
        if (before === undefined || before.line === null || before.line === line) return [];
        const differs = differences(table, before.cells, cells);
        if (differs === '') return [];
        const fault = {
          code: 'label-twice',
          found: cells[column] ?? '',
          expected: `a label of its own: line ${before.line} has it with ${differs}`,
          fix: 'Correct one of the two labels, or leave the line out.',
        };
        return [{ column, fault }];
      });
    },
    /** Why a row is not taken again; null where it is new. */
    known(table: TableName, cells: Cells, line: number): string | null {
      for (const key of keysOf(table, cells)) {
        const before = known(table, key);
        if (before === undefined) continue;
        const name = labelColumn(table) === null ? 'the same' : (cells[labelColumn(table)!] ?? 'the same');
        if (before.line === null) {
          const differs = differences(table, before.cells, cells);
          return `${name} is in the campaign already${differs === '' ? '' : `, with ${differs}`}`;
        }
        if (before.line !== line || labelColumn(table) === null)
          return `${name} is in line ${before.line} already`;
      }
      return null;
    },
    take(table: TableName, cells: Cells, line: number): void {
      for (const key of keysOf(table, cells))
        if (known(table, key) === undefined) saidBy.set(key, { line, cells });
      const column = labelColumn(table);
      if (column !== null && (cells[column] ?? '') !== '') labelsOf(table).add(cells[column]!);
    },
    /** Rows of sites and datums that these rows name and that are not there. */
    made(rows: readonly ProposedRow[]): ProposedRow[] {
      const made: ProposedRow[] = [];
      for (const { table, cells, line } of rows) {
        for (const [name, column] of Object.entries(schemas[table].columns as Columns)) {
          const label = cells[name] ?? '';
          if (column.kind !== 'reference' || label === '' || !(column.to in MADE)) continue;
          const to = column.to as TableName;
          if (labelsOf(to).has(label)) continue;
          labelsOf(to).add(label);
          made.push({
            table: to,
            cells: { [MADE[to]!]: label, ...kindOfDatum(to, label) },
            line,
            made: true,
          });
        }
      }
      return made;
    },
  };
}

/** A row that says something, and the line it is from; null for a row of the campaign. */
interface SaidBy {
  line: number | null;
  cells: Cells;
}

/** More are not named. */
const MOST_DIFFERENCES = 3;
/** What says nothing of the thing itself. */
const ABOUT_THE_ROW = new Set(['row_id', 'note', 'seq', 'time', 'by', 'device']);

/** What a row says otherwise than another of its label: "value 3120, not 3150"; empty where it says nothing else. */
function differences(table: TableName, before: Cells, now: Cells): string {
  const differ = Object.keys(schemas[table].columns).filter((name) => {
    const [was, is] = [before[name] ?? '', now[name] ?? ''];
    return !ABOUT_THE_ROW.has(name) && is !== '' && was !== is && !(was !== '' && Number(was) === Number(is));
  });
  const columns: Columns = schemas[table].columns;
  const numbersFirst = [
    ...differ.filter((name) => columns[name]!.kind === 'number'),
    ...differ.filter((name) => columns[name]!.kind !== 'number'),
  ];
  const named = numbersFirst
    .slice(0, MOST_DIFFERENCES)
    .map((name) => `${columnName(table, name)} ${before[name] || 'blank'}, not ${now[name]}`);
  return named.join('; ');
}

/** The kind of a zero, where its name says it. */
function kindOfDatum(table: TableName, label: string): Cells {
  if (table !== 'datums') return {};
  if (/^MSL$/i.test(label)) return { kind: 'mean_sea_level' };
  if (/^(?:M?[HL]+W[SN]?|MTL|DTL|HAT|LAT)$/i.test(label)) return { kind: 'tidal' };
  return /^(?:NAVD|NGVD|CGVD|NAP|DHHN|NHN|OD|AHD|EVRF|RH|DVR)/i.test(label) ? { kind: 'orthometric' } : {};
}

/**
 * What a row is known by: its label in its scope; else everything it says beyond its note and its place in a series. A
 * measurement is known by what, where and how it was measured.
 */
function keysOf(table: TableName, cells: Cells): string[] {
  const label = labelColumn(table);
  const scope: readonly string[] = schemas[table].scope;
  if (label !== null) {
    const name = cells[label] ?? '';
    return name === '' ? [] : [[table, ...scope.map((column) => cells[column] ?? ''), name].join('\u0000')];
  }
  const said = Object.keys(schemas[table].columns)
    .filter((column) => !ABOUT_THE_ROW.has(column))
    .map((column) => cells[column] ?? '');
  return said.every((cell) => cell === '') ? [] : [[table, ...said].join('\u0000')];
}
