/** `stillstand compare`: what changed between two computations, and which rows of the campaign are under it. */
import { basename, dirname } from 'node:path';
import { type Comparison, compareComputations, effectsOfChanges } from '@stillstand/campaign/compare';
import type { CampaignDocument } from '@stillstand/campaign/document';
import { type Problem, problem } from '@stillstand/campaign/problems';
import type { Memo } from '@stillstand/campaign/steps';
import { counted } from '@stillstand/output/words';
import { computeDocument } from '../campaign-folder.ts';
import { type Command, type ExitCode, type Words, WrongUse } from '../command.ts';
import { asJson, numbersCsv, rowsCsv } from '../compare-tables.ts';
import { curveCalled, sayComparison, sayEffects } from '../compare-words.ts';
import { readSide, type SideRead } from '../compared-side.ts';
import { mayBeMade } from '../disk/new-file.ts';
import { replaceFiles } from '../disk/replace.ts';
import { print, progress, sayJson, sayProblems } from '../say.ts';

export const compare: Command = {
  name: 'compare',
  summary: 'Says what changed between two computations, and which changed rows are under it.',
  usage: ['compare OLD NEW [--why] [--out FILE.csv] [--json]', 'compare OLD NEW --recompute'],
  options: {
    why: {
      type: 'boolean',
      about: 'by how much each change alone moved the headline rates; each takes the time of a curve',
    },
    recompute: {
      type: 'boolean',
      about: 'compute both campaigns again with this version, in place of their frozen results',
    },
    out: {
      type: 'string',
      value: 'FILE.csv',
      about: 'a new file for the numbers that changed; FILE-rows.csv has the rows of the campaign that did',
    },
  },
  more: [
    'OLD and NEW are each a data package (compute --package), a folder of results, or a campaign: its folder or zip is',
    'computed first. Results without their campaign are compared by their numbers alone.',
    'Unchanged: moved by less than 0.5 mm (m), 0.005 mm/yr, 0.5 yr or 0.0005 (ratio), the sigma too.',
    '÷ σ is the difference over 1 sigma, the root mean square of the two sigmas.',
  ].join('\n'),
  run,
};

async function run(words: Words): Promise<ExitCode> {
  const [oldPath, newPath, ...others] = words.positionals;
  if (oldPath === undefined || newPath === undefined || others.length > 0)
    throw new WrongUse('Expected two computations: OLD and NEW');
  const out = words.text('out');
  if (out !== undefined)
    await mayBeMade(out, {
      option: 'out',
      ending: '.csv',
      undone: 'nothing was compared',
      also: [rowsFile(out)],
    });
  const wanted = { again: words.flag('recompute'), memo: new Map() as Memo };
  const old = await readSide(oldPath, wanted);
  const now = await readSide(newPath, wanted);
  const problems = [old, now].flatMap(({ path, problems: of }) =>
    of.map((each) => ({ ...each, table: `${path}: ${each.table}` })),
  );
  if (old.side === null || now.side === null) return sayProblems(problems);
  const comparison = compareComputations(old.side, now.side);
  const found = [...problems, ...doubts(comparison, old, now)];
  const effects = words.flag('why') ? await why(comparison, old, now, wanted.memo) : null;
  if (words.flag('json')) {
    const { changes, unlike, ...rest } = comparison;
    const unlikeNames = { old: unlike.old.map(({ name }) => name), new: unlike.now.map(({ name }) => name) };
    sayJson({ ...rest, unlike: unlikeNames, changes: changes.map(asJson), effects, problems: found });
  } else {
    sayComparison(comparison, old, now);
    if (effects !== null) sayEffects(effects);
  }
  if (out !== undefined) {
    const [numbers, rows] = [basename(out), basename(rowsFile(out))];
    await replaceFiles(dirname(out), [
      [numbers, numbersCsv(comparison)],
      [rows, rowsCsv(comparison.rows ?? [])],
    ]);
    if (!words.flag('json')) print('', `Tables: ${out}, ${rowsFile(out)}`);
  }
  return sayProblems(found);
}

const rowsFile = (out: string): string => out.replace(/\.csv$/i, '-rows.csv');

async function why(comparison: Comparison, old: SideRead, now: SideRead, memo: Memo) {
  const [a, b] = [old.side!, now.side!];
  if (a.from === null || b.from === null || comparison.rows === null)
    throw new WrongUse('--why computes both campaigns: compare data packages, or campaigns');
  let done = 0;
  const compute = async (document: CampaignDocument) => {
    done += 1;
    return (await computeDocument(document, { withCurve: true, memo, onProgress: progress(`curve ${done}`) }))
      .results;
  };
  return await effectsOfChanges(
    { results: a.results, document: a.from.document },
    { results: b.results, document: b.from.document },
    comparison.rows,
    compute,
  );
}

/** What makes the comparison as a whole doubtful, the gravest first. */
function doubts(
  { campaigns, convergence, unlike, rows, changes, computation }: Comparison,
  old: SideRead,
  now: SideRead,
): Problem[] {
  const about = { table: 'comparison', severity: 'warning' } as const;
  const warning = (code: string, found: string, expected: string, fix: string): Problem =>
    problem({ ...about, code, found, expected, fix });
  return [
    ...(campaigns === 'different'
      ? [
          warning(
            'other-campaign',
            'two campaigns of different identity',
            'two states of one campaign',
            'Check that both were meant. Numbers with the same label are compared all the same.',
          ),
        ]
      : []),
    ...convergence
      .filter(({ old: a, now: b }) => a === false || b === false)
      .map(({ curve, old: a, now: b }) =>
        warning(
          'not-converged',
          `${curveCalled(curve)} has not converged (${[a === false ? 'old' : '', b === false ? 'new' : ''].filter(Boolean).join(', ')})`,
          'two curves that have',
          'Compute it with more draws. Differences of its rates and levels are not to be used until then.',
        ),
      ),
    ...[old, now].flatMap(({ path }, i) => {
      const [first, ...more] = i === 0 ? unlike.old : unlike.now;
      if (first === undefined || computation.old !== computation.now) return [];
      return [
        problem({
          severity: 'warning',
          code: 'results-not-of-campaign',
          table: `${path}: results`,
          found: `${first.name}${more.length === 0 ? '' : ` and ${counted(more.length, 'more number')}`}, other than from its campaign`,
          expected: 'the results of the campaign with them',
          fix: 'Compare with --recompute. The results are of another state of the campaign, or of other published curves.',
        }),
      ];
    }),
    ...(rows === null
      ? [
          warning(
            'no-campaign',
            'results without their campaign',
            'data packages (compute --package), which hold it',
            'Compare the packages to see which rows changed. Here only the numbers are compared.',
          ),
        ]
      : []),
    ...(changes.some(({ cause }) => cause === 'not known')
      ? [
          warning(
            'cause-not-known',
            'numbers that changed with no changed row under them, computed by the same version',
            'a changed row under each',
            'Compare with --recompute. A published curve may have changed, or the order of rows.',
          ),
        ]
      : []),
  ];
}
