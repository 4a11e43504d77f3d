/** `stillstand labels`: labels of samples or cores as a page to print. */
import { LABEL_SHEETS, labelsHtml, labelsOf, sheetNamed } from '@stillstand/output/labels';
import { computeOpened, openCampaign } from '../campaign-folder.ts';
import { type Command, type ExitCode, type Words, WrongUse } from '../command.ts';
import { writeNew } from '../disk/write-new.ts';
import { print } from '../say.ts';

export const labels: Command = {
  name: 'labels',
  summary:
    'Write labels of samples, planned samples or cores, each with a code a camera reads, as a page to print.',
  usage: ['labels FOLDER --out labels.html [--of cores] [--hole T1] [--sheet a4-3x8] [--skip 5]'],
  options: {
    out: { type: 'string', value: 'FILE', about: 'where to write the page; never over a file' },
    of: { type: 'string', value: 'WHAT', about: 'samples (the usual), planned (not taken yet) or cores' },
    hole: { type: 'string', value: 'HOLE', about: 'of one hole; without it of all' },
    sheet: {
      type: 'string',
      value: 'SHEET',
      about: 'a sheet by its name below, or a roll by width x height in mm, 62x29',
    },
    skip: { type: 'string', value: 'N', about: 'places of the first sheet that are used already' },
  },
  more: [
    'Print from a browser at 100 %, without margins of its own. The sheets:',
    ...LABEL_SHEETS.map(({ name, about }) => `  ${name.padEnd(12)} ${about}`),
    'The code says the campaign and the sample or run; of a sample with a registered identifier it is that.',
  ].join('\n'),
  run,
};

async function run(words: Words): Promise<ExitCode> {
  const [folder, ...others] = words.positionals;
  const out = words.text('out');
  if (folder === undefined || others.length > 0) throw new WrongUse('Expected one campaign folder or zip');
  if (out === undefined) throw new WrongUse('Expected --out FILE');
  const which = words.text('of') ?? 'samples';
  if (which !== 'samples' && which !== 'planned' && which !== 'cores')
    throw new WrongUse(`--of: found “${which}”, expected samples, planned or cores`);
  const named = words.text('sheet') ?? 'a4-3x8';
  const sheet = sheetNamed(named);
  if (sheet === null)
    throw new WrongUse(
      `--sheet: found “${named}”, expected ${LABEL_SHEETS.map(({ name }) => name).join(', ')}, or width x height of 25 x 15 to 300 x 300 mm`,
    );
  const places = sheet.columns * sheet.rows;
  const skip = Number(words.text('skip') ?? '0');
  if (!Number.isInteger(skip) || skip < 0 || skip >= places)
    throw new WrongUse(`--skip: found “${words.text('skip')}”, expected 0 to ${places - 1}`);
  const opened = await openCampaign(folder);
  const { campaign } = opened;
  const hole = words.text('hole') ?? null;
  const holes = campaign.rows.holes.map((row) => row.hole);
  if (hole !== null && !holes.includes(hole))
    throw new WrongUse(`--hole: found “${hole}”, expected one of ${holes.join(', ')}`);
  const { results } = await computeOpened(opened, { withCurve: false });
  const made = labelsOf(campaign, results, which, hole);
  if (made.length === 0) {
    print(
      `No ${which === 'planned' ? 'planned samples' : which} ${hole === null ? 'in this campaign' : `of hole ${hole}`}: nothing was written.`,
    );
    return 1;
  }
  const { fontCss } = await import('@stillstand/output/paper');
  const { html, pages, tooSmall } = labelsHtml(made, sheet, { skip, fontCss: await fontCss() });
  await writeNew(out, html);
  print(`${made.length} labels on ${pages} ${pages === 1 ? 'page' : 'pages'}, ${sheet.about}: ${out}`);
  if (tooSmall.length > 0)
    print(
      `Too small for these, whose code or name is long; use a larger label: ${tooSmall.slice(0, 8).join(', ')}${tooSmall.length > 8 ? ` and ${tooSmall.length - 8} more` : ''}.`,
    );
  return tooSmall.length > 0 ? 1 : 0;
}
