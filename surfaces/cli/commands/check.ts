/** `stillstand check`: every problem of a campaign, before anything is made of it. */
import { bySeverity, isFine, problemLine } from '@stillstand/campaign/problems';
import { openAndCompute } from '../campaign-folder.ts';
import { type Command, type ExitCode, type Words, WrongUse } from '../command.ts';
import { sayJson } from '../say.ts';

export const check: Command = {
  name: 'check',
  summary: 'Names every problem of a campaign, with its place and its mend.',
  usage: ['check FOLDER [--json]'],
  options: {},
  more: 'Computes everything but the curve, so that what is impossible or unsafe on the rig is named too.',
  run,
};

async function run(words: Words): Promise<ExitCode> {
  const [folder, ...others] = words.positionals;
  if (folder === undefined || others.length > 0) throw new WrongUse('Expected one campaign folder or zip');
  const { results } = await openAndCompute(folder, { withCurve: false });
  const problems = bySeverity(results.problems);
  if (words.flag('json')) sayJson(problems);
  else {
    for (const p of problems) console.log(problemLine(p));
    const count = (severity: string): number => problems.filter((p) => p.severity === severity).length;
    console.log(
      problems.length === 0
        ? `${results.name}: nothing to mend.`
        : `${results.name}: ${count('danger')} dangers, ${count('error')} errors, ${count('warning')} warnings, ${count('note')} notes.`,
    );
  }
  return isFine(problems) ? 0 : 1;
}
