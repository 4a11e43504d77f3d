/** The acts of which only one copy knows. */
import { type Act, type Change, changeWords } from '@stillstand/campaign/replica';
import type { Copy } from './copy.ts';
import type { MergePlan, StrandAct } from './shape.ts';

export function strandsOf(
  ours: Copy,
  theirs: Copy,
  merged: Copy,
): Pick<MergePlan, 'ours' | 'theirs' | 'since'> {
  const all = merged.acts.all();
  const only = (of: Copy, other: Copy): StrandAct[] =>
    all.filter(({ id }) => of.knows(id) && !other.knows(id)).map((act) => strandAct(act, merged));
  const both = all.findLast(({ id }) => ours.knows(id) && theirs.knows(id));
  return {
    ours: only(ours, theirs),
    theirs: only(theirs, ours),
    since: both === undefined ? null : { time: both.time },
  };
}

function strandAct({ id, time, by, device, how, changes }: Act, { row, deleted }: Copy): StrandAct {
  const made = changes.map((change): Change => {
    const { kind, table, row_id } = change;
    const cells = (row(table, row_id) ?? deleted(table, row_id))?.cells ?? {};
    if (kind !== 'edit') return { kind, table, row_id, cells };
    const said = (which: 'before' | 'after'): Record<string, string> =>
      Object.fromEntries(Object.entries(change.cells).map(([column, cell]) => [column, cell[which]]));
    return { kind, table, row_id, before: said('before'), after: said('after') };
  });
  const cellsOf = (change: Change): Readonly<Record<string, string>> =>
    (row(change.table, change.row_id) ?? deleted(change.table, change.row_id))?.cells ?? {};
  const rows = new Set(changes.map(({ table, row_id }) => `${table} ${row_id}`)).size;
  return { id, time, by, device, how, rows, words: changeWords(made, cellsOf) };
}
