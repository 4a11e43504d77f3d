/** Hostile and damaged archives: each is named for what it is, and none is unpacked past its bounds. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { constants, crc32, deflateRawSync } from 'node:zlib';
import fc from 'fast-check';
import { type Packed, pack } from './fixtures/pack.ts';
import { newDocument } from './package.ts';
import { unzip, ZIP_LIMITS } from './unzip.ts';
import { readZip, writeZip } from './zip.ts';

const SEED = 20_260_405;
const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const PACKAGE: Packed = { name: 'datapackage.json', content: bytes('{"stillstand":{"version":1}}') };
const HOLES: Packed = { name: 'holes.csv', content: bytes('hole,method\nH1,string\n'.repeat(20)) };

/** Codes of what is wrong, each once, and the files that were read. */
function seen(archive: Uint8Array): { codes: string[]; files: string[] } {
  const { files, faults } = unzip(archive);
  for (const { found, expected, action } of faults)
    assert.ok(typeof found === 'string' && expected && /^[A-Z].*\.$/.test(action));
  return { codes: [...new Set(faults.map(({ code }) => code))], files: [...files.keys()] };
}

const refused = (entries: Packed[], code: string, files = ['datapackage.json', 'holes.csv']): void =>
  assert.deepEqual(seen(pack([PACKAGE, HOLES, ...entries])), { codes: [code], files });

test('a sound archive', () => {
  assert.deepEqual(seen(pack([PACKAGE, HOLES])), { codes: [], files: ['datapackage.json', 'holes.csv'] });
  assert.deepEqual(seen(pack([])), { codes: [], files: [] });
  assert.deepEqual(seen(pack([PACKAGE], { comment: bytes('from the tablet') })).codes, []);
});

test('what we pack ourselves', () => {
  const document = { ...newDocument('spit'), files: new Map([['photos/ä.jpg', Uint8Array.of(1, 2)]]) };
  assert.deepEqual(unzip(writeZip(document)).faults, []);
});

/** Zeros so many times a mebibyte, deflated to about a thousandth. */
function zeros(mebibytes: number): { packed: Uint8Array; crc: number; size: number } {
  const one = Buffer.alloc(2 ** 20);
  const block = deflateRawSync(one, { finishFlush: constants.Z_SYNC_FLUSH });
  // An empty last block ends the stream.
  const packed = Buffer.concat([...Array.from({ length: mebibytes }, () => block), Buffer.from([3, 0])]);
  let crc = 0;
  for (let i = 0; i < mebibytes; i++) crc = crc32(one, crc);
  return { packed: new Uint8Array(packed), crc, size: mebibytes * 2 ** 20 };
}

test('one MB that unpacks to 900 is not unpacked; the same of 60 MB of blank rows is', () => {
  const bomb = zeros(900);
  assert.ok(bomb.packed.length < 1_100_000);
  const before = process.memoryUsage().arrayBuffers;
  refused([{ name: 'a.csv', ...bomb }], 'too-large');
  // A directory that lies of the size: inflating stops as soon as it is passed.
  refused([{ name: 'a.csv', ...bomb, size: 1000 }], 'corrupt-file');
  assert.ok(process.memoryUsage().arrayBuffers - before < 200 * 2 ** 20);
  assert.deepEqual(seen(pack([PACKAGE, { name: 'a.csv', ...zeros(60) }])).codes, []);
});

test('many files that are each small enough are not unpacked past the bound of all together', () => {
  const part = zeros(60);
  const archive = pack(Array.from({ length: 10 }, (_, i) => ({ name: `${i}.csv`, ...part })));
  const { codes, files } = seen(archive);
  assert.deepEqual(codes, ['too-large']);
  assert.equal(files.length, Math.floor((64 + (100 * archive.length) / 2 ** 20) / 60));
});

test('more files than any campaign has', () => {
  const entry = (i: number): Packed => ({ name: `${i}`, method: 0, content: new Uint8Array() });
  const many = Array.from({ length: ZIP_LIMITS.files + 1 }, (_, i) => entry(i));
  assert.deepEqual(seen(pack(many)), { codes: ['too-large'], files: [] });
  assert.equal(seen(pack(many.slice(1))).files.length, ZIP_LIMITS.files);
});

test('records that share bytes: two entries of one record, one inside another, one that runs into the next', () => {
  const one = pack([HOLES]);
  const twice: Packed = { ...HOLES, name: 'holes.csv', header: 0, isGhost: true };
  assert.deepEqual(seen(pack([HOLES, twice])), { codes: ['overlapping-files'], files: [] });
  // A whole record stored as the content of another: a quoted overlap.
  const quoted: Packed = { name: 'outer', method: 0, content: one };
  const inner: Packed = { ...HOLES, header: 30 + 'outer'.length, isGhost: true };
  assert.deepEqual(seen(pack([quoted, inner])), { codes: ['overlapping-files'], files: [] });
  assert.equal(seen(pack([quoted])).files.length, 1);
});

