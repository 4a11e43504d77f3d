/** `stillstand merge`: two copies of one campaign made one. */
import { randomUUID } from 'node:crypto';
import { basename, dirname } from 'node:path';
import { writeFiles, zipChunks } from '@stillstand/campaign/document';
import { HISTORY_PATH, historyBytes } from '@stillstand/campaign/history';
import { type MergePlan, mergedCopy, planMerge, sameCampaign } from '@stillstand/campaign/merge';
import { readDocument, type Writer } from '@stillstand/campaign/replica';
import { counted } from '@stillstand/output/words';
import { type Command, type ExitCode, type Words, WrongUse } from '../command.ts';
import { mayBeMade } from '../disk/new-file.ts';
import { replaceFiles } from '../disk/replace.ts';
import { NoTarget, target, writeWhole } from '../disk/write.ts';
import { type CopyOnDisk, readCopy } from '../merge-side.ts';
import { sayMerge } from '../merge-words.ts';
import { print, printError, sayJson } from '../say.ts';

export const merge: Command = {
  name: 'merge',
  summary: 'Makes one campaign of two copies that were changed apart.',
  usage: ['merge FIRST SECOND --out NEW [--base OLD] [--keep ours|theirs] [--json]'],
  options: {
    out: { type: 'string', value: 'NEW', about: 'a new folder, or a new file that ends in .zip' },
    base: {
      type: 'string',
      value: 'OLD',
      about: 'the campaign as both began, where they have no history in common',
    },
    keep: {
      type: 'string',
      value: 'ours|theirs',
      about: 'decide every conflict for the first copy (ours) or the second (theirs)',
    },
    'any-campaign': { type: 'boolean', about: 'merge copies that state different campaigns, row by row' },
  },
  more: [
    'FIRST, SECOND and OLD are each a campaign: its folder or its zip. Neither is changed.',
    'Copies with a history in common (history.yjs) are merged by it, others row by row, by row_id.',
    'No reading is lost or rewritten. A conflict that is not decided stays visible in NEW, and the command ends with 1.',
  ].join('\n'),
  run,
};

async function run(words: Words): Promise<ExitCode> {
  const [first, second, ...others] = words.positionals;
  const out = words.text('out');
  if (first === undefined || second === undefined || out === undefined || others.length > 0)
    throw new WrongUse('Expected two copies of a campaign, and --out');
  const keep = words.text('keep');
  if (keep !== undefined && keep !== 'ours' && keep !== 'theirs')
    throw new WrongUse(`--keep: found “${keep}”, expected ours or theirs`);
  const isZip = out.toLowerCase().endsWith('.zip');
  if (isZip) await mayBeMade(out, { option: 'out', ending: '.zip', undone: 'nothing was merged' });
  const folder = isZip ? null : await target(out, { replace: 'nothing' });
  const [ours, theirs] = [await readCopy(first), await readCopy(second)];
  demandOneCampaign(ours, theirs, words.flag('any-campaign'));
  const base = words.text('base');
  const ancestor = base === undefined ? null : (await readCopy(base)).side;
  const plan = planMerge(ours.side, theirs.side, ancestor);
  const decided = keep === undefined ? new Map<string, string>() : decidedFor(plan, keep);
  const doc = mergedCopy(ours.side, theirs.side, decided, writer(), ancestor);
  const files = await filesTogether(ours, theirs);
  const written = filesOf(doc, files.together);
  if (folder === null) await replaceFiles(dirname(out), [[basename(out), zipChunks(written)]]);
  else await writeWhole(folder, written, { checksums: false, keep: false });
  const open = plan.conflicts.filter(({ key }) => !decided.has(key));
  if (words.flag('json'))
    sayJson({ ...plan, decided: Object.fromEntries(decided), open: open.length, renamed: files.renamed });
  else {
    sayMerge(plan, decided);
    for (const [path, name] of files.renamed)
      print(`Two files are called ${path}: that of the second copy is kept as ${name}.`);
    print(
      `${out}: ${open.length === 0 ? 'nothing is left to decide.' : `${counted(open.length, 'conflict')} to decide.`}`,
    );
  }
  return open.length === 0 ? 0 : 1;
}

function demandOneCampaign(ours: CopyOnDisk, theirs: CopyOnDisk, isAny: boolean): void {
  const found = sameCampaign(ours.document, theirs.document);
  if (found === 'other' && !isAny)
    throw new NoTarget(
      `${theirs.path} is another campaign than ${ours.path}: nothing was merged. If both are one all the same, add --any-campaign`,
    );
  if (found === 'not stated')
    printError(
      `note: ${ours.path} or ${theirs.path} does not state which campaign it is: check that both are one`,
    );
}

/** For each conflict the choice of that copy; none where it has none. */
const decidedFor = ({ conflicts }: MergePlan, keep: 'ours' | 'theirs'): Map<string, string> =>
  new Map(
    conflicts.flatMap(({ key, choices }) => {
      const choice = choices.find(({ side }) => side === keep);
      return choice === undefined ? [] : [[key, choice.key]];
    }),
  );

const writer = (): Writer => ({
  crew: () => ({ by: '', device: 'command line' }),
  // biome-ignore lint/plugin: when somebody decided is a fact of the record; no number is computed from it
  time: () => `${new Date().toISOString().slice(0, 19)}+00:00`,
  newRowId: () => randomUUID(),
});

/** The photos of both; of two files that have one name and differ both are kept. */
async function filesTogether(ours: CopyOnDisk, theirs: CopyOnDisk) {
  const together = new Map([...ours.side.files.keys()].map((path) => [path, () => ours.file(path)]));
  const renamed: [path: string, name: string][] = [];
  for (const [path, size] of theirs.side.files) {
    const here = ours.side.files.get(path);
    if (
      here !== undefined &&
      here === size &&
      Buffer.compare(await ours.file(path), await theirs.file(path)) === 0
    )
      continue;
    const name = here === undefined ? path : freeName(path, together);
    if (name !== path) renamed.push([path, name]);
    together.set(name, () => theirs.file(path));
  }
  return { together, renamed };
}

/** "photos/core.jpg" as "photos/core.copy.jpg". */
function freeName(path: string, taken: ReadonlyMap<string, unknown>): string {
  const dot = path.lastIndexOf('.');
  const at = dot > path.lastIndexOf('/') + 1 ? dot : path.length;
  for (let n = 1; ; n++) {
    const name = `${path.slice(0, at)}.copy${n === 1 ? '' : n}${path.slice(at)}`;
    if (!taken.has(name)) return name;
  }
}

/** Tables first, then photos, the history last: what is cut off loses it first. */
async function* filesOf(
  doc: CopyOnDisk['doc'],
  files: ReadonlyMap<string, () => Promise<Uint8Array>>,
): AsyncGenerator<readonly [string, Uint8Array]> {
  yield* writeFiles(readDocument(doc));
  for (const [path, read] of files) yield [path, await read()];
  yield [HISTORY_PATH, historyBytes(doc)];
}
