/** Problems, danger first: where, what came, what was expected, the mend. */
import { bySeverity, type Problem } from '@stillstand/campaign/problems';
import type { Results } from '@stillstand/campaign/results';
import { columnName, isTableName, settingName, tableWords } from '@stillstand/campaign/tables';
import { problemCounts } from '../headline.ts';
import { SeverityMark, Tick } from '../marks.tsx';
import { each } from '../quantity.tsx';

/** As many as stand beside the result; the rest follow on a page of their own. */
const BESIDE = 6;

export function ProblemsBeside({ results }: { results: Results }) {
  const problems = bySeverity(results.problems);
  const more = problems.length - BESIDE;
  return (
    <>
      <h2>Problems</h2>
      {problems.length === 0 ? (
        <p style={{ marginTop: '7pt' }}>
          <Tick /> None found.
        </p>
      ) : (
        <p className="q">{problemCounts(results)}</p>
      )}
      <List problems={problems.slice(0, BESIDE)} />
      {more > 0 ? (
        <p className="q">
          <a href="#problems">{more} more below.</a>
        </p>
      ) : null}
    </>
  );
}

/** Those that found no room beside the result. */
export function MoreProblems({ results }: { results: Results }) {
  const rest = bySeverity(results.problems).slice(BESIDE);
  if (rest.length === 0) return null;
  return (
    <>
      <h2 id="problems">Problems, continued</h2>
      <List problems={rest} />
    </>
  );
}

function List({ problems }: { problems: readonly Problem[] }) {
  return (
    <ul className="problems">
      {each(problems, (problem) => (
        <li className={problem.severity}>
          <div className={problem.severity === 'danger' ? 'head plate' : 'head'}>
            <SeverityMark severity={problem.severity} />
            <span>
              {problem.severity}: {placeOf(problem)}
            </span>
          </div>
          <div>
            {problem.found === '' ? (
              'Found nothing'
            ) : (
              <>
                Found <q>{problem.found}</q>
              </>
            )}
            ; expected {problem.expected}. {problem.fix}
          </div>
        </li>
      ))}
    </ul>
  );
}

function placeOf(problem: Problem): string {
  const { table, label, column } = problem;
  if (!isTableName(table))
    return [table === 'datapackage' ? 'files' : table, label, column].filter(Boolean).join(', ');
  const named = label === null || table !== 'settings' ? label : settingName(label);
  return [tableWords(table), named, column === null ? null : columnName(table, column)]
    .filter(Boolean)
    .join(', ');
}
