/** `stillstand archive`: where every core and sample is, and what is on loan. */
import { ARCHIVE_PARTS, archiveOf } from '@stillstand/output/lists';
import { printed } from '@stillstand/output/words';
import { openCampaign } from '../campaign-folder.ts';
import { type Command, type ExitCode, type Words, WrongUse } from '../command.ts';
import { dayAsked, LIST_OPTIONS, listFileOf, writeList } from '../list-file.ts';
import { print } from '../say.ts';

export const archive: Command = {
  name: 'archive',
  summary:
    'Write the list of all cores and samples: where each is, what is left, on loan to whom and until when.',
  usage: ['archive FOLDER --date 2026-03-05 --out archive.xlsx [--of loans]'],
  options: {
    of: { type: 'string', value: 'WHICH', about: 'all (the usual), away (sent or lent) or loans' },
    date: { type: 'string', value: 'DATE', about: 'the day it is for: what is overdue is so on that day' },
    ...LIST_OPTIONS,
  },
  more: 'From the entries of custody; results received count as such. Exit code 1 where something is overdue.',
  run,
};

async function run(words: Words): Promise<ExitCode> {
  const [folder, ...others] = words.positionals;
  if (folder === undefined || others.length > 0) throw new WrongUse('Expected one campaign folder or zip');
  const file = listFileOf(words);
  const named = words.text('of') ?? 'all';
  const part = ARCHIVE_PARTS.find((one) => one === named);
  if (part === undefined) throw new WrongUse(`--of: found “${named}”, expected ${ARCHIVE_PARTS.join(', ')}`);
  const { campaign } = await openCampaign(folder);
  const { overdue, ...list } = archiveOf(campaign, dayAsked(words), part);
  await writeList(list, file);
  const facts = new Map(list.head);
  print(
    `${list.title}: ${facts.get('Listed')}, ${facts.get('On loan')} on loan, ${printed(overdue)} overdue: ${file.out}`,
    ...list.notes,
  );
  return overdue === 0 ? 0 : 1;
}
