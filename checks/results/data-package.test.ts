/**
 * The data package read by others: unzipped by the file format alone, digests by Node, arrays by NumPy where it is there
 * and by our reader everywhere, BibTeX and RIS by their rules.
 */
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import { inflateRawSync } from 'node:zlib';
import {
  type CampaignDocument,
  filesOfZip,
  newDocument,
  parseCampaign,
  readFiles,
  readZip,
  withRows,
  zipOf,
} from '@stillstand/campaign/document';
import { readResults } from '@stillstand/campaign/results';
import { computeCampaign } from '@stillstand/campaign/steps';
import {
  dataPackage,
  type Photographs,
  photographsNamed,
  tooManyPhotographs,
} from '@stillstand/output/data-package';
import { writeGeoPackage } from '@stillstand/output/geopackage';
import { loadCurve } from '@stillstand/published/curves';

const curves = { intcal20: await loadCurve('intcal20'), marine20: await loadCurve('marine20') };

/** One point, with what may break a text file: signs, line breaks, markup, a formula. */
function campaign(described: object = {}): CampaignDocument {
  const tables = {
    sites: [{ site: 'Bar <b>& "Ness"', name: '=1+1' }],
    datums: [{ datum: 'MSL', kind: 'mean_sea_level' }],
    settings: [
      { name: 'datum', value: 'MSL' },
      { name: 'name', value: 'Ness <script>alert(1)</script>' },
    ],
    tide_levels: [
      { site: 'Bar <b>& "Ness"', level: 'MHW', elevation_m: '1', datum: 'MSL' },
      { site: 'Bar <b>& "Ness"', level: 'MTL', elevation_m: '0', datum: 'MSL' },
    ],
    samples: [
      {
        sample: 'A',
        depth_basis: 'elevation',
        elevation_m: '0.2',
        elevation_datum: 'MSL',
        site: 'Bar <b>& "Ness"',
        material: 'peat,\n“wet”',
      },
    ],
    calibration_curves: [0, 5000].map((age) => ({
      curve: 'Lagoon',
      age_cal_bp: String(age),
      c14_age: String(age + 20),
      c14_error: '40',
    })),
    determinations: [
      {
        lab_code: 'L1',
        sample: 'A',
        method: 'radiocarbon',
        value: '2000',
        error: '30',
        calibration_curve: 'intcal20',
      },
      {
        lab_code: 'L2',
        sample: 'A',
        method: 'radiocarbon',
        value: '2000',
        error: '30',
        calibration_curve: 'Lagoon',
      },
    ],
    points: [{ point: 'P', sample: 'A', kind: 'index', determination: 'L1', lower: 'MTL', upper: 'MHW' }],
    measurements: [{ sample: 'A', property: 'LOI', value: '<0.5', unit: '%' }],
  };
  let document = newDocument('Ness', 'c0ffee');
  for (const [table, rows] of Object.entries(tables)) document = withRows(document, table, rows);
  return { ...document, package: { ...document.package, ...described } };
}

async function packed(document: CampaignDocument, read: Photographs['read'] = null) {
  const parsed = parseCampaign(document);
  const { results } = computeCampaign(parsed.campaign, { curves }, parsed.problems, { withCurve: false });
  const geopackage = await writeGeoPackage(results);
  const photographs = { named: photographsNamed(parsed.campaign), read };
  const all: [string, Uint8Array][] = [];
  for await (const file of dataPackage({ document, results, geopackage, photographs })) all.push(file);
  const zip = zipOf(all);
  return { results, zip, geopackage, files: unzipped(zip) };
}

/** By the central directory (APPNOTE 4.3.12); nothing of ours. */
function unzipped(zip: Uint8Array): Map<string, Buffer> {
  const bytes = Buffer.from(zip);
  const end = bytes.lastIndexOf(Buffer.from('PK\u0005\u0006'));
  const files = new Map<string, Buffer>();
  let at = bytes.readUInt32LE(end + 16);
  for (let n = bytes.readUInt16LE(end + 10); n > 0; n--) {
    assert.equal(bytes.readUInt32LE(at), 0x02014b50);
    const [method, packedSize, nameLength, extra, comment] = [
      bytes.readUInt16LE(at + 10),
      bytes.readUInt32LE(at + 20),
      bytes.readUInt16LE(at + 28),
      bytes.readUInt16LE(at + 30),
      bytes.readUInt16LE(at + 32),
    ];
    const local = bytes.readUInt32LE(at + 42);
    const start = local + 30 + bytes.readUInt16LE(local + 26) + bytes.readUInt16LE(local + 28);
    const content = bytes.subarray(start, start + packedSize);
    const name = bytes.subarray(at + 46, at + 46 + nameLength).toString('utf8');
    assert.ok(!files.has(name), `${name} is there twice`);
    files.set(name, method === 0 ? content : inflateRawSync(content));
    at += 46 + nameLength + extra + comment;
  }
  return files;
}

