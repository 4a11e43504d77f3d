/** `stillstand history`: who changed what in a campaign, and the campaign as it was then. */
import { randomUUID } from 'node:crypto';
import { basename, dirname } from 'node:path';
import { type CampaignDocument, writeFiles, zipChunks } from '@stillstand/campaign/document';
import { documentAfter, type Replica } from '@stillstand/campaign/history';
import {
  type Act,
  actsOf,
  actWords,
  cellsIn,
  dayWords,
  momentWords,
  readTable,
  type TableRead,
} from '@stillstand/campaign/replica';
import { counted } from '@stillstand/output/words';
import { openCampaign } from '../campaign-folder.ts';
import { type Command, type ExitCode, type Words, WrongUse } from '../command.ts';
import { mayBeMade } from '../disk/new-file.ts';
import { replaceFiles } from '../disk/replace.ts';
import { target, writeWhole } from '../disk/write.ts';
import { replicaIn } from '../history-of.ts';
import { print, sayJson, sayProblems } from '../say.ts';

export const history: Command = {
  name: 'history',
  summary: 'Lists who changed what in a campaign, and writes it as it was then.',
  usage: ['history CAMPAIGN [--limit N] [--json]', 'history CAMPAIGN --at ACT --out NEW'],
  options: {
    limit: { type: 'string', value: 'N', about: 'list the last N acts; 50 if not given' },
    at: {
      type: 'string',
      value: 'ACT',
      about: 'the act after which the campaign is written; “start”: before the first',
    },
    out: { type: 'string', value: 'NEW', about: 'a new folder, or a new file that ends in .zip' },
  },
  more: [
    'The app saves the history with every campaign, in history.yjs next to the tables; the newest act is listed last.',
    'Times are those of each device’s clock. What was edited outside the app is one act, without a name and a time.',
    'An earlier state is a campaign of its own with the moment in its title, and without a history.',
  ].join('\n'),
  run,
};

async function run(words: Words): Promise<ExitCode> {
  const [path, ...others] = words.positionals;
  if (path === undefined || others.length > 0)
    throw new WrongUse('Expected one campaign: its folder or its zip');
  const [at, out] = [words.text('at'), words.text('out')];
  if ((at === undefined) !== (out === undefined)) throw new WrongUse('--at and --out go together');
  const limit = words.number('limit', { min: 1, integer: true }) ?? LISTED;
  const { document, problems } = await openCampaign(path);
  const replica = replicaIn(document);
  if (replica === null) {
    if (at !== undefined) throw new WrongUse(`--at: found “${at}”, and ${path} has no history`);
    if (words.flag('json')) sayJson({ history: 'none', acts: [], problems: [] });
    else print(`${path} has no history: it is kept from the first time that the app saves the campaign.`);
    return 0;
  }
  if (at !== undefined) {
    await writeEarlier(replica, at, out!);
    return 0;
  }
  const acts = actsOf(replica.doc, true).all();
  const shown = acts.slice(-limit);
  const say = sayer(replica);
  if (words.flag('json')) {
    sayJson({
      history: replica.history,
      acts: shown.map((act) => ({ ...act, words: say(act) })),
      earlier: acts.length - shown.length,
      problems: [...problems, ...replica.problems],
    });
    return 0;
  }
  sayProblems(replica.problems);
  if (acts.length === 0) print('No act is known.');
  if (shown.length < acts.length)
    print(`${counted(acts.length - shown.length, 'earlier act')}: --limit shows more.`);
  let day: string | null = null;
  for (const act of shown) {
    const own = dayWords(act.time) || 'day not known';
    if (own !== day) print(own);
    day = own;
    print(`  ${act.id}  ${say(act)}`);
  }
  return 0;
}

/** Of a long history so many acts are listed. */
const LISTED = 50;

function sayer({ doc }: Replica): (act: Act) => string {
  const known = new Map<string, TableRead | null>();
  const cellsOf = cellsIn((name) => {
    if (!known.has(name)) known.set(name, readTable(doc, name, { layout: '', rows: new WeakMap() }));
    return known.get(name)!;
  });
  return (act) => actWords(act, cellsOf);
}

async function writeEarlier({ doc, document }: Replica, at: string, out: string): Promise<void> {
  const act = actsOf(doc, true)
    .all()
    .find(({ id }) => id === at);
  if (act === undefined && at !== 'start')
    throw new WrongUse(`--at: found “${at}”, expected “start” or the name of an act, as the list has it`);
  const isZip = out.toLowerCase().endsWith('.zip');
  if (isZip) await mayBeMade(out, { option: 'out', ending: '.zip', undone: 'nothing was written' });
  const folder = isZip ? null : await target(out, { replace: 'nothing' });
  const moment =
    act === undefined
      ? 'at its start'
      : act.time === ''
        ? `after the act ${at}`
        : `on ${momentWords(act.time)}`;
  const files = writeFiles({
    ...ofItsOwn(documentAfter(doc, act?.id ?? null), moment),
    files: document.files,
  });
  if (folder === null) await replaceFiles(dirname(out), [[basename(out), zipChunks(files)]]);
  else await writeWhole(folder, files, { checksums: false, keep: false });
  print(
    `${out}: the campaign as it was ${moment}, ${counted(files.size, 'file')}. Photos in a folder are not copied.`,
  );
}

/** An identity and a title of its own, so that nobody takes it for the campaign or merges it by chance. */
const ofItsOwn = (document: CampaignDocument, moment: string): CampaignDocument => ({
  ...document,
  package: {
    ...document.package,
    id: randomUUID(),
    title: `${String(document.package?.['title'] ?? 'Campaign')}, as it was ${moment}`,
  },
});
