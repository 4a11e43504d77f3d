/** Words that are neither one of the choices of their column nor the name of a row that it may name. */
import { choiceFault, isTableName, tableWords } from '@stillstand/campaign/tables';
import { type Draft, FRAMES, refuse } from './draft.ts';

/** Sets aside rows with such a word. A row that is set aside itself still has its name: what is wrong is said there. */
export function checkChosenNames(standing: readonly Draft[]): void {
  const byTable = Map.groupBy(standing, ({ table }) => table);
  for (const [table, drafts] of byTable) {
    for (const { name, column } of FRAMES.get(table)!.columns) {
      if (column.kind !== 'choice' || column.names === undefined || !isTableName(column.names.table))
        continue;
      const { table: to, column: label = name } = column.names;
      const known = new Set<unknown>(column.choices);
      for (const { values } of byTable.get(to) ?? []) known.add(values[label]);
      for (const draft of drafts) {
        const word = draft.values[name];
        if (typeof word !== 'string' || known.has(word)) continue;
        const names = [...known].filter((each) => typeof each === 'string');
        const fault = choiceFault(word, names, `, or a name in the table of ${tableWords(to)}`);
        if (column.detail === true) draft.faults.push({ ...fault, severity: 'error', column: name });
        else refuse(draft, name, fault);
      }
    }
  }
}
