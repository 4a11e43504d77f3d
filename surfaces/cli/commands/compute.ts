/** `stillstand compute`: a campaign to results, tables, figures and report. */
import { basename, dirname, join, resolve, sep } from 'node:path';
import { datingOf } from '@stillstand/campaign/budget';
import { zipChunks } from '@stillstand/campaign/document';
import { reconcileCampaign } from '@stillstand/campaign/holes';
import { curveOf, type Results, writeResults } from '@stillstand/campaign/results';
import { dataPackage, type Photographs } from '@stillstand/output/data-package';
import { captionsText, figuresOf } from '@stillstand/output/figures';
import { writeGeoPackage } from '@stillstand/output/geopackage';
import type { StripPicture } from '@stillstand/output/photographs';
import {
  headline,
  pointsWorkbook,
  type ReportOptions,
  reportHtml,
  resultTables,
  whereFrom,
} from '@stillstand/output/report';
import type { MapShapes } from '@stillstand/output/shapes';
import { counted, printed } from '@stillstand/output/words';
import { campaignOf, computeOpened, type OpenCampaign, openCampaign } from '../campaign-folder.ts';
import { type Command, type ExitCode, type Words, WrongUse } from '../command.ts';
import { mayBeMade } from '../disk/new-file.ts';
import { replaceFiles } from '../disk/replace.ts';
import { type Entry, NoTarget, type Target, target, writeWhole } from '../disk/write.ts';
import { FIGURE_OPTIONS, type FigureChoices, type FigureKind, figureChoices } from '../figure-choices.ts';
import { shapesOf } from '../map-shapes.ts';
import { stripsOf } from '../photograph-strips.ts';
import { leftOut, photographsOf } from '../photographs.ts';
import { sayPointsAmongOthers } from '../points-among-others.ts';
import { print, printError, progress, sayJson, sayProblems } from '../say.ts';

export const compute: Command = {
  name: 'compute',
  summary: 'Computes a campaign from end to end: results, tables, figures and report.',
  usage: [
    'compute FOLDER --out DIR [--figures svg,png,pdf] [--package FILE.zip] [--geopackage FILE.gpkg] [--json]',
    'compute FOLDER --out DIR --journal --width 90 --dpi 600 [--grey] [--ages ce] [--older right]',
  ],
  options: {
    out: { type: 'string', value: 'DIR', about: 'where to write' },
    ...FIGURE_OPTIONS,
    package: {
      type: 'string',
      value: 'FILE.zip',
      about: 'a new file for the data package: campaign, results, methods, references, licences, checksums',
    },
    'without-photographs': {
      type: 'boolean',
      about: 'leave the photographs of the campaign out of the data package',
    },
    geopackage: {
      type: 'string',
      value: 'FILE.gpkg',
      about: 'a new file for holes, samples, points and tables as an OGC GeoPackage; a data package has one',
    },
  },
  more: [
    'Writes results.json with its draws, tables/*.csv, tables/points.xlsx, figures/* and report.html (one file, opens offline).',
    'A figure is laid out at its width, never scaled; what a width cannot hold, the figure names in its warnings.',
    'With --journal what warns stands first in the caption: not on the figure. report.html keeps its own figures.',
    'With --json prints results.json instead of the summary.',
  ].join('\n'),
  run,
};

async function run(words: Words): Promise<ExitCode> {
  const [folder, ...others] = words.positionals;
  if (folder === undefined || others.length > 0) throw new WrongUse('Expected one campaign folder or zip');
  const out = words.text('out');
  if (out === undefined) throw new WrongUse('Expected --out DIR, where the results go');
  const figures = figureChoices(words);
  const archive = words.text('package') ?? null;
  const geopackage = words.text('geopackage') ?? null;
  const withoutPhotographs = words.flag('without-photographs');
  if (withoutPhotographs && archive === null)
    throw new WrongUse('--without-photographs goes with --package FILE.zip');
  // Before minutes of computing: a folder that cannot be written is named at once.
  for (const [option, file, ending] of [
    ['package', archive, '.zip'],
    ['geopackage', geopackage, '.gpkg'],
  ] as const) {
    if (file === null) continue;
    mustLieOutside(out, file);
    await mayBeMade(file, { option, ending, undone: 'nothing was computed' });
  }
  const place = await target(out, { spare: folder, replace: 'results' });
  const opened = await openCampaign(folder);
  const toPack =
    archive === null
      ? null
      : {
          file: archive,
          photographs: withoutPhotographs ? leftOut(opened) : await photographsOf(folder, opened),
        };
  return await computeInto(place, opened, { figures, json: words.flag('json'), archive: toPack, geopackage });
}

/** The results replace their folder whole. */
function mustLieOutside(out: string, file: string): void {
  if (`${dirname(resolve(file))}${sep}`.startsWith(`${resolve(out)}${sep}`))
    throw new NoTarget(`${file} is in ${out}, which is replaced as a whole: name a file outside it`);
}

/**
 * The same for a campaign whose files are at hand; they are written beside the results, in the folder `campaignIn` of
 * `out`. Whatever stands at `out` is replaced.
 */