test('directory and records that disagree', () => {
  for (const local of [
    { name: 'other.csv' },
    { name: 'hole.csv' },
    { method: 0 },
    { flags: 0x801 },
    { crc: 7 },
    { size: 7 },
    { packed: 7 },
  ]) {
    const odd: Packed = { name: 'units.csv', content: bytes('x'), local };
    refused([odd], 'headers-disagree');
  }
  refused([{ name: 'units.csv', header: 3, isGhost: true }], 'headers-disagree');
  refused([{ name: 'units.csv', header: 0x7fff_ffff, isGhost: true }], 'headers-disagree');
  // Sizes behind the content (bit 3), and there are none.
  refused([{ name: 'units.csv', content: bytes('x'), flags: 0x808 }], 'headers-disagree');
});

test('names that lead out, or that two disks take differently', () => {
  for (const name of [
    '../evil',
    'a/../../evil',
    '/etc/evil',
    'C:/evil',
    'a\\..\\evil',
    'a//b',
    './a',
    'a\0b',
    'a\nb',
  ])
    refused([{ name, content: bytes('x') }], 'unsafe-path');
  refused([{ name: 'x'.repeat(256) }], 'unsafe-path');
  refused([{ name: 'x/'.repeat(600) }], 'unsafe-path');
  refused([{ name: '' }], 'unsafe-path');
  refused([{ name: Uint8Array.of(0x61, 0xff) }], 'unsafe-path');
  for (const [first, second] of [
    ['a.jpg', 'a.jpg'],
    ['a.jpg', 'A.JPG'],
    ['ä.jpg', 'a\u0308.jpg'],
    ['photos', 'photos/a.jpg'],
    ['photos/a.jpg', 'Photos'],
  ] as const) {
    refused([{ name: first }, { name: second }], 'file-twice', ['datapackage.json', 'holes.csv', first]);
  }
});

test('links, devices and folders are no files, and one under the name of a table is named', () => {
  const problemsOf = (entry: Packed): string[] =>
    readZip(pack([PACKAGE, HOLES, entry])).problems.map((p) => `${p.code} ${p.table}: ${p.found}`);
  const link = { name: 'units.csv', content: bytes('/etc/passwd') };
  assert.deepEqual(problemsOf({ ...link, mode: 0o120777 }), ['not-a-file units: units.csv, a symbolic link']);
  assert.deepEqual(problemsOf({ ...link, mode: 0o010644 }), [
    'not-a-file units: units.csv, a pipe or a device',
  ]);
  assert.deepEqual(problemsOf({ name: 'units.csv/' }), ['not-a-file units: units.csv, a folder']);
  assert.deepEqual(problemsOf({ name: 'photos/', mode: 0o040755 }), []);
  assert.deepEqual(
    problemsOf({ ...link, content: bytes('hole,basis,top,bottom,sediment\n'), mode: 0o100644 }),
    [],
  );
});

test('passwords, unknown ways of packing, damage', () => {
  for (const flags of [0x801, 0x841, 0x2801])
    refused([{ name: 'a', content: bytes('x'), flags }], 'encrypted-file');
  for (const method of [1, 9, 12, 14, 93, 99])
    refused([{ name: 'a', content: bytes('x'), method }], 'unknown-packing');
  refused([{ name: 'a', content: bytes('x'), crc: 1 }], 'corrupt-file');
  refused([{ name: 'a', content: bytes('xyz'), size: 2 }], 'corrupt-file');
  refused([{ name: 'a', content: bytes('xyz'), size: 4 }], 'corrupt-file');
  refused([{ name: 'a', method: 0, content: bytes('xyz'), size: 4 }], 'corrupt-file');
  refused([{ name: 'a', content: bytes('xyz'), packed: Uint8Array.of(7, 7, 7) }], 'corrupt-file');
  refused([{ name: 'a', content: bytes('xyz'), packed: new Uint8Array() }], 'corrupt-file');
});

