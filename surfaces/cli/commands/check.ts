/** `stillstand check`: every problem of a campaign, before anything is made of it. */
import { bySeverity, isFine, type Problem, problemLine, SEVERITIES } from '@stillstand/campaign/problems';
import { counted } from '@stillstand/output/words';
import { openAndCompute } from '../campaign-folder.ts';
import { type Command, type ExitCode, type Words, WrongUse } from '../command.ts';
import { historyOf } from '../history-of.ts';
import { print, sayJson } from '../say.ts';

export const check: Command = {
  name: 'check',
  summary: 'List every problem of a campaign, with its place and its fix.',
  usage: ['check FOLDER [--json]'],
  options: {},
  more: 'Computes everything but the curve, so that what is impossible or unsafe on the rig is named too.',
  run,
};

async function run(words: Words): Promise<ExitCode> {
  const [folder, ...others] = words.positionals;
  if (folder === undefined || others.length > 0) throw new WrongUse('Expected one campaign folder or zip');
  const { results, document } = await openAndCompute(folder, { withCurve: false });
  const history = historyOf(document);
  const problems = bySeverity([...results.problems, ...(history?.problems ?? [])]);
  if (words.flag('json')) sayJson(problems);
  else {
    for (const p of problems) print(problemLine(p));
    const rows = [...document.tables.values()].reduce((sum, table) => sum + table.rows.length, 0);
    print(`${results.name}: ${rows + problems.length === 0 ? 'no rows yet' : countInWords(problems)}.`);
    if (history !== null && history.acts > 0) print(`Its history has ${counted(history.acts, 'act')}.`);
  }
  return isFine(problems) ? 0 : 1;
}

/** "1 danger, 2 warnings", or "no problems". */
function countInWords(problems: readonly Problem[]): string {
  const counts = SEVERITIES.flatMap((severity) => {
    const n = problems.filter((p) => p.severity === severity).length;
    return n === 0 ? [] : [`${n} ${severity}${n === 1 ? '' : 's'}`];
  });
  return counts.length === 0 ? 'no problems' : counts.join(', ');
}