export async function computeFiles(
  files: ReadonlyMap<string, Uint8Array>,
  out: string,
  { kinds, campaignIn }: { kinds: readonly FigureKind[]; campaignIn: string },
): Promise<ExitCode> {
  const place = await target(out, { replace: 'anything' });
  const beside = [...files].map(([path, bytes]): Entry => [`${campaignIn}/${path}`, bytes]);
  return await computeInto(place, campaignOf(files), {
    figures: { kinds, options: {} },
    json: false,
    beside,
  });
}

async function computeInto(
  place: Target,
  opened: OpenCampaign,
  {
    figures,
    json,
    beside,
    archive = null,
    geopackage = null,
  }: {
    figures: FigureChoices;
    json: boolean;
    beside?: readonly Entry[];
    archive?: { file: string; photographs: Photographs } | null;
    geopackage?: string | null;
  },
): Promise<ExitCode> {
  const computation = await computeOpened(opened, { withCurve: true, onProgress: progress('sea level') });
  const { results } = computation;
  const page = {
    pipe: reconcileCampaign(opened.campaign),
    dating: datingOf(opened.campaign, results.settings),
    where: whereFrom(computation, opened.document, opened.campaign),
  };
  const strips = await stripsOf(results, opened.file);
  const shapes = await shapesOf(opened);
  const written = await writeWhole(
    place,
    filesOf(results, { ...page, strips, shapes }, figures, beside ?? []),
    {
      checksums: true,
      keep: beside === undefined,
    },
  );
  if (archive !== null || geopackage !== null) {
    const layers = await writeGeoPackage(results);
    if (geopackage !== null) await replaceFiles(dirname(geopackage), [[basename(geopackage), layers]]);
    if (archive !== null) {
      const { file, photographs } = archive;
      const files = dataPackage({ document: opened.document, results, geopackage: layers, photographs });
      await replaceFiles(dirname(file), [[basename(file), zipChunks(files)]]);
    }
  }
  if (json) sayJson(JSON.parse(writeResults(results).json));
  else {
    for (const line of headline(results)) print(line);
    const curve = curveOf(results);
    if (curve !== null && curve.points.length > 0) {
      const rsl = new Map(results.points.map((point) => [point.point, point.rsl_m]));
      sayPointsAmongOthers(curve, rsl);
    }
    print(`Report: ${join(place.said, 'report.html')}`);
    if (archive !== null) print(`Data package: ${archive.file}`);
    if (geopackage !== null) print(`GeoPackage: ${geopackage}`);
  }
  if (written.kept.length > 0)
    printError(`note: kept in ${place.said}, no part of these results: ${written.kept.join(', ')}`);
  if (written.remains !== null)
    printError(`warning: the earlier results could not be cleared away: delete ${written.remains}`);
  return sayProblems(results.problems.filter((p) => p.severity === 'danger' || p.severity === 'error'));
}

interface Page extends Pick<ReportOptions, 'pipe' | 'dating' | 'where'> {
  strips: ReadonlyMap<string, StripPicture>;
  shapes: MapShapes;
}

/** Everything a campaign comes to, file by file. */
async function* filesOf(
  results: Results,
  { strips, shapes, ...page }: Page,
  { kinds, dots_per_inch, options }: FigureChoices,
  beside: Iterable<Entry>,
): AsyncGenerator<Entry> {
  yield* beside;
  const { json, arrays } = writeResults(results);
  yield ['results.json', json];
  yield ['results.npz', arrays];
  for (const [name, text] of resultTables(results)) yield [`tables/${name}`, text];
  const [workbook, sheet] = pointsWorkbook(results);
  yield [`tables/${workbook}`, sheet];
  const paper = await import('@stillstand/output/paper');
  const inTone =
    options.grey === true
      ? new Map([...strips].map(([row, strip]) => [row, paper.stripInGreys(strip)]))
      : strips;
  const figures = figuresOf(results, { ...options, pictures: inTone, shapes });
  const drawing = progress('figures');
  for (const [i, figure] of figures.entries()) {
    const path = `figures/${figure.name}`;
    if (kinds.includes('svg')) yield [`${path}.svg`, await paper.figureToSvg(figure.svg)];
    if (kinds.includes('png')) yield [`${path}.png`, await paper.figureToPng(figure.svg, dots_per_inch)];
    if (kinds.includes('pdf')) yield [`${path}.pdf`, await paper.figureToPdf(figure.svg)];
    drawing(i + 1, figures.length);
  }
  // In a journal's form nothing on the figure says what it had no room for.
  for (const { name, warnings } of figures)
    for (const warning of warnings.filter((words) => words.startsWith('Narrow: ')))
      printError(`note: figure ${name}: ${warning}`);
  // Also without a journal’s form: that of the plate is never on its page.
  if (figures.length > 0) yield ['figures/captions.txt', captionsText(figures)];
  // The report numbers and sets the captions itself.
  const inReport = figuresOf(results, { caption: false, pictures: strips, shapes });
  const html = reportHtml(results, inReport, { fontCss: await paper.fontCss(), ...page });
  const drawn = [...strips.values()].filter((strip) => 'url' in strip).length;
  if (drawn > 0)
    printError(
      `note: report.html has ${printed(html.length / 1e6, 1)} MB with ${counted(drawn, 'photograph')}`,
    );
  yield ['report.html', html];
}