test('directories that do not hold together', () => {
  const codes = (archive: Uint8Array): string[] => seen(archive).codes;
  assert.deepEqual(codes(new Uint8Array()), ['not-a-zip']);
  assert.deepEqual(codes(bytes('PK, or not')), ['not-a-zip']);
  const sound = pack([PACKAGE, HOLES]);
  for (const end of [
    { count: 1 },
    { count: 3 },
    { disk: 1 },
    { size: 3 },
    { start: 3 },
    { start: 0x7fff_ffff },
  ])
    assert.deepEqual(codes(pack([PACKAGE, HOLES], end)), ['not-a-zip'], JSON.stringify(end));
  assert.deepEqual(codes(Buffer.concat([sound, bytes('trailing')])), ['not-a-zip']);
  assert.deepEqual(codes(Buffer.concat([bytes('leading'), sound])), ['not-a-zip']);
  for (let cut = 1; cut < sound.length; cut += 7) assert.deepEqual(codes(sound.slice(0, cut)), ['not-a-zip']);
});

test('two directories in one archive, of which readers would choose differently', () => {
  const first = pack([PACKAGE]);
  const second = pack([{ ...PACKAGE, header: 0, isGhost: true }]);
  const record = first.slice(0, first.length - second.length);
  const outer = pack([HOLES], { before: record, comment: second });
  // The comment of the one is the directory and the end of the other.
  const both = pack([{ ...PACKAGE, header: 0, isGhost: true }], { before: outer.slice(0, -second.length) });
  assert.equal(both.length, outer.length);
  assert.deepEqual(seen(both).codes, ['not-a-zip']);
});

test('the form for more than 4 GiB', () => {
  for (const end of [{ count: 0xffff }, { size: 0xffffffff }, { start: 0xffffffff }])
    assert.deepEqual(seen(pack([HOLES], end)).codes, ['zip64']);
  assert.deepEqual(seen(pack([{ ...HOLES, size: 0xffffffff }])).codes, ['zip64']);
  assert.deepEqual(seen(pack([{ ...HOLES, header: 0xffffffff }])).codes, ['zip64']);
  assert.deepEqual(seen(pack([{ ...HOLES, local: { size: 0xffffffff } }])).codes, ['zip64']);
});

test('a thousand bad names are fifty problems and a count', () => {
  const many = Array.from({ length: 1000 }, (_, i) => ({ name: `../${i}` }));
  const { problems } = readZip(pack([PACKAGE, HOLES, ...many]));
  assert.equal(problems.length, 51);
  assert.equal(problems.at(-1)!.found, '950 more of them');
});

test('an archive within an archive is a file like any other', () => {
  const inner = pack([HOLES]);
  assert.deepEqual(seen(pack([PACKAGE, { name: 'copies/older.zip', content: inner }])).codes, []);
});

test(`any fields of any entries (seed ${SEED}): nothing throws, and what is read has its checksum`, () => {
  const field = fc.oneof(fc.nat(100), fc.constantFrom(0, 1, 0xffff, 0x7fffffff, 0xffffffff));
  const small = fc.nat(0xffff);
  const honest = fc.record({
    name: fc.oneof(fc.constantFrom('a', 'A', 'a/b', '../a', 'holes.csv', 'x/', 'é', 'e\u0301'), fc.string()),
    content: fc.uint8Array({ maxLength: 40 }),
    method: fc.constantFrom(0, 8, 8),
  });
  const lie = fc.oneof(
    fc.record({ packed: fc.uint8Array({ maxLength: 40 }) }),
    fc.record({ flags: fc.constantFrom(0, 0x808, 1, 0x2000) }),
    fc.record({ method: small }),
    fc.record({ crc: field }),
    fc.record({ size: field }),
    fc.record({ mode: fc.constantFrom(0o100644, 0o120777, 0o040755) }),
    fc.record({ header: field, isGhost: fc.boolean() }),
    fc.record({ local: fc.record({ crc: field, packed: field, size: field }, { requiredKeys: [] }) }),
    fc.record({ local: fc.record({ method: small, flags: small }, { requiredKeys: [] }) }),
  );
  const entry = fc
    .tuple(honest, fc.option(lie, { nil: {}, freq: 1 }))
    .map(([truth, untruth]) => ({ ...truth, ...untruth }) as Packed);
  const end = fc.record({ count: small, disk: small, size: field, start: field }, { requiredKeys: [] });
  let read = 0;
  let named = 0;
  fc.assert(
    fc.property(
      fc.array(entry, { maxLength: 5 }),
      fc.oneof({ weight: 9, arbitrary: fc.constant({}) }, { weight: 1, arbitrary: end }),
      (entries, last) => {
        const archive = pack(entries, last as object);
        const { files, faults } = unzip(archive);
        named += faults.length;
        for (const [path, content] of files) {
          read++;
          const own = entries.some(
            (each) => each.name === path && (each.crc ?? crc32(each.content ?? '')) === crc32(content),
          );
          assert.ok(own, path);
        }
        readZip(archive);
      },
    ),
    { seed: SEED, numRuns: 4000 },
  );
  assert.ok(read > 300 && named > 2000, `${read} files, ${named} faults`);
});
