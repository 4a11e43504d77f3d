/** Another cell in place of one: as valid as the schema lets it be, so that it is read and used. */
import { type Column, labelColumn, schemas, type TableName } from '@stillstand/campaign/tables';
import type { CampaignText } from './campaign-text.ts';

export function otherCell(text: CampaignText, column: Column, typed: string): string {
  switch (column.kind) {
    case 'number':
      return otherNumber(column, typed);
    case 'length':
      return otherLength(typed, column.min_m, column.max_m);
    case 'choice':
      return after(column.choices, typed);
    case 'boolean':
      return /^(yes|true|1)$/i.test(typed) ? 'no' : 'yes';
    case 'tide':
      return typed === 'MHW+0.05' ? 'MTL' : 'MHW+0.05';
    case 'reference':
      return after(labelsOf(text, column.to as TableName), typed);
    case 'time':
      return typed === '2023-03-01T08:00:00Z' ? '2023-03-01T09:00:00Z' : '2023-03-01T08:00:00Z';
    case 'date':
      return typed === '2023-03-01' ? '2023-03-02' : '2023-03-01';
    default:
      return `${typed}x`;
  }
}

/** The next of them; nothing where there is only the one. */
function after(choices: readonly string[], typed: string): string {
  const next = choices[(choices.indexOf(typed) + 1) % Math.max(1, choices.length)] ?? '';
  return next === typed ? '' : next;
}

function labelsOf(text: CampaignText, table: TableName): string[] {
  const column = labelColumn(table);
  return column === null ? [] : (text[table] ?? []).map((cells) => cells[column] ?? '');
}

function otherNumber(column: Extract<Column, { kind: 'number' }>, typed: string): string {
  const value = Number(typed);
  const { min, max, integer } = column;
  const from = typed.trim() === '' || !Number.isFinite(value) ? Math.max(min, Math.min(max, 1)) : value;
  const step = integer ? 1 : Math.max(0.01, Math.abs(from) * 0.01);
  return String(from + step <= max ? from + step : from - step);
}

function otherLength(typed: string, min_m: number, max_m: number): string {
  const metres = /^(-?[\d.]+) m$/.exec(typed);
  const value = metres === null ? 1.23 : Number(metres[1]) + 0.01;
  return `${Math.max(min_m, Math.min(max_m, value)).toFixed(3)} m`;
}

/** A row of a table with every required cell filled in. */
export function newRow(text: CampaignText, table: TableName, index: number): Record<string, string> {
  const cells: Record<string, string> = {};
  for (const [name, column] of Object.entries(schemas[table].columns) as [string, Column][]) {
    if ((column.required || column.unless !== undefined) && name !== 'row_id')
      cells[name] = otherCell(text, column, name === 'seq' ? '900' : '');
  }
  return { ...cells, row_id: `new ${table} ${index}` };
}
