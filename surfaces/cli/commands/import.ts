/** `stillstand import`: somebody's table into a campaign, looked at first and added when asked. */
import { basename, dirname, join } from 'node:path';
import {
  bestSheet,
  decided,
  hereOf,
  KINDS,
  type Kind,
  type Mapping,
  proposed,
  readMapping,
  readTheirs,
  TABLE_OF,
  type TheirSheet,
  type Theirs,
  understand,
  withProposal,
} from '@stillstand/campaign/import';
import { isFine } from '@stillstand/campaign/problems';
import { wordsByColumn } from '@stillstand/published/vocabularies';
import { openToWrite } from '../campaign-folder.ts';
import { type Command, type ExitCode, type Words, WrongUse } from '../command.ts';
import { exists, readBytes } from '../disk/read.ts';
import { replaceFiles } from '../disk/replace.ts';
import { sayProposal } from '../import-words.ts';
import { print, printError, sayJson, sayProblems } from '../say.ts';

export const importTable: Command = {
  name: 'import',
  summary: 'Add rows from a table of somebody else, after looking at them.',
  usage: [
    'import FOLDER TABLE [--as KIND] [--sheet NAME] [--mapping FILE] [--set WORDS] [--lines] [--write] [--json]',
  ],
  options: {
    as: {
      type: 'string',
      value: 'KIND',
      about: `what the table is about: ${KINDS.join(', ')}; guessed by its headings`,
    },
    sheet: {
      type: 'string',
      value: 'NAME',
      about: 'sheet of the workbook; the one with the best headings if not given',
    },
    mapping: {
      type: 'string',
      value: 'FILE',
      about: 'which column is which: used if it is there, otherwise written for you to edit',
    },
    set: {
      type: 'string',
      value: 'WORDS',
      about:
        'decisions at the places named in the preview: "method=tube; columns.D.unit=cm; leave_out=12,13"',
    },
    write: { type: 'boolean', about: 'add the rows; without it they are only shown' },
    lines: { type: 'boolean', about: 'say what becomes of every line' },
  },
  more: 'Reads .xlsx, CSV and TSV. Every line is either used or explained. Rows with something wrong are not added; correct the table or the mapping and import again: rows that are in the campaign already are not added twice. How: docs/methods/import.md.',
  run,
};

/** Mappings that were used to write, by the headings they fit. In the campaign’s folder, so that they travel with it. */
const REMEMBERED = 'import-mappings.json';

async function run(words: Words): Promise<ExitCode> {
  const [folder, path, ...others] = words.positionals;
  if (folder === undefined || path === undefined || others.length > 0)
    throw new WrongUse('Expected a campaign folder and a table');
  const as = kindOf(words.text('as'));
  const opened = await openToWrite(folder);
  const theirs = await readTheirs(basename(path), await readBytes(path));
  sayProblems(theirs.problems);
  if (theirs.sheets.length === 0) return 1;
  const sheet = chosenSheet(theirs, words.text('sheet'), as);
  const remembered = await rememberedIn(folder);
  const file = words.text('mapping');
  const edited = file === undefined ? null : await mappingIn(file);
  const understood = understand(sheet, {
    ...as,
    remembered: (key) => remembered[key] ?? null,
    vocabulary: wordsByColumn,
  });
  const first = edited ?? understood?.mapping;
  if (first === undefined) {
    printError(
      `error: ${theirs.name}, ${sheet.name}: found no line of headings; expected one that names the columns. Give its line in a mapping, or name the sheet.`,
    );
    return 1;
  }
  const mapping = withWords(first, words.text('set'));
  const proposal = proposed(hereOf(opened.document), sheet, mapping);
  if (words.flag('json')) sayJson({ mapping, ...proposal });
  else sayProposal(sheet, mapping, proposal, words.flag('lines'));
  if (file !== undefined && edited === null) {
    await replaceFiles(dirname(file), [[basename(file), jsonLines(mapping)]]);
    if (!words.flag('json')) print(`The mapping is in ${file}: edit it and give it again.`);
  }
  const fine = isFine(proposal.problems) ? 0 : 1;
  if (!words.flag('write')) {
    if (!words.flag('json')) print('Nothing was changed; --write adds these rows.');
    return fine;
  }
  const changed = await opened.write(withProposal(opened.document, proposal));
  if (understood !== null) {
    const all = { ...remembered, [understood.key]: mapping };
    await replaceFiles(folder, [[REMEMBERED, jsonLines(all)]]);
  }
  if (!words.flag('json'))
    print(changed.length === 0 ? 'No row was added.' : `Added to ${folder}: ${changed.join(', ')}.`);
  return fine;
}

const jsonLines = (value: unknown): Uint8Array =>
  new TextEncoder().encode(`${JSON.stringify(value, null, 2)}\n`);

function kindOf(typed: string | undefined): { as?: Kind } {
  if (typed === undefined) return {};
  const as = KINDS.find((kind) => kind === typed || TABLE_OF[kind] === typed);
  if (as === undefined) throw new WrongUse(`--as: found “${typed}”, expected one of ${KINDS.join(', ')}`);
  return { as };
}

function chosenSheet(theirs: Theirs, name: string | undefined, { as }: { as?: Kind }): TheirSheet {
  if (name === undefined) return bestSheet(theirs, as) ?? theirs.sheets[0]!;
  const sheet = theirs.sheets.find((each) => each.name === name);
  if (sheet !== undefined) return sheet;
  throw new WrongUse(
    `--sheet: found “${name}”, expected one of ${theirs.sheets.map((each) => each.name).join(', ')}`,
  );
}

/** The mapping in a file; null where the file is still to be written. */
async function mappingIn(file: string): Promise<Mapping | null> {
  const text = await textIn(file);
  if (text === null) return null;
  const read = readMapping(text);
  if ('fault' in read) throw new WrongUse(`${file}: ${read.fault}`);
  return read.mapping;
}

/** What was remembered; a file that somebody broke is left alone and not used. */
async function rememberedIn(folder: string): Promise<Record<string, Mapping>> {
  const text = await textIn(join(folder, REMEMBERED));
  if (text === null) return {};
  const entries = Object.entries(membersOf(text)).flatMap(([key, value]) => {
    const read = readMapping(JSON.stringify(value));
    return 'mapping' in read ? [[key, read.mapping] as const] : [];
  });
  return Object.fromEntries(entries);
}

function membersOf(text: string): object {
  try {
    const parsed: unknown = JSON.parse(text);
    return typeof parsed === 'object' && parsed !== null ? parsed : {};
  } catch {
    return {};
  }
}

async function textIn(path: string): Promise<string | null> {
  return (await exists(path)) ? new TextDecoder().decode(await readBytes(path)) : null;
}

/** "method=tube; columns.D.unit=cm": decisions, at the places that the preview names. */
function withWords(mapping: Mapping, typed: string | undefined): Mapping {
  let made = mapping;
  for (const part of (typed ?? '').split(';').filter((each) => each.trim() !== '')) {
    const [where, ...word] = part.split('=');
    if (word.length === 0) throw new WrongUse(`--set: found “${part.trim()}”, expected WHERE=WORD`);
    const read = decided(made, where!.trim(), word.join('=').trim());
    if ('fault' in read) throw new WrongUse(`--set: ${read.fault}`);
    made = read.mapping;
  }
  return made;
}
