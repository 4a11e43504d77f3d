/** A merge as the command line says it. */
import type { MergeConflict, MergePlan, TableCount } from '@stillstand/campaign/merge';
import { capital, countedRows } from '@stillstand/campaign/tables';
import { counted } from '@stillstand/output/words';
import { print } from './say.ts';

/** What came, what is only in the first copy, and what the merge did by itself. `decided`: the choice of each conflict. */
export function sayMerge(plan: MergePlan, decided: ReadonlyMap<string, string>): void {
  const { since, by, relation, conflicts, notes, files } = plan;
  print(
    RELATION[relation],
    by === 'rows'
      ? BY_ROWS
      : `Both know ${since === null ? 'the same beginning' : `the same to ${since.time}`}.`,
  );
  sayCounts('Comes from the second copy:', plan.came);
  sayCounts('Only in the first copy:', plan.only_here);
  print(`In both, the same: ${counted(plan.same_rows, 'row')}.`);
  if (files.come.length > 0)
    print(`Files that come: ${files.come.length}, ${(files.bytes / 1e6).toFixed(1)} MB.`);
  if (files.missing.length > 0)
    print(
      `Named in rows and in neither copy: ${counted(files.missing.length, 'file')}, the first ${files.missing[0]}.`,
    );
  for (const { words } of notes) print(`Note: ${words}`);
  for (const conflict of conflicts) sayConflict(conflict, decided.get(conflict.key));
}

const RELATION: Readonly<Record<MergePlan['relation'], string>> = {
  same: 'Both copies hold the same.',
  'theirs ahead': 'The second copy has all of the first, and more.',
  'ours ahead': 'The first copy has all of the second, and more.',
  'both changed': 'Both copies were changed.',
};

const BY_ROWS = 'They have no history in common: they are merged row by row.';

function sayCounts(heading: string, counts: readonly TableCount[]): void {
  if (counts.length === 0) return;
  print(heading);
  for (const { table, hole, added, changed, deleted, names } of counts) {
    const said = [
      ...(added > 0 ? [`${countedRows(table, added)} added`] : []),
      ...(changed > 0 ? [`${countedRows(table, changed)} changed`] : []),
      ...(deleted > 0 ? [`${countedRows(table, deleted)} deleted`] : []),
    ].join(', ');
    const more = added + changed + deleted - names.length;
    print(
      `  ${hole === null ? '' : `${hole}: `}${said}: ${names.join('; ')}${more > 0 ? ` and ${more} more` : ''}`,
    );
  }
}

function sayConflict(
  { name, was, sides, choices, effect, until }: MergeConflict,
  choice: string | undefined,
): void {
  print(`${choice === undefined ? 'To decide' : 'Decided'}: ${name}${was === '' ? '' : ` (was ${was})`}`);
  for (const { side, words, by, device, time, reason } of sides) {
    const who = [by, device, time, reason].filter(Boolean).join(', ');
    print(`  ${WHOSE[side]}: ${words}${who === '' ? '' : ` (${who})`}`);
  }
  if (effect.length > 0) print(`  It changes: ${effect.join('; ')}`);
  if (choice === undefined) print(`  ${until}`);
  else print(`  ${capital(choices.find(({ key }) => key === choice)!.words)}.`);
}

const WHOSE = { ours: 'first copy', theirs: 'second copy', both: 'both copies' };
