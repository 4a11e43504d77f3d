/**
 * Whether a Yjs document that came from outside is laid out as a campaign's: a file may be damaged, or written by anybody.
 * Everything that reads a document trusts what is looked at here.
 */
import { isTablePath, tableCalled, unsafePath } from '@stillstand/campaign/document';
import * as Y from 'yjs';
import { isStoredAct } from './acts.ts';
import { CELL, columnCalled, DELETED, isReadings, parts, whole } from './layout.ts';

type Kind = (value: unknown) => boolean;

const isText: Kind = (value) => typeof value === 'string';
const isNumber: Kind = (value) => typeof value === 'number' && Number.isFinite(value);
const isTrue: Kind = (value) => value === true;
const isBytes: Kind = (value) => value instanceof Uint8Array;
const isPlain: Kind = (value) => typeof value === 'object' && value !== null && !Array.isArray(value);
const isListOf =
  (kind: Kind): Kind =>
  (value) =>
    Array.isArray(value) && value.every(kind);
const isRecordOf =
  (kind: Kind): Kind =>
  (value) =>
    isPlain(value) && Object.values(value as object).every(kind);
/** Members that are there are of their kind; others are left alone. */
const hasKinds = (members: Iterable<[string, unknown]>, kinds: Readonly<Record<string, Kind>>): boolean =>
  [...members].every(([name, value]) => !Object.hasOwn(kinds, name) || kinds[name]!(value));

const isJson: Kind = (value) => {
  try {
    return isPlain(JSON.parse(value as string));
  } catch {
    return false;
  }
};

const WHOLE = {
  layout: isNumber,
  package: isJson,
  package_bytes: isBytes,
  tables: isListOf(isText),
} as const;

const ROW = {
  c: isListOf(isText),
  r: isRecordOf(isText),
  l: isNumber,
  q: isTrue,
  i: isText,
  [DELETED]: isText,
} as const;

const DIALECT = {
  delimiter: (value: unknown) => value === ',' || value === ';' || value === '\t',
  line_end: (value: unknown) => value === '\n' || value === '\r\n' || value === '\r',
  bom: (value: unknown) => typeof value === 'boolean',
  decimal_comma: (value: unknown) => typeof value === 'boolean',
  sep_line: (value: unknown) => typeof value === 'boolean',
} as const;

const isForm: Kind = (value) => {
  const { path, dialect, width } = (value ?? {}) as Record<string, unknown>;
  return (
    typeof path === 'string' &&
    unsafePath(path) === null &&
    isTablePath(path) &&
    isNumber(width) &&
    isPlain(dialect) &&
    Object.entries(DIALECT).every(([name, kind]) => kind((dialect as Record<string, unknown>)[name]))
  );
};

const ABOUT = { form: isForm, bytes: isBytes, edited: isTrue } as const;

/** Reads all of it once. */
export function isSound(doc: Y.Doc): boolean {
  const names = [...doc.share.keys()];
  const tables = new Set(
    names.flatMap((name) => /^(?:rows|columns|about|migrated):(.*)$/s.exec(name)?.[1] ?? []),
  );
  return (
    hasKinds(whole(doc).entries(), WHOLE) &&
    [...tables].every((table) => isTableSound(doc, table)) &&
    doc.getArray('acts').toArray().every(isStoredAct)
  );
}

/** `kept`: the name it is kept under, which may be an older one. */
function isTableSound(doc: Y.Doc, kept: string): boolean {
  const name = tableCalled(kept);
  const { rows, columns, about, migrated } = parts(doc, name);
  const isHeading: Kind = (value) => {
    if (!isListOf(isText)(value) || (value as string[]).length !== 2) return false;
    const [id, heading] = value as [string, string];
    return /#\d+$/.test(id) || columnCalled(name, id) === columnCalled(name, heading);
  };
  return (
    // A table is kept under its first name.
    rows.toArray().every(isReadings(tableCalled(name)) ? isReadingSound : isRowSound) &&
    columns.toArray().every(isHeading) &&
    hasKinds(about.entries(), ABOUT) &&
    [...migrated.values()].every(isRecordOf(isText))
  );
}

const isReadingSound: Kind = (value) =>
  isPlain(value) && !(value instanceof Y.AbstractType) && hasKinds(Object.entries(value as object), ROW);

const isRowSound: Kind = (value) =>
  value instanceof Y.Map &&
  hasKinds(value.entries(), ROW) &&
  [...value.entries()].every(([key, cell]) => !key.startsWith(CELL) || isText(cell));
