/** `stillstand new`: an empty campaign folder. */
import { randomUUID } from 'node:crypto';
import { basename } from 'node:path';
import { newDocument, writeFiles } from '@stillstand/campaign/document';
import { type Command, type ExitCode, type Words, WrongUse } from '../command.ts';
import { target, writeWhole } from '../disk/write.ts';
import { print, sayJson } from '../say.ts';

export const newCampaign: Command = {
  name: 'new',
  summary: 'Makes an empty campaign folder, every table with its headings.',
  usage: ['new FOLDER [--name NAME]'],
  options: {
    name: { type: 'string', value: 'NAME', about: 'name of the campaign; the folder’s if not given' },
  },
  more: 'The tables and columns are described in docs/tables.md and in the folder’s own datapackage.json.',
  run,
};

async function run(words: Words): Promise<ExitCode> {
  const [folder, ...others] = words.positionals;
  if (folder === undefined || others.length > 0) throw new WrongUse('Expected one folder');
  const place = await target(folder, { replace: 'nothing' });
  const files = writeFiles(newDocument(words.text('name') ?? basename(place.place), randomUUID()));
  await writeWhole(place, files, { checksums: false, keep: false });
  if (words.flag('json')) sayJson({ folder, files: [...files.keys()] });
  else print(`${folder}: ${files.size} files. Fill in the tables, then: npx stillstand check ${folder}`);
  return 0;
}
