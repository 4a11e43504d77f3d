/**
 * By how much each change moved the headline rates: the old campaign is computed again with that change alone. Effects
 * need not add up, since a curve is no sum of its points; what is left over is stated.
 */
import type { CampaignDocument } from '@stillstand/campaign/document';
import type { Results } from '@stillstand/campaign/results';
import { countedRows, linksOf, type TableName } from '@stillstand/campaign/tables';
import { square } from '@stillstand/science/base';
import { chanceBelow } from './chance.ts';
import { type Quantity, ratesOfCurve } from './quantities.ts';
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
    /** No more than two of its Monte-Carlo errors; the old curve is in each effect, so that they grow with their number. */
    remainder_within_monte_carlo: boolean;
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
  const made: { group: GroupEffect; alone: Map<string, Quantity> }[] = [];
  for (const rows of groups) {
    const alone = groups.length === 1 ? end : ratesOf(await compute(withChanges(old.document, rows)));
    const effects = keys.map((key) => effect(start.get(key)!, alone.get(key)));
    made.push({ alone, group: { name: nameOf(rows), rows, effects } });
  }
  return {
    groups: made.map(({ group }) => group),
    rates: keys.map((key) => {
      const [a, b] = [start.get(key)!, end.get(key)!];
      const [first, last] = [before.get(key)!, after.get(key)!];
      const each = made.map(({ alone }) => alone.get(key));
      const known = each.filter((rate) => rate !== undefined);
      const remainder = b.value - a.value - known.reduce((sum, rate) => sum + rate.value - a.value, 0);
      const ofOthers = Math.sqrt(
        known.reduce((sum, { mcse }) => sum + square(mcse ?? 0), square(b.mcse ?? 0)),
      );
      const within = Math.abs(remainder) <= chanceBelow(ofOthers, (known.length - 1) * (a.mcse ?? 0));
      return {
        name: last.name,
        old: first.value,
        now: last.value,
        program: a.value - first.value + (last.value - b.value),
        remainder: known.length < each.length ? null : remainder,
        remainder_within_monte_carlo: known.length === each.length && within,
      };
    }),
  };
}

const ratesOf = (results: Results): Map<string, Quantity> =>
  new Map(
    results.curves
      .flatMap(ratesOfCurve)
      .filter(({ isHeadline, value }) => isHeadline && Number.isFinite(value))
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
