/**
 * Labels and what refers to them. A label is unique in its scope; a reference names a row by it. Where the row it names
 * is set aside, so is the row that refers to it, and so on down: one bad hole takes its own readings along, no others.
 */
import {
  type Fault,
  linksOf,
  nearest,
  rowName,
  type TableName,
  tableWords,
} from '@stillstand/campaign/tables';
import { refuseCircles } from './circles.ts';
import { type Draft, FRAMES, labelKey, refuse, rowLabel, saidOf } from './draft.ts';
import type { ProblemList } from './problem-list.ts';

/** A row that refers to another. */
interface Dependent {
  draft: Draft;
  column: string;
  detail: boolean;
}

/** Rows by table and label. */
type Index = ReadonlyMap<TableName, ReadonlyMap<string, Draft[]>>;

/** So many misspelt labels of one column are compared with the right ones. */
const COMPARED = 50;

/**
 * Checks labels and references of the rows that count; sets aside those that cannot be used. Returns what names the
 * rows that go with another one, to be called once the causes have been named: a person mends those. `unread` holds
 * tables that are there and could not be read, with their path.
 */
export function checkReferences(
  standing: readonly Draft[],
  withdrawn: readonly Draft[],
  rivals: ReadonlyMap<Draft, readonly (Draft | null)[]>,
  problems: ProblemList,
  unread: ReadonlyMap<string, string> = new Map(),
): () => void {
  const index = labels(standing);
  for (const byLabel of index.values()) {
    for (const [, rows] of byLabel) if (rows.length > 1) refuseTwins(rows);
  }
  // What names one of the rows a disputed reading may come to names that reading.
  for (const [reading, rows] of rivals)
    addNames(
      index,
      reading,
      rows.filter((row) => row !== null),
    );
  const gone = labels(withdrawn);
  const near = nearLabels(index);
  const dependents = new Map<Draft, Dependent[]>();
  const missing = new Map<TableName, Set<TableName>>();

  for (const draft of standing) {
    // Which row it names is in dispute.
    if (rivals.has(draft)) continue;
    for (const { column, to, detail, needed, firm } of linksOf(draft.table, (name) => textIn(draft, name))) {
      if (!firm) continue;
      if (!needed && (draft.values[column] ?? null) === null) continue;
      const key = keyNamedBy(draft, column, to);
      const target = key === null ? undefined : index.get(to)?.get(key)?.[0];
      if (target !== undefined) {
        const list = dependents.get(target);
        if (list === undefined) dependents.set(target, [{ draft, column, detail }]);
        else list.push({ draft, column, detail });
        continue;
      }
      if (!index.get(to)?.size) {
        if (missing.get(to)?.add(draft.table) === undefined) missing.set(to, new Set([draft.table]));
        if (!detail) draft.usable = false;
      } else {
        const wasWithdrawn = key !== null && gone.get(to)?.has(key) === true;
        const fault = unknownReference(draft, column, to, wasWithdrawn, key, near);
        if (!detail) refuse(draft, column, fault);
        else draft.faults.push({ ...fault, severity: 'error', column });
      }
      if (detail) draft.values[column] = null;
    }
  }
  for (const [to, from] of missing) problems.table('error', to, missingTable(to, from, unread.get(to)));
  refuseCircles(standing, index);
  const groups = setDependentsAside(standing, dependents);
  return () => nameDependents(groups, problems);
}

function labels(drafts: readonly Draft[]): Map<TableName, Map<string, Draft[]>> {
  const index = new Map<TableName, Map<string, Draft[]>>();
  for (const draft of drafts) {
    const { label, scope } = FRAMES.get(draft.table)!;
    const key = label === null ? null : labelKey(scope, label, draft.values);
    if (key === null) continue;
    let byLabel = index.get(draft.table);
    if (byLabel === undefined) {
      byLabel = new Map();
      index.set(draft.table, byLabel);
    }
    const rows = byLabel.get(key);
    if (rows === undefined) byLabel.set(key, [draft]);
    else rows.push(draft);
  }
  return index;
}

const textIn = ({ values }: Draft, column: string): string => {
  const value = values[column];
  return typeof value === 'string' ? value : '';
};

function addNames(index: Map<TableName, Map<string, Draft[]>>, reading: Draft, rows: readonly Draft[]): void {
  for (const [table, named] of labels(rows)) {
    for (const key of named.keys()) {
      const known = index.get(table) ?? new Map<string, Draft[]>();
      index.set(table, known);
      if (!known.has(key)) known.set(key, [reading]);
    }
  }
}

/** The key of a label named in another row: the label in that row's scope; null where either is missing. */
function keyNamedBy(draft: Draft, column: string, to: TableName): string | null {
  return labelKey(FRAMES.get(to)!.scope, column, draft.values);
}

