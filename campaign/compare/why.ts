/**
 * By how much each change moved the headline rates: the old campaign is computed again with that change alone. Effects
 * need not add up, since a curve is no sum of its points; what is left over is stated.
 */
import type { CampaignDocument } from '@stillstand/campaign/document';
import type { Results } from '@stillstand/campaign/results';
import { countedRows, linksOf, type TableName } from '@stillstand/campaign/tables';
import { chanceBelow } from './chance.ts';
import { type Quantity, quantitiesOf } from './quantities.ts';
import { type RowChange, withChanges } from './row-changes.ts';

/** Up to so many changed rows are tried one by one, more of them table by table: each takes the time of a curve. */
const ONE_BY_ONE = 8;

export interface RateEffect {
  /** What the rate moved by, mm/yr; null where the rate is not computed then. */
  moved: number | null;
  /** No more than two Monte-Carlo errors of the difference. */
  within_monte_carlo: boolean;
}

export interface GroupEffect {
  /** What changes: "date INV-2", "3 points". */
  name: string;
  rows: readonly RowChange[];
  /** One for each rate. */
  effects: RateEffect[];
}

export interface Effects {
  rates: {
    name: string;
    /** As frozen, mm/yr. */
    old: number;
    now: number;
    /** Moved by computing both campaigns with this program instead of those that froze them, mm/yr. */
    program: number;
    /** Not accounted for by program and changes one by one, mm/yr; null where one of these is not known. */
    remainder: number | null;
  }[];
  groups: GroupEffect[];
}

/**
 * `compute` gives results with their curve. It is called for the old and the new campaign, and for each group of changes
 * but a lone one. Rates that both frozen results and both campaigns have are attributed.
 */
export async function effectsOfChanges(
  old: { results: Results; document: CampaignDocument },
  now: { results: Results; document: CampaignDocument },
  changes: readonly RowChange[],
  compute: (document: CampaignDocument) => Promise<Results>,
): Promise<Effects> {
  const groups = groupsOf(changes);
  const start = ratesOf(await compute(old.document));
  const end = ratesOf(await compute(now.document));
  const [before, after] = [ratesOf(old.results), ratesOf(now.results)];
  const keys = [...after.keys()].filter((key) => [before, start, end].every((rates) => rates.has(key)));
  const made: GroupEffect[] = [];
  for (const rows of groups) {
    const alone = groups.length === 1 ? end : ratesOf(await compute(withChanges(old.document, rows)));
    made.push({
      name: nameOf(rows),
      rows,
      effects: keys.map((key) => effect(start.get(key)!, alone.get(key))),
    });
  }
  return {
    groups: made,
    rates: keys.map((key, i) => {
      const program =
        start.get(key)!.value - before.get(key)!.value + (after.get(key)!.value - end.get(key)!.value);
      const moved = made.map(({ effects }) => effects[i]!.moved);
      const all = after.get(key)!.value - before.get(key)!.value;
      return {
        name: after.get(key)!.name,
        old: before.get(key)!.value,
        now: after.get(key)!.value,
        program,
        remainder: moved.includes(null)
          ? null
          : all - program - moved.reduce<number>((sum, m) => sum + m!, 0),
      };
    }),
  };
}

const ratesOf = (results: Results): Map<string, Quantity> =>
  new Map(
    quantitiesOf(results)
      .filter(({ kind, isHeadline }) => kind === 'rate' && isHeadline)
      .map((each) => [each.key, each]),
  );

function effect(start: Quantity, alone: Quantity | undefined): RateEffect {
  if (alone === undefined) return { moved: null, within_monte_carlo: false };
  const moved = alone.value - start.value;
  return { moved, within_monte_carlo: Math.abs(moved) <= chanceBelow(start.mcse ?? 0, alone.mcse ?? 0) };
}

/** Rows one by one or by table; what names each other stays together: a new date without its new sample is no change. */
function groupsOf(changes: readonly RowChange[]): RowChange[][] {
  let groups =
    changes.length <= ONE_BY_ONE
      ? changes.map((each) => [each])
      : [...Map.groupBy(changes, ({ table }) => table).values()];
  for (const one of changes)
    for (const other of changes) {
      if (!names(one, other)) continue;
      const [a, b] = [one, other].map((row) => groups.find((group) => group.includes(row))!);
      if (a !== b) groups = [...groups.filter((group) => group !== a && group !== b), [...a!, ...b!]];
    }
  return groups;
}

/** Whether a cell that changed names a row that is new, or gone. */
function names(one: RowChange, other: RowChange): boolean {
  if (other.change === 'changed' || one === other) return false;
  const said = (row: RowChange, column: string): readonly string[] => {
    const cell = row.cells.find((each) => each.column === column);
    return cell === undefined ? [] : [cell.old, cell.now].filter((text) => text !== '');
  };
  if (said(one, 'amends').includes(other.row_id)) return true;
  return linksOf(one.table, (column) => said(one, column).at(-1) ?? '').some(
    ({ to, column, label }) =>
      to === other.table && said(one, column).some((text) => said(other, label).includes(text)),
  );
}

const NAMED = 3;

function nameOf(rows: readonly RowChange[]): string {
  if (rows.length <= NAMED)
    return rows.map(({ name, change }) => (change === 'changed' ? name : `${name} ${change}`)).join(', ');
  return [...Map.groupBy(rows, ({ table }) => table)]
    .map(([table, of]: [TableName, RowChange[]]) => countedRows(table, of.length))
    .join(', ');
}
