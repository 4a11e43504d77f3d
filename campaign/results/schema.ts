/** The published JSON Schema of `results.json`, made from the shape. */
import type { Shape } from '@stillstand/science/shape';
import { fileShape } from './file-shape.ts';
import { resultsShape } from './shape.ts';

type Schema = Record<string, unknown>;

const name = { description: 'name of the array in the .npz file', type: 'string' };
const sizes = (least: number, description: string): Schema => ({
  description,
  type: 'array',
  items: { type: 'integer', minimum: 0 },
  minItems: least,
  maxItems: least,
});

/** JSON Schema 2020-12; kept beside this file as `results.schema.json`. */
export function resultsSchema(): Schema {
  const defs: Record<string, Schema> = {
    numbers: reference('a run of numbers in the .npz file', {
      array: name,
      shape: sizes(1, 'how many numbers'),
    }),
    numbers_by_row: reference('a table of numbers in the .npz file', {
      array: name,
      shape: sizes(2, 'rows and columns'),
    }),
  };
  const body = schemaOf(fileShape, defs);
  return {
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    title: `Stillstand results, version ${resultsShape.fields.version.value}`,
    ...body,
    $defs: defs,
  };
}

function schemaOf(shape: Shape, defs: Record<string, Schema>): Schema {
  const description = shape.about;
  switch (shape.kind) {
    case 'text':
      if (shape.choices !== null) {
        return { description, enum: shape.nullable ? [...shape.choices, null] : [...shape.choices] };
      }
      return { description, type: shape.nullable ? ['string', 'null'] : 'string' };
    case 'number': {
      const withUnit = shape.unit === '' ? description : `${description}; ${shape.unit}`;
      const orNull = shape.nullable ? '; null where it is not known or does not apply' : '';
      return { description: withUnit + orNull, type: ['number', 'null'] };
    }
    case 'fixed':
      return { description, const: shape.value };
    case 'boolean':
      return { description, type: shape.nullable ? ['boolean', 'null'] : 'boolean' };
    case 'numbers': {
      const of = shape.columns === null ? 'numbers' : 'numbers_by_row';
      const columns = shape.columns === null ? '' : `; one column for each of ${shape.columns}`;
      return { description: `${description}; ${shape.unit}${columns}`, $ref: `#/$defs/${of}` };
    }
    case 'list':
      return { description, type: 'array', items: schemaOf(shape.of, defs) };
    case 'record': {
      if (shape.name === null) return perhapsNull(description, recordSchema(shape, defs), shape.nullable);
      defs[shape.name] ??= recordSchema(shape, defs);
      return perhapsNull(description, { $ref: `#/$defs/${shape.name}` }, shape.nullable);
    }
  }
}

function reference(description: string, properties: Record<string, Schema>): Schema {
  const required = Object.keys(properties);
  return { description, type: 'object', properties, required, additionalProperties: false };
}

function perhapsNull(description: string, schema: Schema, nullable: boolean): Schema {
  return nullable ? { description, anyOf: [schema, { type: 'null' }] } : { description, ...schema };
}

function recordSchema(shape: Extract<Shape, { kind: 'record' }>, defs: Record<string, Schema>): Schema {
  const properties: Record<string, Schema> = {};
  for (const [name, field] of Object.entries(shape.fields)) properties[name] = schemaOf(field, defs);
  return { type: 'object', properties, required: Object.keys(properties), additionalProperties: false };
}
