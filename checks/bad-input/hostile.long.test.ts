/**
 * Hostile input of every kind a person can hand over, seeded: words of the command line, tables, zips, folders, whole
 * campaigns of hostile text. Nothing crashes, hangs or runs; nothing that a terminal obeys is printed; every problem
 * says what to do.
 */
import assert from 'node:assert/strict';
import {
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, mock, test } from 'node:test';
import {
  type CampaignDocument,
  newDocument,
  newPackage,
  parseCampaign,
  readCells,
  readFiles,
  readZip,
  withRows,
  writeFiles,
  writeZip,
} from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import { computeCampaign } from '@stillstand/campaign/steps';
import { schemas, type TableName } from '@stillstand/campaign/tables';
import { openFiles } from '@stillstand/campaign/versions';
import { main } from '@stillstand/cli';
import { figuresOf } from '@stillstand/output/figures';
import { headline, reportHtml, resultTables } from '@stillstand/output/report';
import { loadCurve } from '@stillstand/published/curves';
import fc from 'fast-check';

const SEED = 20_260_501;
const TABLES = Object.keys(schemas) as TableName[];
const DEMO = join(import.meta.dirname, '../../demo/campaign');
const curves = { shcal20: await loadCurve('shcal20'), marine20: await loadCurve('marine20') };
const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);
const top = mkdtempSync(join(tmpdir(), 'stillstand-hostile-'));
const home = process.cwd();
after(() => {
  process.chdir(home);
  rmSync(top, { recursive: true, force: true });
});

const EVIL = '<img src=x onerror=ran()><script>ran()</script>';
/** Text that some reader somewhere has taken for more than text. */
const words = fc.oneof(
  fc.constantFrom(
    EVIL,
    '"><svg/onload=ran()>',
    'javascript:ran()',
    '=cmd|"/c calc"!A0',
    '@SUM(1)',
    '\x1b[2J\x1b]0;x\x07',
    '\u202eabc',
    'a\r\nerror: forged',
    '__proto__',
    'constructor',
    'toString',
    'hasOwnProperty',
    '../../etc/passwd',
    'C:\\x',
    '%s%n',
    "'; DROP TABLE holes; --",
    '\0',
    '\ufeff',
    '\ud800',
    'NaN',
    '-Infinity',
    '1e400',
    '-0',
    '9'.repeat(400),
    '٣',
    '１',
    'a'.repeat(5000),
    '🜁',
    '\u0300'.repeat(50),
    '2024-02-30',
    '3:05',
    '1/0',
    '9 ft 13 in',
    '',
  ),
  fc.string({ unit: 'grapheme', maxLength: 12 }),
  fc.string({ unit: 'binary', maxLength: 12 }),
  fc.double().map(String),
);

function sound(problems: readonly Problem[]): void {
  for (const p of problems) {
    assert.ok(p.code !== '' && p.expected !== '' && p.fix !== '', JSON.stringify(p));
    assert.ok(p.found.length <= 80);
  }
}

test(`20,000 tables (seed ${SEED}): read, or refused with a reason`, () => {
  const cell = fc.oneof(
    words,
    fc.constantFrom('H1', '1', '1 m', 'string', '"', '""', ',', ';', '\t', '\n', '\r'),
  );
  const csv = fc.oneof(
    fc
      .tuple(
        fc.array(fc.array(cell, { maxLength: 6 }), { maxLength: 6 }),
        fc.constantFrom(',', ';', '\t', '|'),
        fc.constantFrom('\n', '\r\n', '\r'),
      )
      .map(([rows, comma, end]) => utf8(rows.map((row) => row.join(comma)).join(end))),
    fc.uint8Array({ maxLength: 200 }),
    fc
      .tuple(
        fc.constantFrom([0xff, 0xfe], [0xfe, 0xff], [0xef, 0xbb, 0xbf]),
        fc.uint8Array({ maxLength: 100 }),
      )
      .map(([mark, rest]) => Uint8Array.from([...mark, ...rest])),
  );
  fc.assert(
    fc.property(csv, fc.constantFrom(...TABLES), (bytes, table) => {
      sound(readCells(table, bytes).problems);
      const { document, problems } = openFiles(new Map([[`${table}.csv`, bytes]]));
      sound([...problems, ...parseCampaign(document).problems]);
      assert.equal(writeFiles(document).get(`${table}.csv`), bytes);
    }),
    { seed: SEED, numRuns: 20_000 },
  );
});