const { results, zip, geopackage, files } = await packed(campaign());
const text = (path: string): string => files.get(path)!.toString('utf8');

test('every file but the digests has its digest, and it is right; one that was changed has not', () => {
  const lines = text('checksums.txt').trimEnd().split('\n');
  const said = new Map(lines.map((line) => [line.slice(66), line.slice(0, 64)]));
  assert.deepEqual(
    [...said.keys()],
    [...files.keys()].filter((path) => path !== 'checksums.txt'),
  );
  for (const [path, digest] of said)
    assert.equal(createHash('sha256').update(files.get(path)!).digest('hex'), digest, path);
  const changed = Buffer.from(`${text('README.txt')} `);
  assert.notEqual(createHash('sha256').update(changed).digest('hex'), said.get('README.txt'));
});

test('the package opens as the campaign in it, also where it was unpacked into a folder and zipped again', () => {
  const folded = zipOf([
    ...[...files].map(([path, bytes]): [string, Uint8Array] => [`Ness/${path}`, new Uint8Array(bytes)]),
    ['__MACOSX/Ness/._README.txt', new Uint8Array(4)],
  ]);
  assert.deepEqual([...filesOfZip(folded).files.keys()], [...files.keys()]);
  for (const each of [zip, folded]) {
    const { document, problems } = readZip(each);
    assert.deepEqual(problems, []);
    const { campaign: opened } = parseCampaign(document);
    assert.equal(opened.id, 'c0ffee');
    assert.deepEqual(opened.rows, parseCampaign(campaign()).campaign.rows);
  }
});

test('what is in it: the README names every file, the campaign opens again, the results are those that were computed', () => {
  const readme = text('README.txt');
  for (const path of files.keys()) assert.ok(path === 'README.txt' || readme.includes(path), path);
  const inside = new Map(
    [...files].flatMap(([path, bytes]) => (path.startsWith('campaign/') ? [[path.slice(9), bytes]] : [])) as [
      string,
      Buffer,
    ][],
  );
  const again = parseCampaign(readFiles(inside).document);
  const { inputs } = computeCampaign(again.campaign, { curves }, [], { withCurve: false }).results;
  assert.equal(inputs, results.inputs);
  assert.deepEqual(JSON.parse(text('results/holes-and-points.geojson')).type, 'FeatureCollection');
  assert.match(text('results/tables/measurements.csv'), /LOI,0\.5,,%,less_than/);
  assert.match(text('results/tables/points.csv'), /^point,/);
});

test('the arrays: by our reader, and by NumPy where it is there', () => {
  const read = readResults(text('results/results.json'), files.get('results/results.npz')!);
  assert.ok(read.ok);
  assert.deepEqual(read.results.dates[0]!.density, results.dates[0]!.density);
  const script =
    'import io,sys,numpy as n; z=n.load(io.BytesIO(sys.stdin.buffer.read())); print(repr(float(z["dates/0/density"].sum())), z["dates/0/density"].size)';
  const numpy = spawnSync('python3', ['-c', script], { input: files.get('results/results.npz')! });
  if (numpy.status !== 0) return;
  const [sum, size] = numpy.stdout.toString().trim().split(' ').map(Number);
  assert.ok(Math.abs(sum! - 1) < 1e-12);
  assert.equal(size, results.dates[0]!.density.length);
});