function refuseTwins(rows: readonly Draft[]): void {
  for (const draft of rows) {
    refuse(draft, FRAMES.get(draft.table)!.label, {
      code: 'label-twice',
      found: `${rowLabel(draft)} in ${rows.length} rows`,
      expected: 'each label once',
      fix: 'Rename or delete all but one. Until then none of them is used, because it is not clear which is meant.',
    });
  }
}

function unknownReference(
  draft: Draft,
  column: string,
  to: TableName,
  wasWithdrawn: boolean,
  key: string | null,
  near: (from: Draft, column: string, to: TableName, key: string) => string | null,
): Fault {
  const value = draft.values[column] ?? null;
  const found = value === null ? '' : String(value);
  const [scope] = FRAMES.get(to)!.scope;
  const where = scope === undefined ? '' : ` of the same ${scope}`;
  if (wasWithdrawn) {
    return {
      code: 'unknown-reference',
      found,
      expected: `a label of one of the ${tableWords(to)}${where}; this one has been withdrawn`,
      fix: 'Name another, or withdraw this row too. The row is set aside.',
    };
  }
  const meant = key === null ? null : near(draft, column, to, key);
  return {
    code: 'unknown-reference',
    found,
    expected: `a label of one of the ${tableWords(to)}${where}`,
    fix: meant === null ? `Add it to the ${tableWords(to)}, or correct it.` : `Perhaps ${meant} is meant.`,
  };
}

/** Finds the label nearest to a misspelt one, among those of the same scope. */
function nearLabels(index: Index) {
  const known = new Map<string, string | null>();
  const compared = new Map<string, number>();
  return (from: Draft, column: string, to: TableName, key: string): string | null => {
    const cacheKey = `${to}\u0002${key}`;
    const before = known.get(cacheKey);
    if (before !== undefined) return before;
    const where = `${from.table}.${column}`;
    const count = (compared.get(where) ?? 0) + 1;
    compared.set(where, count);
    if (count > COMPARED) return null;
    const scopeEnd = key.lastIndexOf('\u0000') + 1;
    const scope = key.slice(0, scopeEnd);
    const candidates = [...index.get(to)!.keys()]
      .filter((other) => other.startsWith(scope))
      .map((other) => other.slice(scopeEnd));
    const meant = nearest(key.slice(scopeEnd), candidates);
    known.set(cacheKey, meant);
    return meant;
  };
}

function missingTable(to: TableName, from: ReadonlySet<TableName>, unread: string | undefined): Fault {
  const action = unread === undefined ? 'Add them.' : `${unread} is there but was not read: correct it.`;
  return {
    code: 'missing-table',
    found: `no ${tableWords(to)}, though ${[...from].map(tableWords).join(', ')} name them`,
    expected: `every one of the ${tableWords(to)} that is named`,
    fix: `${action} Until then the rows that name them are set aside.`,
  };
}

/** The rows of one table that go with a row set aside. */
interface Following {
  target: Draft;
  count: number;
  table: TableName;
  column: string;
}

/** Rows that refer to a row set aside are set aside too; told once for each such row and table. */
function setDependentsAside(
  standing: readonly Draft[],
  dependents: ReadonlyMap<Draft, readonly Dependent[]>,
): Following[] {
  const queue = standing.filter((draft) => !draft.usable && dependents.has(draft));
  const done = new Set<Draft>();
  const groups: Following[] = [];
  for (let i = 0; i < queue.length; i++) {
    const target = queue[i]!;
    if (done.has(target)) continue;
    done.add(target);
    const byTable = new Map<string, Following>();
    for (const { draft, column, detail } of dependents.get(target)!) {
      if (detail) {
        draft.values[column] = null;
        continue;
      }
      const key = `${draft.table}.${column}`;
      const group = byTable.get(key);
      if (group === undefined) byTable.set(key, { target, count: 1, table: draft.table, column });
      else group.count++;
      if (draft.usable) {
        draft.usable = false;
        if (dependents.has(draft)) queue.push(draft);
      }
    }
    groups.push(...byTable.values());
  }
  return groups;
}

function nameDependents(groups: readonly Following[], problems: ProblemList): void {
  for (const { target, count, table, column } of groups) {
    problems.table(
      'error',
      table,
      {
        code: 'refers-to-skipped-row',
        found: `${rowLabel(target) ?? target.row_id} in ${count} ${count === 1 ? 'row' : 'rows'}`,
        expected: `a ${rowName(target.table, {})} that can be used`,
        fix: `Correct the ${saidOf(target)} first. Until then these rows are set aside with it.`,
      },
      column,
    );
  }
}