test(`20,000 zips of a real campaign with bytes changed, cut out or put in (seed ${SEED})`, () => {
  const full = withRows(newDocument('spit'), 'holes', [
    { hole: 'H1', method: 'string', note: 'x'.repeat(99) },
  ]);
  const tables = new Map([...full.tables].filter(([name]) => /^(?:holes|sites|samples)$/.test(name)));
  const whole = writeZip({ ...full, tables, package: newPackage('spit', tables) });
  const files = writeFiles(readZip(whole).document);
  // Most of an archive is compressed text; what is worth changing stands in its headers.
  const ends = whole.length - 22;
  const place = fc.oneof(
    fc.nat(whole.length - 1),
    fc.integer({ min: ends - 260, max: whole.length - 1 }),
    fc.nat(200),
  );
  const change = fc.oneof(
    fc.record({
      kind: fc.constant('set' as const),
      at: place,
      bytes: fc.uint8Array({ minLength: 1, maxLength: 4 }),
    }),
    fc.record({
      kind: fc.constant('set' as const),
      at: place,
      bytes: fc.constantFrom(
        Uint8Array.of(255, 255, 255, 255),
        Uint8Array.of(0, 0, 0, 0),
        Uint8Array.of(0x50, 0x4b, 1, 2),
      ),
    }),
    fc.record({
      kind: fc.constant('cut' as const),
      at: place,
      bytes: fc.uint8Array({ minLength: 1, maxLength: 40 }),
    }),
    fc.record({
      kind: fc.constant('insert' as const),
      at: place,
      bytes: fc.uint8Array({ minLength: 1, maxLength: 40 }),
    }),
  );
  let changed = 0;
  fc.assert(
    fc.property(fc.array(change, { minLength: 1, maxLength: 3 }), (changes) => {
      let bytes = Buffer.from(whole);
      for (const { kind, at, bytes: given } of changes) {
        if (kind === 'set')
          bytes.set(given.subarray(0, Math.max(0, bytes.length - at)), Math.min(at, bytes.length));
        else if (kind === 'cut')
          bytes = Buffer.concat([bytes.subarray(0, at), bytes.subarray(at + given.length)]);
        else bytes = Buffer.concat([bytes.subarray(0, at), given, bytes.subarray(at)]);
      }
      const { document, problems } = readZip(new Uint8Array(bytes));
      sound([...problems, ...parseCampaign(document).problems]);
      // Nothing comes out that did not go in: what is read has its checksum and its name.
      for (const [path, content] of writeFiles(document)) {
        const was = files.get(path);
        if (was !== undefined && Buffer.compare(was, content) !== 0) changed++;
      }
    }),
    { seed: SEED, numRuns: 20_000 },
  );
  assert.equal(changed, 0);
});

test(`8,000 sets of files (seed ${SEED}): read, kept, and written back byte for byte`, () => {
  const path = fc.oneof(
    fc.constantFrom(
      'datapackage.json',
      '__proto__',
      'constructor.csv',
      'a/b.csv',
      '.csv',
      'CON.csv',
      'holes.CSV',
      ...TABLES.map((name) => `${name}.csv`),
    ),
    words,
    words.map((name) => `${name}.csv`),
  );
  const resource = fc.record({ name: words, path: fc.oneof(path, words) }, { requiredKeys: [] });
  const description = fc
    .record(
      {
        name: words,
        title: words,
        stillstand: fc.oneof(fc.record({ version: fc.oneof(fc.integer(), words) }), words),
        resources: fc.oneof(fc.array(fc.oneof(resource, fc.anything())), words),
      },
      { requiredKeys: [] },
    )
    .map((value) => utf8(JSON.stringify(value) ?? ''));
  const content = fc.oneof(description, words.map(utf8), fc.uint8Array({ maxLength: 60 }));
  fc.assert(
    fc.property(
      fc.array(fc.tuple(path, content), { maxLength: 6 }),
      fc.array(fc.tuple(path, fc.constantFrom('a folder', 'a symbolic link'))),
      (given, not) => {
        const files = new Map(given);
        const { document, problems } = openFiles(files, new Map(not));
        sound([...problems, ...parseCampaign(document).problems]);
        const plain = readFiles(files).document;
        for (const [name, bytes] of writeFiles(plain)) assert.equal(bytes, files.get(name));
      },
    ),
    { seed: SEED, numRuns: 8000 },
  );
});

/** Columns whose text is read and not only shown. */
const READ = new Set(['row_id', 'amends', 'calibration_curve', 'seq', 'basis']);

