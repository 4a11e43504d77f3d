/**
 * Version 1 to 2: names of today for tables, columns and words, and facts out of notes into columns of their own. No row
 * is added or taken away: the same step is made on several devices that know nothing of each other.
 */
import {
  type CampaignDocument,
  type DocumentTable,
  isJsonObject,
  type Json,
  type JsonObject,
  resource,
  withNewNames,
} from '@stillstand/campaign/document';
import { isTableName, plainWord, schemas } from '@stillstand/campaign/tables';

export function toVersion2(document: CampaignDocument): CampaignDocument {
  const named = withNewNames(document);
  const paths = new Map<string, string>();
  const tables = new Map(
    [...named.tables].map(([name, table]): [string, DocumentTable] => {
      const moved = document.tables.has(name)
        ? table
        : { ...table, path: newPath(name, table.path, document) };
      paths.set(table.path, moved.path);
      return [name, withFacts(name, moved)];
    }),
  );
  const described = document.package ?? {};
  const { resources } = described as { resources?: unknown };
  const known = new Map([...tables].map(([name, { path }]) => [path, name]));
  return {
    ...named,
    tables,
    package: {
      ...described,
      stillstand: { ...(described['stillstand'] as JsonObject | undefined), version: 2 },
      resources: (Array.isArray(resources) ? (resources as readonly Json[]) : []).map((entry) => {
        if (!isJsonObject(entry)) return entry;
        const path = paths.get(String(entry['path']));
        const name = path === undefined ? undefined : known.get(path);
        return path === undefined || name === undefined || !isTableName(name) ? entry : resource(name, path);
      }),
    },
  };
}

/** `ground.csv` becomes `ground_levels.csv`, in its folder, where nothing else has that name. */
function newPath(name: string, path: string, document: CampaignDocument): string {
  const moved = path.replace(/[^/]+(?=\.[^.]+$)/, name);
  const isTaken = document.files.has(moved) || [...document.tables.values()].some((t) => t.path === moved);
  return isTaken ? path : moved;
}

type Facts = Readonly<Record<string, string>>;

function withFacts(name: string, table: DocumentTable): DocumentTable {
  if (name === 'field_days') return factsFrom(table, accessIn);
  return isTableName(name) && schemas[name].readings ? factsFrom(table, reasonIn) : table;
}

/** Cells out of the note of each row, which then says the rest; a cell that says something already stays. */
function factsFrom(
  table: DocumentTable,
  read: (note: string) => { facts: Facts; rest: string } | null,
): DocumentTable {
  const noteAt = table.columns.findIndex((heading) => plainWord(heading) === 'note');
  if (noteAt === -1) return table;
  const found = table.rows.map((row) => read(row.cells[noteAt] ?? ''));
  const needed = [...new Set(found.flatMap((each) => Object.keys(each?.facts ?? {})))];
  if (needed.length === 0) return table;
  const columns = [...table.columns, ...needed.filter((column) => !table.columns.includes(column))];
  const rows = table.rows.map((row, i) => {
    const each = found[i]!;
    if (each === null) return row;
    const cells = columns.map((column, at) => row.cells[at] || (each.facts[column] ?? ''));
    cells[noteAt] = each.rest;
    return { ...row, cells };
  });
  return { ...table, columns, rows };
}

const ACCESS = /(?:^|;\s*)way: ([^;]*)/;
const FOOT = /^on foot, lowest ([+-]?[\d.]+) m, margin ([\d.]+) m, takes ([\d.]+) min$/;
const BOAT = /^by boat, water at least ([+-]?[\d.]+) m, margin ([\d.]+) m, takes ([\d.]+) min$/;

/** "way: on foot, lowest +0.40 m, margin 0.30 m, takes 30 min", as a day's note said it. */
function accessIn(note: string): { facts: Facts; rest: string } | null {
  const text = ACCESS.exec(note)?.[1]?.trim() ?? '';
  for (const [access, pattern] of [
    ['foot', FOOT],
    ['boat', BOAT],
  ] as const) {
    const said = pattern.exec(text)?.slice(1);
    if (said === undefined || !said.every((n) => Number.isFinite(Number(n)))) continue;
    const [access_level_m, access_margin_m, access_minutes] = said as [string, string, string];
    return {
      facts: { access, access_level_m: access_level_m.replace(/^\+/, ''), access_margin_m, access_minutes },
      rest: note.replace(ACCESS, '').trim().replace(/^;\s*/, ''),
    };
  }
  return null;
}

/** "corrected: 1.22 m; soft top", as the note of an amendment said it. */
function reasonIn(note: string): { facts: Facts; rest: string } | null {
  if (!note.startsWith('corrected: ')) return null;
  const [reason, ...rest] = note.split('; ');
  return { facts: { amend_reason: reason! }, rest: rest.join('; ') };
}
