/** What we write as datapackage.json against the published schemas of the Data Package and Table Schema standards. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { newDocument } from '@stillstand/campaign/document';
import { schemas, type TableName, tableSchema } from '@stillstand/campaign/tables';
import { Ajv } from 'ajv';

/** The profiles are JSON Schema draft 4; none of the words they use has changed its meaning since. */
function validator(name: string) {
  const path = join(import.meta.dirname, 'fixtures', 'profiles', name);
  const { $schema: _, ...profile } = JSON.parse(readFileSync(path, 'utf8')) as { $schema: string };
  return new Ajv({ strict: false, validateFormats: false }).compile(profile);
}

test('a new campaign is a Data Package', () => {
  const isDataPackage = validator('data-package.json');
  const described = JSON.parse(JSON.stringify(newDocument('North spit, second summer').package)) as object;
  assert.ok(isDataPackage(described), JSON.stringify(isDataPackage.errors));
  assert.equal(isDataPackage({ ...described, resources: [] }), false, 'the check can fail');
});

test('every table has a valid Table Schema, whose foreign keys lead to columns that exist', () => {
  const isTableSchema = validator('table-schema.json');
  for (const name of Object.keys(schemas) as TableName[]) {
    const schema = JSON.parse(JSON.stringify(tableSchema(name))) as ReturnType<typeof tableSchema>;
    assert.ok(isTableSchema(schema), `${name}: ${JSON.stringify(isTableSchema.errors)}`);
    for (const { fields, reference } of schema.foreignKeys ?? []) {
      const target = (reference.resource || name) as TableName;
      for (const field of fields) assert.ok(field in schemas[name].columns, `${name}.${field}`);
      for (const field of reference.fields) assert.ok(field in schemas[target].columns, `${target}.${field}`);
    }
  }
  assert.equal(isTableSchema({ fields: [] }), false, 'the check can fail');
});
