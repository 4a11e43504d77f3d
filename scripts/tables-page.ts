// Writes docs/tables.md from the table schemas:  node --import tsx scripts/tables-page.ts
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import {
  type Column,
  isColumnForLater,
  isRecordOnly,
  isTableForLater,
  labelColumn,
  schemas,
  type TableName,
} from '@stillstand/campaign/tables';

const PAGE = join(import.meta.dirname, '..', 'docs', 'tables.md');

const INTRODUCTION = `# The tables of a campaign

Made from the schemas by \`scripts/tables-page.ts\`; do not edit. How cells are read is described in [methods/campaign.md](methods/campaign.md).

A campaign folder has one CSV file for each table, named after it. A table that is not needed may be missing, and so may a column that is not marked ●. Every row also has \`row_id\` (made where it is missing) and \`note\`. Tables of *readings* are only ever added to: a wrong row is amended by a later one, which names it in \`amends\` and says in \`amend_kind\` whether it replaces it, withdraws it or moves it to another \`seq\`; \`seq\` is the order of the readings of one hole.

- **length**: typed with its unit: 3.05 m, 305 cm, 10 ft, 9 ft 11 1/2 in.
- **tide**: a tide level with an offset: MHW, MHW+0.1, MTL-0.25 m.
- **→ table**: a label of that table. **label**: the name a person gives the row, unique in its table or, where stated, in its hole.
- *Not used yet*: kept and shown as entered; no computation, figure or table of the results uses it, and a note names it where it is filled in. *A record*: what was done, what something is, or where a number comes from; shown as entered.
- ◐ marks what a row needs unless others of its columns are filled: an age, where it follows from an age density or from measurements of the sample (luminescence, uranium series).
- ○ marks a detail: a cell of it that cannot be read is left blank and the row is still used. Elsewhere the row is set aside.
`;

/** The page as it should stand. */
export function tablesPage(): string {
  const tables = (Object.keys(schemas) as TableName[]).map(section);
  return `${[INTRODUCTION, ...tables].join('\n')}`;
}

/** Columns every table has, or every table of readings; said once above. */
const COMMON = new Set(['row_id', 'note']);
const READING = new Set(['seq', 'time', 'by', 'device', 'amends', 'amend_kind']);

function section(name: TableName): string {
  const { about, was, readings, columns } = schemas[name];
  const own = Object.entries<Column>(columns).filter(
    ([column]) => !COMMON.has(column) && !(readings && READING.has(column)),
  );
  const lines = own.map(([column, description]) => {
    const mark = description.required ? '●' : description.unless ? '◐' : description.detail ? '○' : '';
    const was = description.was === undefined ? '' : ` (was \`${description.was.join('`, `')}\`)`;
    const later = isTableForLater(name)
      ? ''
      : isColumnForLater(name, column)
        ? '; not used yet'
        : isRecordOnly(name, column)
          ? '; a record, used by no computation'
          : '';
    return `| \`${column}\` | ${mark} | ${kind(name, description)} | ${description.about}${was}${later} |`;
  });
  return [
    `## ${name}`,
    '',
    `${about[0]!.toUpperCase()}${about.slice(1)}.${readings ? ' *Readings.*' : ''}${was === null ? '' : ` Was \`${was}\`.`}${isTableForLater(name) ? ' *Not used yet.*' : ''}`,
    '',
    '| column | | kind | what |',
    '|---|---|---|---|',
    ...lines,
    '',
  ].join('\n');
}

function kind(table: TableName, column: Column): string {
  switch (column.kind) {
    case 'number': {
      const unit = column.unit === '' ? '' : `, ${column.unit}`;
      return `${column.integer ? 'whole number' : 'number'}${unit}${range(column.min, column.max, '')}`;
    }
    case 'length':
      return `length${range(column.min_m, column.max_m, ' m')}`;
    case 'choice':
      return `${column.choices.map((choice) => `\`${choice}\``).join(', ')}${column.names === undefined ? '' : `, or a name in \`${column.names.table}\``}`;
    case 'reference':
      return `→ [${column.to}](#${column.to}).${labelColumn(column.to as TableName)}`;
    case 'label': {
      const [scope] = schemas[table].scope as readonly string[];
      return scope === undefined ? 'label' : `label in its ${scope}`;
    }
    case 'time':
      return 'date and time with offset, ISO 8601';
    case 'date':
      return 'date, ISO 8601';
    case 'boolean':
      return 'yes or no';
    case 'tide':
      return 'tide';
    case 'text':
      return 'text';
  }
}

function range(min: number, max: number, unit: string): string {
  if (Number.isFinite(min) && Number.isFinite(max)) return `, ${min} to ${max}${unit}`;
  return Number.isFinite(min) ? `, from ${min}${unit}` : '';
}

if (process.argv[1] === import.meta.filename) writeFileSync(PAGE, tablesPage());

/** The page as it stands. */
export const writtenTablesPage = (): string => readFileSync(PAGE, 'utf8');
