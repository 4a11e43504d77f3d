/** `stillstand risks`: the risk assessment of a site and a day, to print and sign. */
import { isHigh } from '@stillstand/campaign/holes';
import { riskSheetHtml, riskSheetOf } from '@stillstand/output/risk-sheet';
import { counted } from '@stillstand/output/words';
import { openCampaign } from '../campaign-folder.ts';
import { type Command, type ExitCode, type Words, WrongUse } from '../command.ts';
import { writeNew } from '../disk/write-new.ts';
import { print, sayJson } from '../say.ts';
import { typedDay } from '../typed-day.ts';

export const risks: Command = {
  name: 'risks',
  summary: 'Write the risk assessment of one date: a sheet to go through, print and sign.',
  usage: ['risks FOLDER DATE --out risks.html', 'risks FOLDER DATE --site SITE --json'],
  options: {
    out: { type: 'string', value: 'FILE', about: 'where to write the page; never over a file' },
    site: { type: 'string', value: 'SITE', about: 'only the risks of this site and of all sites' },
  },
  more: [
    'DATE is year first, 2024-03-05. The page is the one the app shows (Plan: Risk assessment); print it from a browser.',
    'Exit code 1 where a risk stays high.',
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
  const { campaign } = await openCampaign(folder);
  const site = words.text('site') ?? '';
  if (site !== '' && !campaign.rows.sites.some((row) => row.site === site))
    throw new WrongUse(
      `No site “${site}”. There are: ${campaign.rows.sites.map((row) => row.site).join(', ') || 'none'}`,
    );
  const sheet = riskSheetOf(campaign, date, site);
  if (out !== undefined) await writeNew(out, riskSheetHtml(sheet));
  if (words.flag('json')) sayJson(sheet);
  else print(`${date}: ${counted(sheet.risks.length, 'risk')}. Risk assessment: ${out}`);
  return sheet.risks.some(isHigh) ? 1 : 0;
}