/** The demo with one text behind every label and another in place of every free text. */
function ofHostileText(demo: CampaignDocument, behind: string, text: string): CampaignDocument {
  let document = demo;
  for (const [name, { columns, rows }] of demo.tables) {
    if (name === 'settings' || !Object.hasOwn(schemas, name)) continue;
    const kinds = schemas[name as TableName].columns as Readonly<Record<string, { kind: string }>>;
    const hostile = (column: string, cell: string): string => {
      const kind = kinds[column]?.kind;
      if (READ.has(column) || (cell === '' && kind !== 'text')) return cell;
      if (kind === 'label' || kind === 'reference' || column === 'run') return cell + behind;
      return kind === 'text' ? text : cell;
    };
    document = withRows(
      document,
      name,
      rows.map(({ cells }) => Object.fromEntries(columns.map((c, i) => [c, hostile(c, cells[i] ?? '')]))),
    );
  }
  return withRows(document, 'own table', [{ [text]: behind }]);
}

test(`60 campaigns of hostile text computed, drawn and reported (seed ${SEED}): no text becomes a script or a tag`, () => {
  const names = readdirSync(DEMO);
  const demo = readFiles(new Map(names.map((name) => [name, readFileSync(join(DEMO, name))]))).document;
  let drawn = 0;
  let shown = 0;
  const behind = words.filter((w) => w.length < 60 && w.trim() === w);
  fc.assert(
    fc.property(behind, words, (label, text) => {
      const { campaign, problems } = parseCampaign(ofHostileText(demo, label, text));
      sound(problems);
      const { results } = computeCampaign(campaign, { curves }, problems, { withCurve: false });
      sound(results.problems);
      const figures = figuresOf(results, {});
      drawn += figures.length;
      const html = reportHtml(results, figuresOf(results, { caption: false }), { fontCss: '' });
      for (const page of [html, ...figures.map(({ svg }) => svg)]) harmless(page);
      if (label === EVIL || text === EVIL) shown += html.split('&lt;script&gt;').length - 1;
      headline(results);
      for (const table of resultTables(results).values()) assert.doesNotMatch(table, /(?:^|[,\n])"?[=@]/);
    }),
    {
      seed: SEED,
      numRuns: 60,
      examples: [
        [EVIL, ''],
        ['', EVIL],
      ],
    },
  );
  assert.ok(drawn > 1000 && shown > 50, `${drawn} figures, ${shown} tags shown as text`);
});

/** No tag of the page is one that runs or loads, and none has an attribute that does. */
function harmless(page: string): void {
  for (const [tag] of page.matchAll(/<[a-z!/][^>]*>/gi)) {
    assert.doesNotMatch(
      tag,
      /^<\/?(?:script|img|iframe|object|embed|base|form|foreignObject|animate|set)\b/i,
    );
    assert.doesNotMatch(tag.replace(/"[^"]*"/g, '""'), /\son\w+\s*=|=\s*[^"\s]/i, tag.slice(0, 200));
    assert.doesNotMatch(tag, /(?:href|src)\s*=\s*"\s*(?:javascript|https?):/i, tag.slice(0, 200));
  }
}

// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for
const OBEYED = /[\x00-\x09\x0b-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028\u2029\u202a-\u202e\u2066-\u2069]/;

test(`12,000 command lines (seed ${SEED}): each ends with 0, 1 or 2, and prints nothing a terminal obeys`, async () => {
  const work = join(top, 'work');
  mkdirSync(work);
  process.chdir(work);
  const campaign = join(top, 'campaign');
  const small = withRows(newDocument('x'), 'holes', [
    { hole: 'H1', method: 'string' },
    { hole: EVIL, method: 'push' },
  ]);
  mkdirSync(campaign);
  for (const [path, bytes] of writeFiles(small)) writeFileSync(join(campaign, path), bytes);
  const zip = join(top, 'c.zip');
  writeFileSync(zip, writeZip(small));
  const table = join(top, 't.csv');
  writeFileSync(
    table,
    `id,age,error,curve,kind,rsl_m,rsl_sigma_m,elevation_m,reference_water_level_m\n"${EVIL}",x,y,z,v,u,t,s,r\n`,
  );
  const noise = join(top, 'noise');
  writeFileSync(noise, Buffer.from(Array.from({ length: 999 }, (_, i) => (i * 7919) % 256)));
  symlinkSync('loop', join(top, 'loop'));
  const place = fc.constantFrom(
    campaign,
    zip,
    table,
    noise,
    top,
    join(top, 'none'),
    join(top, 'loop'),
    join(table, 'x'),
    '',
    '.',
    '/dev/null',
  );
  const option = fc.constantFrom(
    'json',
    'help',
    'age',
    'error',
    'curve',
    'offset',
    'offset-sd',
    'sigma',
    'depth',
    'sediment',
    'shoe',
    'start',
    'end',
    'strokes',
    'unit',
    'at',
    'pipe',
    'inside',
    'outside',
    'penetration',
    'parts',
    'rope',
    'overhead',
    'figures',
    'name',
    'draws',
    'chains',
    'seed',
    'step',
    'ages',
    'intervals',
    'present_constraint',
    'tie-year',
    'x',
    '',
    '-',
  );
  const value = fc.oneof(
    words.filter((w) => !w.includes('\0')),
    fc.constantFrom('0', '-1', '1', '9 ft', '3 m', '1e9', 'H1', 'm', 'ft', 'intcal20', 'bomb21-nh1'),
  );
  const given = fc.oneof(
    fc.tuple(option, value).map(([name, text]) => [`--${name}`, text]),
    fc.tuple(option, value).map(([name, text]) => [`--${name}=${text}`]),
    option.map((name) => [`--${name}`]),
    value.map((text) => [text]),
    place.map((path) => [path]),
  );
  const reading = fc.constantFrom(
    'check',
    'calibrate',
    'points',
    'trace',
    'cable',
    'water',
    'pull',
    'pipe',
    'replay',
    'curve',
    'help',
    '--help',
    '',
    'fly',
  );
  const inside = words.map((text) => join(work, text.replace(/[\0]|\.\.+|^\/+/g, '_').slice(0, 300)));
  const line = fc.oneof(
    {
      weight: 10,
      arbitrary: fc
        .tuple(reading, fc.array(given, { maxLength: 4 }))
        .map(([name, more]) => [name, ...more.flat()]),
    },
    {
      weight: 10,
      arbitrary: fc
        .tuple(reading, place, fc.array(given, { maxLength: 3 }))
        .map(([name, path, more]) => [name, path, ...more.flat()]),
    },
    {
      weight: 1,
      arbitrary: fc.tuple(inside, value).map(([folder, name]) => ['new', folder, `--name=${name}`]),
    },
    {
      weight: 1,
      arbitrary: fc
        .tuple(place, inside, value)
        .map(([path, out, kinds]) => ['compute', path, '--out', out, '--figures', kinds]),
    },
  );
  const ends = new Map<number, number>();
  const said: string[] = [];
  const gather = (text: string): void => void said.push(text);
  const log = mock.method(console, 'log', gather);
  const error = mock.method(console, 'error', gather);
  try {
    await fc.assert(
      fc.asyncProperty(line, async (argv) => {
        said.length = 0;
        const code = await main(argv);
        ends.set(code, (ends.get(code) ?? 0) + 1);
        const text = said.join('\n');
        assert.doesNotMatch(text, OBEYED);
        assert.doesNotMatch(text, /^error: forged/m);
        assert.doesNotMatch(text, /\n {4}at |undefined|\[object Object\]/);
        if (code === 2) assert.ok(text !== '', 'wrong use says so');
      }),
      { seed: SEED, numRuns: 12_000 },
    );
  } finally {
    log.mock.restore();
    error.mock.restore();
    process.chdir(home);
  }
  assert.deepEqual([...ends.keys()].sort(), [0, 1, 2]);
  for (const name of readdirSync(work, { recursive: true, encoding: 'utf8' }))
    assert.doesNotMatch(name, /stillstand-(new|old|done)/);
});

test(`600 folders on the disk (seed ${SEED}): whatever stands in them, check ends in words`, async () => {
  const name = fc.oneof(
    fc.constantFrom(
      'datapackage.json',
      'holes.csv',
      'HOLES.CSV',
      'units.tsv',
      'photos',
      '.hidden.csv',
      'a.csv',
      'samples.csv',
    ),
    words
      .map((text) => text.replace(/[\0/]/g, '_').slice(0, 60))
      .filter((text) => text !== '' && text !== '.' && text !== '..'),
  );
  const kind = fc.constantFrom('file', 'file', 'file', 'folder', 'link', 'link out', 'loop');
  let folders = 0;
  const log = mock.method(console, 'log', () => undefined);
  const error = mock.method(console, 'error', () => undefined);
  try {
    await fc.assert(
      fc.asyncProperty(
        fc.uniqueArray(fc.tuple(name, kind, words), { maxLength: 6, selector: ([n]) => n }),
        async (entries) => {
          const folder = join(top, `f${folders++}`);
          mkdirSync(folder);
          for (const [path, what, text] of entries) {
            const at = join(folder, path);
            if (what === 'file')
              writeFileSync(at, path.endsWith('.csv') ? `hole,method\n"${text}",string\n` : text);
            else if (what === 'folder') mkdirSync(at);
            else symlinkSync(what === 'loop' ? path : what === 'link' ? 'holes.csv' : '/etc/hosts', at);
          }
          assert.ok([0, 1].includes(await main(['check', folder])));
          rmSync(folder, { recursive: true });
        },
      ),
      { seed: SEED, numRuns: 600 },
    );
  } finally {
    log.mock.restore();
    error.mock.restore();
  }
});
