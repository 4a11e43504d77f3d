/** Draws the page beside the screen, and makes the report from nothing: parsed, computed and drawn, nothing remembered. */
import { type Dating, datingOf } from '@stillstand/campaign/budget';
import { type CampaignDocument, parseCampaign, zipBlob } from '@stillstand/campaign/document';
import { type CampaignPipe, reconcileCampaign } from '@stillstand/campaign/holes';
import { type Results, readResults, writeResults } from '@stillstand/campaign/results';
import { computeCampaign, curvesNeeded } from '@stillstand/campaign/steps';
import { dataPackage, photographsNamed } from '@stillstand/output/data-package';
import { type Figure, type FigureOptions, figuresOf } from '@stillstand/output/figures';
import {
  pointsWorkbook,
  reportHtml,
  resultsGeoJson,
  resultTables,
  type WhereFrom,
  whereFrom,
} from '@stillstand/output/report';
import { loadCurves } from '@stillstand/published/curves';
import { DOSE_FACTORS } from '@stillstand/published/dose-factors';
import type { Answered, Asked, MadeFiles, MadeFrom } from './protocol.ts';
import { stripsOf } from './strips.ts';
import { typefaceRules, withTypefaces } from './typefaces.ts';
import { zipped } from './zipped.ts';

const answer = (message: Answered): void => self.postMessage(message);

let newest = 0;
let work: Promise<void> = Promise.resolve();

self.onmessage = (event: MessageEvent<Asked>): void => {
  const asked = event.data;
  if (asked.kind === 'make' || asked.kind === 'look') newest = asked.turn;
  work = work
    .then(() => answerTo(asked))
    .catch((error: unknown) => {
      // Thrown where the page hears of it.
      setTimeout(() => {
        throw error;
      });
    });
};

async function answerTo(asked: Asked): Promise<void> {
  if (asked.kind === 'look') await look(asked);
  else if (asked.kind === 'make') await make(asked);
  else {
    const zip = asked.kind === 'pack' ? zipped(asked.files) : packageOf(asked);
    await zip.then(
      (made) => answer({ kind: 'packed', pack: asked.pack, zip: made }),
      (error: unknown) =>
        answer({
          kind: 'not-packed',
          pack: asked.pack,
          words: error instanceof Error ? error.message : String(error),
        }),
    );
  }
}

async function look(asked: Asked & { kind: 'look' }): Promise<void> {
  // Only the newest look is worth drawing.
  if (asked.turn !== newest) return;
  const pictures = await stripsOf(asked.results, new Map(asked.photos));
  const all = figuresOf(asked.results, {
    caption: false,
    theme: asked.theme,
    pictures,
    shapes: asked.shapes,
  });
  const html = reportHtml(asked.results, chosen(all, asked.leftOut), {
    fontCss: '',
    pipe: asked.pipe,
    dating: asked.dating,
  });
  const figures = all.map(({ name, caption, warnings }) => ({ name, words: wordsOf(caption), warnings }));
  answer({ kind: 'looked', turn: asked.turn, html, figures });
}

async function make(asked: Asked & { kind: 'make' }): Promise<void> {
  const { turn, leftOut, shapes } = asked;
  const faces = await typefaceRules();
  const { results, pipe, dating, where, photographs } = await computeCold(asked);
  const pictures = await stripsOf(results, new Map(asked.photos));
  const drawn = (options: FigureOptions): Figure[] =>
    chosen(figuresOf(results, { ...options, pictures, shapes }), leftOut);
  // The report numbers and sets the captions itself.
  const inReport = drawn({ caption: false });
  const { json, arrays } = writeResults(results);
  const made: MadeFiles = {
    name: results.name,
    page: reportHtml(results, inReport, { fontCss: '', pipe, dating }),
    html: fileOf(reportHtml(results, inReport, { fontCss: faces, pipe, dating, where }), 'text/html'),
    figures: await Promise.all(
      drawn({}).map(async ({ name, svg, width_mm, height_mm }) => ({
        name,
        svg: fileOf(await withTypefaces(svg), 'image/svg+xml'),
        width_mm,
        height_mm,
      })),
    ),
    tables: [...resultTables(results)].map(([name, csv]) => [name, fileOf(csv, 'text/csv')]),
    workbook: new Blob([pointsWorkbook(results)[1] as Uint8Array<ArrayBuffer>]),
    geojson: fileOf(resultsGeoJson(results), 'application/geo+json'),
    results: fileOf(json, 'application/json'),
    arrays: new Blob([arrays as Uint8Array<ArrayBuffer>]),
    photographs,
  };
  answer({ kind: 'made', turn, made });
}

/** The results are read back from what was written of them, so that nothing need be kept here for it. */
async function packageOf(asked: Asked & { kind: 'package' }): Promise<Blob> {
  const [json, arrays, geopackage] = await Promise.all([
    asked.results.text(),
    bytesOf(asked.arrays),
    asked.geopackage === null ? null : bytesOf(asked.geopackage),
  ]);
  const read = readResults(json, arrays);
  if (!read.ok) throw new Error(read.problem.found ?? read.problem.code);
  const document = documentOf(asked);
  const named = photographsNamed(parseCampaign(document).campaign);
  const files = asked.photographs === null ? null : new Map(asked.photographs);
  let asking = 0;
  const photograph = async (path: string): Promise<Uint8Array | null> => {
    asking += 1;
    answer({ kind: 'packing', pack: asked.pack, words: `Photograph ${asking} of ${named.length}` });
    const file = files?.get(path);
    // One that the device no longer gives is named in the README.
    return file === undefined ? null : await bytesOf(file).catch(() => null);
  };
  const photographs = { named, read: files === null ? null : photograph };
  return await zipBlob(dataPackage({ document, results: read.results, geopackage, photographs }));
}

const bytesOf = async (file: Blob): Promise<Uint8Array> => new Uint8Array(await file.arrayBuffer());

const documentOf = (from: MadeFrom): CampaignDocument => ({
  package: from.package,
  tables: new Map(from.tables),
  files: new Map(from.files),
  source: null,
});

async function computeCold(asked: Asked & { kind: 'make' }): Promise<{
  results: Results;
  pipe: CampaignPipe;
  dating: Dating;
  where: WhereFrom;
  photographs: string[];
}> {
  const document = documentOf(asked);
  const { campaign, problems } = parseCampaign(document);
  const published = { curves: await loadCurves(curvesNeeded(campaign)), doseFactors: DOSE_FACTORS };
  const computation = computeCampaign(campaign, published, [...asked.found, ...problems], {
    withCurve: true,
    onProgress: (done, of) => answer({ kind: 'progress', turn: asked.turn, done, of }),
  });
  return {
    results: computation.results,
    pipe: reconcileCampaign(campaign),
    dating: datingOf(campaign, computation.results.settings),
    where: whereFrom(computation, document, campaign),
    photographs: photographsNamed(campaign),
  };
}

const fileOf = (words: string, type: string): Blob => new Blob([words], { type: `${type};charset=utf-8` });

const chosen = (figures: Figure[], leftOut: readonly string[]): Figure[] =>
  figures.filter((figure) => !leftOut.includes(figure.name));

/** The first sentence of a caption says what is drawn. */
const wordsOf = (caption: string): string => (/^[^.:]+/.exec(caption)?.[0] ?? caption).trim();