test('methods, BibTeX and RIS: the same papers, each entry whole; what a person typed is text and no markup', () => {
  const methods = text('methods.txt');
  assert.match(methods, /^Methods: Ness <script>alert\(1\)<\/script>\n=+\n/);
  assert.match(
    methods.replace(/\s+/g, ' '),
    /IntCal20 \(Reimer et al\. 2020\), Lagoon \(a curve of this campaign/,
  );
  assert.match(methods, /0 holes; 1 sample; 1 laboratory value; 2 dates; 1 point, 1 used/);
  assert.ok(!/&(?:amp|lt|quot|nbsp);|<\/?(?:p|li|span|svg)\b/.test(methods));
  const cited = methods.split('\n').filter((line) => /^- .+ \d{4}, /.test(line)).length;
  assert.ok(cited >= 4);
  const entries = [...text('references.bib').matchAll(/^@(\w+)\{([a-z0-9]+),\n([\s\S]*?)\n\}$/gm)];
  assert.equal(entries.length, cited);
  assert.equal(new Set(entries.map(([, , key]) => key)).size, cited);
  for (const [whole, kind, , body] of entries) {
    assert.match(kind!, /^(?:article|book|incollection|inproceedings)$/);
    const fields = body!.split('\n').map((line) => /^ {2}(\w+) = \{(.+)\},?$/.exec(line));
    assert.ok(
      fields.every((field) => field !== null),
      whole,
    );
    const names = fields.map((field) => field![1]!);
    assert.ok(names.includes('title') && names.includes('year'), whole);
    assert.ok(names.includes('author') !== names.includes('editor'), whole);
    assert.equal(body!.match(/\{/g)!.length, body!.match(/\}/g)!.length, whole);
  }
  const records = text('references.ris')
    .split(/ER {2}- \r\n/)
    .filter((record) => record.trim() !== '');
  assert.equal(records.length, cited);
  for (const record of records) {
    const lines = record.trim().split('\r\n');
    assert.match(lines[0]!, /^TY {2}- (?:JOUR|BOOK|CHAP|CPAPER)$/);
    assert.ok(
      lines.every((line) => /^[A-Z][A-Z0-9] {2}- .+$/.test(line)),
      record,
    );
  }
});

test('licences: as the campaign states them, or that none is stated, whatever stands there', async () => {
  assert.match(text('LICENCES.txt'), /No licence is stated/);
  const said = async (described: object): Promise<string> =>
    (await packed(campaign(described))).files.get('LICENCES.txt')!.toString('utf8');
  const stated = await said({
    licenses: [{ name: 'CC-BY-4.0', title: 'Creative Commons Attribution 4.0' }, 'ODbL'],
  });
  assert.match(stated, / {2}Creative Commons Attribution 4\.0, CC-BY-4\.0\n {2}ODbL\n/);
  for (const licenses of [null, 7, [], [null, 3, {}, { name: 5 }, ' '], 'x'.repeat(0)])
    assert.match(await said({ licenses }), /No licence is stated/);
});

test('the GeoPackage is the one made alone; without photographs nothing is said of any', () => {
  assert.deepEqual(new Uint8Array(files.get('results/results.gpkg')!), geopackage);
  assert.doesNotMatch(text('README.txt'), /photograph/i);
});

test('where no GeoPackage could be made there is all else, and the README says so', async () => {
  const document = campaign();
  const photographs = { named: [], read: null };
  const made = new Map<string, Uint8Array>();
  for await (const [path, bytes] of dataPackage({ document, results, geopackage: null, photographs }))
    made.set(path, bytes);
  assert.deepEqual(
    [...made.keys()],
    [...files.keys()].filter((path) => path !== 'results/results.gpkg'),
  );
  assert.match(new TextDecoder().decode(made.get('README.txt')), /\nresults\/results\.gpkg is missing: /);
});

/** A campaign that names these files as photographs. */
const withPhotos = (...named: string[]): CampaignDocument =>
  withRows(
    campaign(),
    'photos',
    named.map((file) => ({ file })),
  );
const JPEG = Uint8Array.from([0xff, 0xd8, 0xff, 0xe0, 0, 255, 10, 13]);

test('photographs have their place, their digest and their line in the README, and open with the campaign', async () => {
  const asked: string[] = [];
  const document = withPhotos('photos/a.jpg', 'photos/b b.jpg', 'photos/a.jpg', 'photos/gone.jpg');
  const made = await packed(document, async (path) => {
    asked.push(path);
    return path.includes('gone') ? null : JPEG;
  });
  assert.deepEqual(
    asked,
    ['photos/a.jpg', 'photos/b b.jpg', 'photos/gone.jpg'],
    'one after another, each once',
  );
  const readme = made.files.get('README.txt')!.toString('utf8');
  assert.match(
    readme,
    /\nPhotographs: 2 of 3 that photos\.csv names, less than 0\.1 MB\n {2}campaign\/photos\/a\.jpg\n {2}campaign\/photos\/b b\.jpg\nNamed in photos\.csv, but not found or not readable when the package was made:\n {2}photos\/gone\.jpg\n/,
  );
  for (const line of made.files.get('checksums.txt')!.toString('utf8').trimEnd().split('\n'))
    assert.equal(
      createHash('sha256')
        .update(made.files.get(line.slice(66))!)
        .digest('hex'),
      line.slice(0, 64),
      line,
    );
  assert.equal(made.files.size, files.size + 2);
  const { document: opened, problems } = readZip(made.zip);
  assert.deepEqual(problems, []);
  assert.deepEqual(
    [...opened.files],
    [
      ['photos/a.jpg', JPEG],
      ['photos/b b.jpg', JPEG],
    ],
  );
  const again = parseCampaign(opened);
  const { inputs } = computeCampaign(again.campaign, { curves }, again.problems, {
    withCurve: false,
  }).results;
  assert.equal(inputs, made.results.inputs, 'photographs are no input');
});

test('photographs that are left out are counted in the README', async () => {
  const made = await packed(withPhotos('photos/a.jpg', 'photos/b.jpg'));
  assert.match(
    made.files.get('README.txt')!.toString('utf8'),
    /\nPhotographs are left out: 2 photographs that photos\.csv names are in the campaign file alone\.\n/,
  );
  assert.deepEqual([...made.files.keys()], [...files.keys()]);
});

test('a path that leads out, or is that of another file, is named as missing and never asked for', async () => {
  const named = [
    '../../secret',
    '/etc/passwd',
    'sites.csv',
    'Sites.CSV',
    'datapackage.json',
    'a\nb.jpg',
    'DataPackage.json',
  ];
  const made = await packed(withPhotos(...named, 'x.jpg', 'X.JPG'), async (path) => {
    assert.match(path, /^x\.jpg$/i);
    return JPEG;
  });
  const readme = made.files.get('README.txt')!.toString('utf8');
  assert.match(readme, /\nPhotographs: 1 of 9 /);
  for (const path of named) assert.ok(readme.includes(`\n  ${path.replace('\n', ' ')}\n`), path);
  assert.deepEqual(readZip(made.zip).problems, []);
});

test('more photographs than an archive that opens again may have: said, with sizes', () => {
  assert.equal(tooManyPhotographs([]), null);
  assert.equal(tooManyPhotographs([4e8, 4e8]), null);
  assert.match(tooManyPhotographs([4e8, 4e8, 4e8])!, /^1,200 MB of photographs, expected at most 1,000 MB$/);
  assert.match(tooManyPhotographs([6e8])!, /^a photograph of 600 MB/);
  assert.match(tooManyPhotographs(new Array(20_000).fill(1))!, /^20,000 photographs/);
});

test('the same campaign gives the same bytes; an empty one gives a package too', async () => {
  assert.deepEqual((await packed(campaign())).zip, zip);
  const empty = (await packed(newDocument('Nothing yet'))).files;
  assert.match(
    empty.get('methods.txt')!.toString(),
    /0 holes; 0 samples; 0 laboratory values; 0 dates; 0 points, 0 used/,
  );
  assert.equal(empty.get('references.bib')!.length, 0);
});

test('the program is cited as in CITATION.cff, with the version of package.json', () => {
  const root = (name: string): string => readFileSync(new URL(`../../${name}`, import.meta.url), 'utf8');
  const line = (name: string, of: string): string | undefined =>
    new RegExp(`^${name}: (.+)$`, 'm').exec(of)?.[1];
  const [own, whole] = [text('CITATION.cff'), root('CITATION.cff')];
  for (const name of ['cff-version', 'title', 'type', 'version', 'license'])
    assert.equal(line(name, own), line(name, whole), name);
  assert.equal(line('version', own), (JSON.parse(root('package.json')) as { version: string }).version);
});

test('the history of the campaign goes with it, where there is one', async () => {
  const history = new Uint8Array([1, 2, 3]);
  const document = { ...campaign(), files: new Map([['history.yjs', history]]) };
  const made = await packed(document);
  assert.deepEqual(new Uint8Array(made.files.get('campaign/history.yjs')!), history);
  assert.match(made.files.get('README.txt')!.toString('utf8'), /campaign\/history\.yjs +who changed what/);
  assert.deepEqual((await packed(document)).zip, made.zip);
});
