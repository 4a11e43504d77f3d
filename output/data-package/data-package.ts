/**
 * Everything of a campaign that goes into an archive or a supplement, as files: what was typed, its photographs, what
 * was computed, how, under which licence, and digests of all of it. The same campaign, photographs and results give the
 * same bytes.
 */
import {
  type CampaignDocument,
  checksums,
  HISTORY_PATH,
  isJsonObject,
  type JsonObject,
  PACKAGE_PATH,
  PACKED_CAMPAIGN,
  PACKED_CHECKSUMS,
  writeFiles,
} from '@stillstand/campaign/document';
import { type Results, writeResults } from '@stillstand/campaign/results';
import { isTableName, schemas } from '@stillstand/campaign/tables';
import {
  bibtexOf,
  citedIn,
  methodsText,
  resultsGeoJson,
  resultTables,
  risOf,
  TABLES,
} from '@stillstand/output/report';
import { citationCff, VERSION } from './citation.ts';
import { aboutPhotographs, type Photographs, packedPhotographs } from './photographs.ts';

interface PackedFile {
  path: string;
  about: string;
  bytes: Uint8Array;
}

export interface ToPack {
  document: CampaignDocument;
  results: Results;
  /** The results as a GeoPackage (output/geopackage); null where it could not be made, which the README says. */
  geopackage: Uint8Array | null;
  photographs: Photographs;
}

/**
 * Path and bytes of each file, one after another, so that only one photograph need be in memory. The README follows
 * what it describes: only then is it known which photographs could be read. The digests come last.
 */
export async function* dataPackage({
  document,
  results,
  geopackage,
  photographs,
}: ToPack): AsyncGenerator<[path: string, bytes: Uint8Array], void> {
  const files = [
    ...campaignFiles(document),
    ...resultFiles(results, geopackage),
    ...textFiles(document, results),
  ];
  let sums = '';
  const listed = (path: string, bytes: Uint8Array): [string, Uint8Array] => {
    sums += checksums([[path, bytes]]);
    return [path, bytes];
  };
  for (const { path, bytes } of files) yield listed(path, bytes);
  const others = files.map(({ path }) => path);
  const pictures = packedPhotographs(photographs, others);
  let picture = await pictures.next();
  for (; picture.done !== true; picture = await pictures.next()) yield listed(...picture.value);
  const remarks = [
    ...(geopackage === null ? [`${GEOPACKAGE} is missing: it could not be made on that device.`, ''] : []),
    ...aboutPhotographs(photographs, picture.value),
  ];
  yield listed('README.txt', encoded(readme(results, files, remarks)));
  yield [PACKED_CHECKSUMS, encoded(sums)];
}

const GEOPACKAGE = 'results/results.gpkg';

const encoded = (text: string): Uint8Array => new TextEncoder().encode(text);
const textFile = (path: string, about: string, text: string): PackedFile => ({
  path,
  about,
  bytes: encoded(text),
});

function campaignFiles(document: CampaignDocument): PackedFile[] {
  const tables = new Map([...document.tables].map(([name, { path }]) => [path, name]));
  const history = document.files.get(HISTORY_PATH);
  const files = new Map(history === undefined ? [] : [[HISTORY_PATH, history]]);
  return [...writeFiles({ ...document, files })].map(([path, bytes]) => {
    const name = tables.get(path) ?? '';
    const about =
      path === PACKAGE_PATH
        ? 'the tables below described as a Frictionless Data Package: columns, units, keys'
        : path === HISTORY_PATH
          ? 'who changed what and when, for Stillstand and other programs that read Yjs documents'
          : isTableName(name)
            ? schemas[name].about
            : 'a table of one’s own, kept as it is';
    return { path: `${PACKED_CAMPAIGN}${path}`, about, bytes };
  });
}

