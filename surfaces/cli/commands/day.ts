/** `stillstand day`: the day-end sheet of one date. */
import { dayFacts, rowsOfDocument } from '@stillstand/campaign/holes';
import { daySheetHtml } from '@stillstand/output/day-sheet';
import { openCampaign } from '../campaign-folder.ts';
import { type Command, type ExitCode, type Words, WrongUse } from '../command.ts';
import { writeNew } from '../disk/write-new.ts';
import { print, sayJson } from '../say.ts';
import { typedDay } from '../typed-day.ts';

export const day: Command = {
  name: 'day',
  summary: 'Write the day-end sheet of one date: one A4 page to print and sign.',
  usage: ['day FOLDER DATE --out day.html', 'day FOLDER DATE --json'],
  options: { out: { type: 'string', value: 'FILE', about: 'where to write the page; never over a file' } },
  more: [
    'DATE is year first, 2024-03-05. The page is the one the app shows (Drill: Other event, End of day); print it from a browser.',
    'Exit code 1 where a danger is still open at the end of the day.',
  ].join('\n'),
  run,
};

async function run(words: Words): Promise<ExitCode> {
  const [folder, typed, ...others] = words.positionals;
  if (folder === undefined || typed === undefined || others.length > 0)
    throw new WrongUse('Expected a campaign folder and a date');
  const date = typedDay(typed);
  const out = words.text('out');
  if (out === undefined && !words.flag('json')) throw new WrongUse('Expected --out FILE, or --json');
  const { campaign, document } = await openCampaign(folder);
  const facts = dayFacts(campaign, rowsOfDocument(document), date);
  if (out !== undefined) await writeNew(out, daySheetHtml(facts));
  if (words.flag('json')) sayJson(facts);
  else {
    const worked = facts.holes.map((h) => h.hole).join(', ');
    print(`${date}: ${worked === '' ? 'no reading at any hole' : `holes ${worked}`}. Day sheet: ${out}`);
  }
  return facts.open.some((o) => o.level === 'danger') ? 1 : 0;
}
