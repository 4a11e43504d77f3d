/** `stillstand compute`: a campaign to results, tables, figures and report. */
import { mkdir, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { type Results, writeResults } from '@stillstand/campaign/results';
import { figuresOf } from '@stillstand/output/figures';
import { headline, reportHtml, resultTables } from '@stillstand/output/report';
import { openAndCompute } from '../campaign-folder.ts';
import { type Command, type ExitCode, type Words, WrongUse } from '../command.ts';
import { writeFile } from '../folder.ts';
import { sayPointsAmongOthers } from '../points-among-others.ts';
import { progress, sayJson, sayProblems } from '../say.ts';

export const compute: Command = {
  name: 'compute',
  summary: 'Computes a campaign the whole way: results, tables, figures and report.',
  usage: ['compute FOLDER --out DIR [--figures svg,png,pdf] [--json]'],
  options: {
    out: { type: 'string', value: 'DIR', about: 'where to write' },
    figures: {
      type: 'string',
      value: 'KINDS',
      about: 'kinds of figure file: svg, png, pdf; all three if not given',
    },
  },
  more: [
    'Writes results.json with its draws, tables/*.csv, figures/* and report.html (one file, opens offline).',
    'With --json prints results.json instead of the summary.',
  ].join('\n'),
  run,
};

const KINDS = ['svg', 'png', 'pdf'] as const;
type Kind = (typeof KINDS)[number];

async function run(words: Words): Promise<ExitCode> {
  const [folder, ...others] = words.positionals;
  if (folder === undefined || others.length > 0) throw new WrongUse('Expected one campaign folder or zip');
  const out = words.text('out');
  if (out === undefined) throw new WrongUse('Expected --out DIR, where the results go');
  if ((await stat(out).catch(() => null))?.isFile())
    throw new WrongUse(`--out: ${out} is a file, expected a folder or a name for a new one`);
  const kinds = (words.text('figures') ?? KINDS.join(',')).split(',').map((word) => word.trim());
  for (const kind of kinds) {
    if (!KINDS.includes(kind as Kind))
      throw new WrongUse(`--figures: found “${kind}”, expected ${KINDS.join(', ')}`);
  }
  const { results } = await openAndCompute(folder, { withCurve: true, onProgress: progress('sea level') });
  await writeAll(results, out, kinds as Kind[]);
  if (words.flag('json')) sayJson(JSON.parse(writeResults(results).json));
  else {
    for (const line of headline(results)) console.log(line);
    if (results.curve !== null && results.curve.points.length > 0) {
      const rsl = new Map(results.points.map((point) => [point.point, point.rsl_m]));
      sayPointsAmongOthers(results.curve, rsl);
    }
  }
  if (!words.flag('json')) console.log(`Report: ${join(out, 'report.html')}`);
  return sayProblems(results.problems.filter((p) => p.severity === 'danger' || p.severity === 'error'));
}

/** Writes everything a campaign comes to below `out`. */
export async function writeAll(results: Results, out: string, kinds: readonly Kind[]): Promise<void> {
  for (const part of ['.', 'tables', 'figures']) await mkdir(join(out, part), { recursive: true });
  const { json, draws } = writeResults(results);
  await writeFile(join(out, 'results.json'), json);
  await writeFile(join(out, 'results.draws.bin'), draws);
  for (const [name, text] of resultTables(results)) await writeFile(join(out, 'tables', name), text);
  const figures = figuresOf(results, {});
  const paper = await import('@stillstand/output/paper');
  const drawing = progress('figures');
  for (const [i, figure] of figures.entries()) {
    const path = join(out, 'figures', figure.name);
    if (kinds.includes('svg')) await writeFile(`${path}.svg`, await paper.figureToSvg(figure.svg));
    if (kinds.includes('png')) await writeFile(`${path}.png`, await paper.figureToPng(figure.svg));
    if (kinds.includes('pdf')) await writeFile(`${path}.pdf`, await paper.figureToPdf(figure.svg));
    drawing(i + 1, figures.length);
  }
  // The report numbers and sets the captions itself.
  const inReport = figuresOf(results, { caption: false });
  await writeFile(
    join(out, 'report.html'),
    reportHtml(results, inReport, { fontCss: await paper.fontCss() }),
  );
}
