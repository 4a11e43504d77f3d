/** A mapping that a person has edited, read back: what is wrong in it is said, and nothing else is assumed. */
import { nearest } from '@stillstand/campaign/tables';
import { KINDS, type Kind, type MappedColumn, type Mapping } from './mapping.ts';
import { targetsOf } from './targets.ts';

type Json = unknown;
type Members = Record<string, Json>;

/** Reads JSON text. `fault` is a sentence that says where, what came and what was expected. */
export function readMapping(text: string): { mapping: Mapping } | { fault: string } {
  let parsed: Json;
  try {
    parsed = JSON.parse(text);
  } catch (error) {
    return { fault: `the mapping is no JSON: ${error instanceof Error ? error.message : error}` };
  }
  try {
    return { mapping: mapping(members(parsed, 'the mapping')) };
  } catch (error) {
    if (error instanceof Wrong) return { fault: error.message };
    throw error;
  }
}

class Wrong extends Error {}

const wrong = (where: string, found: Json, expected: string): never => {
  throw new Wrong(
    `${where}: found ${JSON.stringify(found)?.slice(0, 80) ?? 'nothing'}, expected ${expected}`,
  );
};

const members = (value: Json, where: string): Members =>
  typeof value === 'object' && value !== null && !Array.isArray(value)
    ? (value as Members)
    : wrong(where, value, 'an object');
const text = (value: Json, where: string): string =>
  typeof value === 'string' ? value : wrong(where, value, 'a text');
const truth = (value: Json, where: string): boolean =>
  typeof value === 'boolean' ? value : wrong(where, value, 'true or false');
const line = (value: Json, where: string): number =>
  typeof value === 'number' && Number.isInteger(value) && value >= 0
    ? value
    : wrong(where, value, 'a line number');
const list = (value: Json, where: string): readonly Json[] =>
  Array.isArray(value) ? value : wrong(where, value, 'a list');
const textOrNull = (value: Json, where: string): string | null =>
  value === null ? null : text(value, where);

function texts(value: Json, where: string): Record<string, string> {
  return Object.fromEntries(
    Object.entries(members(value, where)).map(([name, word]) => [name, text(word, `${where}.${name}`)]),
  );
}

function mapping(from: Members): Mapping {
  const as =
    KINDS.find((kind) => kind === from['as']) ?? wrong('as', from['as'], `one of ${KINDS.join(', ')}`);
  const fixed = texts(from['fixed'], 'fixed');
  for (const to of Object.keys(fixed)) known(as, to, `fixed.${to}`);
  return {
    as,
    sheet: text(from['sheet'], 'sheet'),
    headings: list(from['headings'], 'headings').map((each) => line(each, 'headings')),
    units: from['units'] === null ? null : line(from['units'], 'units'),
    begin_below: line(from['begin_below'], 'begin_below'),
    decimal_comma: truth(from['decimal_comma'], 'decimal_comma'),
    columns: list(from['columns'], 'columns').map((each) => column(as, members(each, 'columns'))),
    fixed,
    words: Object.fromEntries(
      Object.entries(members(from['words'], 'words')).map(([to, words]) => [to, texts(words, `words.${to}`)]),
    ),
    leave_out: list(from['leave_out'], 'leave_out').map((each) => line(each, 'leave_out')),
    fill_down: truth(from['fill_down'], 'fill_down'),
    keep_rest: truth(from['keep_rest'], 'keep_rest'),
    same_depth: text(from['same_depth'], 'same_depth'),
  };
}

function column(as: Kind, from: Members): MappedColumn {
  const letters = text(from['column'], 'columns.column');
  if (!/^[A-Z]{1,3}$/.test(letters)) wrong('columns.column', letters, 'letters of a column, such as B');
  const where = `columns.${letters}`;
  const to = textOrNull(from['to'], `${where}.to`);
  if (to !== null) known(as, to, `${where}.to`);
  const { sigma, property, limit } = from;
  if (sigma !== undefined && sigma !== 1 && sigma !== 2) wrong(`${where}.sigma`, sigma, '1 or 2');
  return {
    column: letters,
    heading: text(from['heading'], `${where}.heading`),
    to,
    unit: textOrNull(from['unit'], `${where}.unit`),
    ...(sigma === undefined ? {} : { sigma: sigma as 1 | 2 }),
    ...(property === undefined ? {} : { property: text(property, `${where}.property`) }),
    ...(limit === undefined ? {} : { limit: text(limit, `${where}.limit`) }),
  };
}

function known(as: Kind, to: string, where: string): void {
  const targets = targetsOf(as);
  if (targets.has(to)) return;
  const near = nearest(to, targets.keys());
  wrong(where, to, `${near === null ? '' : `perhaps ${near}; `}one of ${[...targets.keys()].join(', ')}`);
}
