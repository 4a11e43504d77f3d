/**
 * Our columns as a Frictionless Table Schema (specs.frictionlessdata.io/table-schema), for `datapackage.json`. Lengths,
 * tide words and times stay strings there, with `stillstand` naming what they are; constraints are those a general
 * reader can check. `required` is left out of reading tables, where a row that withdraws another needs no more.
 */
import type { Column } from './column.ts';
import { schemas, type TableName } from './schemas.ts';

interface TableSchemaField {
  name: string;
  type: 'string' | 'number' | 'integer' | 'boolean' | 'date' | 'datetime';
  format?: 'any';
  description: string;
  unit?: string;
  constraints?: {
    required?: true;
    minimum?: number;
    maximum?: number;
    enum?: readonly string[];
    pattern?: string;
  };
  stillstand: { kind: Column['kind']; min_m?: number; max_m?: number; references?: string };
}

export interface TableSchema {
  fields: TableSchemaField[];
  missingValues: string[];
  foreignKeys?: { fields: string[]; reference: { resource: string; fields: string[] } }[];
}

/** The Table Schema of one table. */
export function tableSchema(name: TableName): TableSchema {
  const { columns, readings } = schemas[name];
  const all = Object.entries(columns) as [string, Column][];
  const schema: TableSchema = {
    fields: all.map(([column, description]) => field(column, description, readings)),
    missingValues: [''],
  };
  const foreignKeys = all.flatMap(([column, { kind, ...rest }]) =>
    kind === 'reference' ? [foreignKey(name, column, (rest as { to: TableName }).to)] : [],
  );
  if (foreignKeys.length > 0) schema.foreignKeys = foreignKeys;
  return schema;
}

/** The column that holds the labels of a table, or null. */
export function labelColumn(name: TableName): string | null {
  for (const [column, { kind }] of Object.entries(schemas[name].columns)) if (kind === 'label') return column;
  return null;
}

function foreignKey(table: TableName, column: string, to: TableName) {
  const scope: readonly string[] = schemas[to].scope;
  return {
    fields: [...scope, column],
    // An empty resource is the table itself.
    reference: { resource: to === table ? '' : to, fields: [...scope, labelColumn(to)!] },
  };
}

function field(name: string, column: Column, readings: boolean): TableSchemaField {
  const constraints: NonNullable<TableSchemaField['constraints']> = {};
  if (column.required && !readings && name !== 'row_id') constraints.required = true;
  const described: TableSchemaField = {
    name,
    type: 'string',
    description: column.about,
    stillstand: { kind: column.kind },
  };
  switch (column.kind) {
    case 'number':
      described.type = column.integer ? 'integer' : 'number';
      if (column.unit !== '') described.unit = column.unit;
      if (Number.isFinite(column.min)) constraints.minimum = column.min;
      if (Number.isFinite(column.max)) constraints.maximum = column.max;
      break;
    case 'length':
      if (Number.isFinite(column.min_m)) described.stillstand.min_m = column.min_m;
      if (Number.isFinite(column.max_m)) described.stillstand.max_m = column.max_m;
      break;
    case 'choice':
      if (column.names === undefined) constraints.enum = column.choices;
      break;
    case 'boolean':
      described.type = 'boolean';
      break;
    case 'date':
      described.type = 'date';
      break;
    case 'time':
      described.type = 'datetime';
      described.format = 'any';
      break;
    case 'reference':
      described.stillstand.references = column.to;
      break;
  }
  if (Object.keys(constraints).length > 0) described.constraints = constraints;
  return described;
}