function resultFiles(results: Results, geopackage: Uint8Array | null): PackedFile[] {
  const { json, arrays } = writeResults(results);
  const about = new Map(TABLES.map((table) => [table.file, table.about]));
  return [
    textFile('results/results.json', 'all results; its runs of numbers are in results.npz', json),
    {
      path: 'results/results.npz',
      about: 'draws and densities, arrays of 8-byte numbers as NumPy reads them',
      bytes: arrays,
    },
    ...[...resultTables(results)].map(([name, csv]) =>
      textFile(`results/tables/${name}`, about.get(name) ?? '', csv),
    ),
    textFile(
      'results/holes-and-points.geojson',
      'holes and points, WGS 84 (RFC 7946)',
      resultsGeoJson(results),
    ),
    ...(geopackage === null
      ? []
      : [
          {
            path: GEOPACKAGE,
            about: 'the tables as map layers and tables of one GeoPackage (OGC 12-128r18), WGS 84',
            bytes: geopackage,
          },
        ]),
  ];
}

function textFiles(document: CampaignDocument, results: Results): PackedFile[] {
  const cited = citedIn(results);
  return [
    textFile(
      'methods.txt',
      'how it was done, from the settings that were used, with counts and versions',
      methodsText(results, `Stillstand ${VERSION}`),
    ),
    textFile('references.bib', 'the papers cited there, BibTeX', bibtexOf(cited)),
    textFile('references.ris', 'the same, RIS', risOf(cited)),
    textFile('CITATION.cff', 'how to cite the program', citationCff()),
    textFile('LICENCES.txt', 'what the data and the program may be used for', licences(document)),
  ];
}

/** As the Data Package says them: `licenses`, each with a name or a path. */
function statedLicences(described: JsonObject | null): string[] {
  const stated = described?.['licenses'] ?? described?.['license'];
  const each = Array.isArray(stated) ? stated : [stated];
  return each.flatMap((licence) => {
    if (typeof licence === 'string') return licence.trim() === '' ? [] : [licence.trim()];
    if (!isJsonObject(licence)) return [];
    const { name, title, path } = licence;
    const words = [title, name, path].filter((word) => typeof word === 'string' && word.trim() !== '');
    return words.length === 0 ? [] : [words.join(', ')];
  });
}

function licences(document: CampaignDocument): string {
  const stated = statedLicences(document.package);
  return [
    'Data (campaign/ and results/):',
    ...(stated.length === 0
      ? [
          '  No licence is stated. Without one others may not reuse the data: ask whoever holds them, or state one as',
          '  “licenses” in campaign/datapackage.json before publishing.',
        ]
      : stated.map((licence) => `  ${licence}`)),
    '',
    'Program: Stillstand, Apache-2.0. Results of the program are not covered by its licence.',
    'Calibration curves used are published under CC BY 4.0; cite their papers (references.bib).',
    '',
  ].join('\n');
}

function readme(results: Results, files: readonly PackedFile[], remarks: readonly string[]): string {
  const title = results.name === '' ? 'Campaign without a name' : results.name;
  const wide = Math.max(...files.map(({ path }) => path.length));
  return [
    title,
    '='.repeat(title.length),
    '',
    'Data package of a coastal drilling campaign: what was recorded, what was computed from it, and how.',
    `Made with Stillstand ${VERSION}. Text is UTF-8; tables are CSV with a comma and a line of headings; units are in the`,
    'headings. Ages in cal BP count from 1950 CE. Columns ending in 1sigma or 2sigma are 1 or 2 standard deviations.',
    '',
    `To check the files: sha256sum -c ${PACKED_CHECKSUMS}`,
    'To compute everything again: stillstand compute FILE.zip --out DIR (this package, or its folder campaign).',
    'To see what a later state of the campaign changes: stillstand compare FILE.zip NEW (docs/methods/compare.md).',
    '',
    ...remarks,
    'Files',
    '-----',
    ...files.map(({ path, about }) => `${path.padEnd(wide)}  ${about.replace(/\s+/g, ' ')}`),
    '',
  ].join('\n');
}
