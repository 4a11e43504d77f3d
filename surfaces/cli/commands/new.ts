/** `stillstand new`: an empty campaign folder. */
import { newDocument, writeFiles } from '@stillstand/campaign/document';
import { type Command, type ExitCode, type Words, WrongUse } from '../command.ts';
import { folderIsFree, writeFolder } from '../folder.ts';

export const newCampaign: Command = {
  name: 'new',
  summary: 'Makes an empty campaign folder, every table with its headings.',
  usage: ['new FOLDER [--name NAME]'],
  options: {
    name: { type: 'string', value: 'NAME', about: 'name of the campaign; the folder’s if not given' },
  },
  more: 'What the tables and columns are stands in docs/tables.md and in the folder’s own datapackage.json.',
  run,
};

async function run(words: Words): Promise<ExitCode> {
  const [folder, ...others] = words.positionals;
  if (folder === undefined || others.length > 0) throw new WrongUse('Expected one folder');
  if (!(await folderIsFree(folder))) {
    throw new WrongUse(`${folder} exists and is not empty; name another folder, nothing was changed`);
  }
  const name = words.text('name') ?? folder.split(/[\\/]/).filter(Boolean).pop() ?? folder;
  const files = writeFiles(newDocument(name));
  await writeFolder(folder, files);
  if (words.flag('json')) console.log(JSON.stringify({ folder, files: [...files.keys()] }, null, 1));
  else
    console.log(`${folder}: ${files.size} files. Fill in the tables, then: npx stillstand check ${folder}`);
  return 0;
}
