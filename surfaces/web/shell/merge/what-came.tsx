/** What the merge does to the rows here, and what the two copies have in common. */
import type { MergePlan, TableCount } from '@stillstand/campaign/merge';
import { capital, countedRows, schemas, tableWords } from '@stillstand/campaign/tables';
import { counted, printed } from '../../parts/index.ts';

export function CameAndDiffers({ plan }: { plan: MergePlan }) {
  const { files, only_here, notes } = plan;
  const came = linesOf(plan.came);
  const here = only_here.reduce((sum, { added, changed, deleted }) => sum + added + changed + deleted, 0);
  return (
    <div className="came-and-differs">
      <section aria-labelledby="what-came">
        <h2 id="what-came">What came</h2>
        <dl>
          {came.map(({ called, number, says }) => (
            <Line key={called} called={called} number={number} says={says} />
          ))}
          {files.come.length === 0 ? null : (
            <Line
              called="Photos and files"
              number={`+${printed(files.come.length, 0)}`}
              says={`${printed(files.bytes / 1e6, 1)} MB`}
            />
          )}
          {came.length === 0 && files.come.length === 0 ? (
            <Line called="Rows" number="0" says="the acts that came leave every row as it is here" />
          ) : null}
        </dl>
      </section>
      <section aria-labelledby="what-differs">
        <h2 id="what-differs">What differs</h2>
        <dl>
          <Line
            called="Only here"
            number={printed(here, 0)}
            says={linesOf(only_here)
              .slice(0, 3)
              .map(({ called }) => called)
              .join('; ')}
          />
          <Line called="In both, the same" number={printed(plan.same_rows, 0)} says="nothing to do" />
          <Line
            called="In both, different"
            number={printed(plan.different, 0)}
            says={plan.different === 0 ? 'nothing to decide' : 'decide below'}
          />
        </dl>
        {notes.length === 0 && files.missing.length === 0 ? null : (
          <ul className="notes">
            {notes.map(({ words }) => (
              <li key={words}>{words}</li>
            ))}
            {files.missing.length === 0 ? null : (
              <li>
                {counted(files.missing.length, 'photo or file is', 'photos or files are')} in neither copy.
                Look for them on the device that took them.
              </li>
            )}
          </ul>
        )}
      </section>
    </div>
  );
}

function Line({ called, number, says }: { called: string; number: string; says: string }) {
  return (
    <div>
      <dt>{called}</dt>
      <dd className="number">{number}</dd>
      <dd className="quiet">{says}</dd>
    </div>
  );
}

/** Readings of one hole are one line, other tables one each. */
function linesOf(counts: readonly TableCount[]): { called: string; number: string; says: string }[] {
  const groups = Map.groupBy(counts, ({ table, hole }) =>
    hole !== null && schemas[table].readings ? `${hole}, readings` : capital(tableWords(table)),
  );
  return [...groups].map(([called, of]) => {
    const sum = (part: 'added' | 'changed' | 'deleted'): number =>
      of.reduce((total, each) => total + each[part], 0);
    const parts = (
      [
        ['+', 'added'],
        ['', 'changed'],
        ['−', 'deleted'],
      ] as const
    ).flatMap(([sign, part]) => (sum(part) === 0 ? [] : [{ sign, part, count: printed(sum(part), 0) }]));
    const [first] = parts;
    const kinds = parts.map(({ part, count }, i) => (i === 0 ? part : `${count} ${part}`)).join(', ');
    const names = of.every(({ table }) => table === of[0]!.table)
      ? namesOf(of)
      : of.map((each) => countedRows(each.table, each.added + each.changed + each.deleted)).join(', ');
    return {
      called,
      number: first === undefined ? '0' : first.sign + first.count,
      says: kinds === 'added' ? names : `${kinds}: ${names}`,
    };
  });
}

function namesOf(of: readonly TableCount[]): string {
  const names = of.flatMap((each) => each.names);
  const all = of.reduce((sum, { added, changed, deleted }) => sum + added + changed + deleted, 0);
  const shown = names.slice(0, 4);
  return shown.join(', ') + (all > shown.length && shown.length > 0 ? ', …' : '');
}
