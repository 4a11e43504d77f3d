/**
 * No sentence of a problem has the name of a table or a column as the files write it: who has the files in hand reads it
 * in the problem's `table` and `column`. Every string that is given as what was expected or how to fix it, in an object
 * or to a function that makes a problem of it, is read in the sources of campaign and science.
 */
import assert from 'node:assert/strict';
import { globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { schemas, type TableName } from '@stillstand/campaign/tables';
import { parseSync, Visitor } from 'oxc-parser';

const ROOT = join(import.meta.dirname, '..');
const NAMES = (Object.keys(schemas) as TableName[])
  .flatMap((table) => [table, ...Object.keys(schemas[table].columns)])
  .filter((name) => name.includes('_'));
const words = (more: string): RegExp =>
  new RegExp(`\\b(?:${[...new Set(NAMES)].join('|')}|seq|${more}null|undefined|NaN)\\b|\``);
const RAW = words('cells?|columns?|');
/** About a table of the person's own, which has columns and cells. */
const OF_THEIR_TABLE = words('');
const IMPORT = join('campaign', 'import');

/** Of objects: what was expected, how to fix it. `found` may be what was typed. */
const SAID = /^(?:expected|fix)$/;
/** Of functions that make problems of their arguments. */
const SAYS = /^(?:complain|say|refuse|find|unsafe|coreProblem|doubtful|tooLarge|refused)$/;

interface Node {
  type: string;
  start: number;
  end: number;
  value?: unknown;
  quasis?: readonly { value: { cooked: string | null } }[];
}

/** The strings below a node, what is put into them left out. */
function stringsBelow(node: unknown): string[] {
  if (node === null || typeof node !== 'object') return [];
  if (Array.isArray(node)) return node.flatMap(stringsBelow);
  const { type, value, quasis } = node as Node;
  // What a sentence is chosen by, and functions, are no part of it.
  if (type === 'BinaryExpression' || type === 'LogicalExpression' || type === 'CallExpression') return [];
  const own = type === 'Literal' && typeof value === 'string' ? [value] : [];
  const text = quasis?.map((part) => part.value.cooked ?? '').join('…');
  return [...own, ...(text === undefined ? [] : [text]), ...Object.values(node).flatMap(stringsBelow)];
}

function rawNamesIn(file: string, text: string): { read: number; raw: string[] } {
  const { program, errors } = parseSync(file, text);
  assert.equal(errors.length, 0, file);
  const names = file.startsWith(IMPORT) ? OF_THEIR_TABLE : RAW;
  const raw: string[] = [];
  let read = 0;
  const judge = (start: number, said: readonly string[]): void => {
    read += said.length;
    for (const each of said) {
      // One word is a code, a column or a table; a sentence has several.
      if (/\s/.test(each.trim()) && names.test(each))
        raw.push(`${file}:${text.slice(0, start).split('\n').length}: ${each}`);
    }
  };
  new Visitor({
    Property: ({ key, value }) => {
      if (key.type === 'Identifier' && SAID.test(key.name)) judge(value.start, stringsBelow(value));
    },
    CallExpression: ({ callee, arguments: given, start }) => {
      const name = callee.type === 'Identifier' ? callee.name : '';
      if (SAYS.test(name)) judge(start, stringsBelow(given));
    },
  }).visit(program);
  return { read, raw };
}

test('no sentence of a problem has a raw name', () => {
  const files = globSync('{campaign,science}/**/*.ts', {
    cwd: ROOT,
    exclude: (path) => /node_modules/.test(path),
  })
    .filter((file) => !/\.test\.ts$|\/fixtures\//.test(file))
    // Read only by the command `points`, of a file whose headings are meant.
    .filter((file) => file !== join('science', 'points', 'plain-point.ts'));
  const found = files.map((file) => rawNamesIn(file, readFileSync(join(ROOT, file), 'utf8')));
  assert.deepEqual(
    found.flatMap(({ raw }) => raw),
    [],
  );
  const read = found.reduce((sum, each) => sum + each.read, 0);
  assert.ok(read > 500, `${read} strings were read`);
});

test('a raw name is found wherever it is said', () => {
  const raw = (text: string): number => rawNamesIn('a.ts', text).raw.length;
  assert.equal(raw("problem({ fix: 'Write its row_id again.' })"), 1);
  assert.equal(raw('problem({ expected: `one of the string_items`, column: "stick_up_end" })'), 1);
  assert.equal(raw("complain(row, 'no-datum', 'shift_m', '', 'a row in datum_shifts', 'Add the shift.')"), 1);
  assert.equal(raw("problem({ fix: isOne ? 'Correct the cell.' : 'Correct it.' })"), 1);
  assert.equal(raw("problem({ fix: 'Name the hole in `replaces` of it.' })"), 1);
  assert.equal(raw("problem({ fix: kind === 'in_situ of it' ? 'Correct it.' : 'Correct the date.' })"), 0);
});
