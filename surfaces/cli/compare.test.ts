/** `compare` as a person uses it after a review: packages, results and campaigns, sound and not. */
import assert from 'node:assert/strict';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { after, before, test } from 'node:test';
import { filesOfZip, writeFiles, zipOf } from '@stillstand/campaign/document';
import { documentOf, THREE_LEVELS } from '../../campaign/steps/sea/fixtures/three-levels.ts';
import { type Said, said } from './fixtures/said.ts';

const place = mkdtempSync(join(tmpdir(), 'stillstand-cli-compare-'));
after(() => rmSync(place, { recursive: true, force: true }));
const at = (...path: string[]): string => join(place, ...path);
const PACKAGE = at('submitted.zip');
const RESULTS = at('submitted');

function writeAll(folder: string, files: Iterable<readonly [string, Uint8Array]>): void {
  for (const [path, bytes] of files) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), bytes);
  }
}

/** A campaign folder; the second date has that error. */
function campaign(name: string, error: string, id = 'c0ffee'): string {
  const settings = [
    { name: 'datum', value: 'MSL' },
    { name: 'chains', value: '2' },
    { name: 'draws', value: '200' },
  ];
  const determinations = THREE_LEVELS['determinations']!.map((row, i) => (i === 1 ? { ...row, error } : row));
  const made = documentOf('Three', { ...THREE_LEVELS, settings, determinations });
  writeAll(at(name), writeFiles({ ...made, package: { ...made.package, id } }));
  return at(name);
}

/** The package with some of its files replaced, as a zip of its own; null leaves a file out. */
function tampered(name: string, changed: Readonly<Record<string, string | null>>): string {
  const { files } = filesOfZip(new Uint8Array(readFileSync(PACKAGE)));
  for (const [path, text] of Object.entries(changed))
    if (text === null) files.delete(path);
    else files.set(path, new TextEncoder().encode(text));
  writeFileSync(at(name), zipOf(files));
  return at(name);
}

const packed = (path: string): string =>
  new TextDecoder().decode(filesOfZip(new Uint8Array(readFileSync(PACKAGE))).files.get(path));

let revised: string;
let compared: Said;
before(async () => {
  const submitted = campaign('campaign', '60');
  revised = campaign('revised', '90');
  await said('compute', submitted, '--out', RESULTS, '--figures', 'svg', '--package', PACKAGE);
  compared = await said('compare', PACKAGE, revised);
});

test('the campaign in a data package is computed again to the very bytes of its results', async () => {
  await said('compute', PACKAGE, '--out', at('again'), '--figures', 'svg');
  for (const file of ['results.json', 'results.npz'])
    assert.ok(readFileSync(at('again', file)).equals(readFileSync(at('submitted', file))), file);
});

test('a package with itself: nothing changed', async () => {
  const { code, out } = await said('compare', PACKAGE, PACKAGE);
  assert.equal(code, 0);
  assert.match(out, /0 moved by less than rounding, 0 changed\. 0 new, 0 gone\./);
  assert.match(out, /No row of the campaign changed\./);
});

test('a package and the campaign revised since: the cell, and the numbers it is under', () => {
  assert.equal(compared.code, 0);
  assert.match(compared.out, /Changed in the campaign: 1 row\n {2}\[1\] date INV-2: its 1 sd 60 → 90/);
  // Two sigma of 60 and of 90 yr, by hand.
  assert.match(compared.out, /date INV-2 +2,000 ± 120 +2,000 ± 180 +0 +\S+ +\[1\]/);
  assert.match(compared.out, /rate from 3,000 to 2,000 cal BP/);
  assert.doesNotMatch(compared.out, /INV-1|INV-3|elevation of sample/);
  assert.match(compared.out, /Curve of the report: NOT CONVERGED before/);
  assert.match(compared.err, /not to be used until then/);
});

test('JSON and tables have every number; a table that is there is not written over', async () => {
  const { out } = await said('compare', PACKAGE, revised, '--json', '--out', at('changes.csv'));
  const { changes, rows, campaigns } = JSON.parse(out);
  assert.equal(campaigns, 'same');
  assert.deepEqual(rows[0].cells, [{ column: 'error', called: 'its 1 sd', old: '60', now: '90' }]);
  assert.ok(changes.every((each: { rows: unknown[] }) => each.rows.length === 1));
  const lines = readFileSync(at('changes.csv'), 'utf8').trimEnd().split('\n');
  assert.equal(lines.length, changes.length + 1);
  assert.match(lines[0]!, /^kind,number,trace_id,unit,old,old_2sigma,new,new_2sigma,difference/);
  assert.equal(
    readFileSync(at('changes-rows.csv'), 'utf8').split('\n')[1],
    '1,determinations,determinations1,date INV-2,changed,error,60,90',
  );
  const again = await said('compare', PACKAGE, revised, '--out', at('changes.csv'));
  assert.equal(again.code, 2);
  assert.match(again.err, /is there already: name a new file, nothing was compared/);
});

test('why: the lone change has the whole of the effect', async () => {
  const { code, out } = await said('compare', PACKAGE, revised, '--why');
  assert.equal(code, 0);
  const effects = [...out.matchAll(/moved by (\S+)\n {2}date INV-2 +(\S+).*\n.* (\S+)\n.* (\S+)/g)];
  assert.equal(effects.length, 3);
  for (const [, all, alone, program, remainder] of effects)
    assert.deepEqual([alone, program, remainder], [all, '0.00', '0.00']);
});

test('a results.json edited by hand is named by its checksum and refused', async () => {
  const edited = packed('results/results.json').replace(/"value": 2000/, '"value": 2001');
  const zip = tampered('edited.zip', { 'results/results.json': edited });
  const { code, err, out } = await said('compare', zip, revised);
  assert.equal(code, 1);
  assert.equal(out, '');
  assert.match(err, /edited\.zip: results\/results\.json.*another content than its checksum states/);
  // The same in a folder of results.
  cpSync(RESULTS, at('edited'), { recursive: true });
  writeFileSync(at('edited', 'results.json'), edited);
  assert.match((await said('compare', at('edited'), revised)).err, /edited: results\.json/);
  // The campaign in it can still be computed.
  assert.match((await said('compare', zip, revised, '--recompute')).out, /date INV-2: its 1 sd 60 → 90/);
});

test('a table changed inside a package is named, and its results are not those of that campaign', async () => {
  const table = packed('campaign/determinations.csv').replace(',60,', ',61,');
  const zip = tampered('table.zip', { 'campaign/determinations.csv': table });
  const { code, err } = await said('compare', zip, PACKAGE);
  assert.equal(code, 0);
  assert.match(err, /table\.zip: campaign\/determinations\.csv.*another content than its checksum states/);
  assert.match(
    err,
    /table\.zip: results: found “date INV-1 and 1 more number, other than from its campaign”/,
  );
});

test('results without their campaign: numbers alone, which is said; --why needs the campaigns', async () => {
  const { code, out, err } = await said('compare', RESULTS, revised);
  assert.equal(code, 0);
  assert.match(out, /date INV-2 +2,000 ± 120/);
  assert.doesNotMatch(out, /Changed in the campaign/);
  assert.match(err, /results without their campaign.*only the numbers are compared/s);
  const why = await said('compare', RESULTS, revised, '--why');
  assert.equal(why.code, 2);
  assert.match(why.err, /compare data packages, or campaigns/);
});

test('results of another version are refused with what to do; computed again they are compared', async () => {
  const older = packed('results/results.json').replace('"version": 5', '"version": 4');
  const zip = tampered('older.zip', { 'results/results.json': older, 'checksums.txt': '' });
  const { code, err } = await said('compare', zip, revised);
  assert.equal(code, 1);
  assert.match(err, /version 5.*--recompute/s);
  assert.equal((await said('compare', zip, revised, '--recompute')).code, 0);
});

test('a file that is no zip, and a zip cut short: an error that names it', async () => {
  writeFileSync(at('not.zip'), 'no zip');
  writeFileSync(at('short.zip'), readFileSync(PACKAGE).subarray(0, 5000));
  for (const name of ['not.zip', 'short.zip']) {
    const { code, err } = await said('compare', at(name), revised);
    assert.equal(code, 1);
    assert.match(err, new RegExp(`^error.*${name}`));
  }
});

test('two campaigns: said first, and compared all the same', async () => {
  const { code, out, err } = await said('compare', PACKAGE, campaign('other', '90', 'decaf'));
  assert.equal(code, 0);
  assert.match(out, /^TWO DIFFERENT CAMPAIGNS/);
  assert.match(out, /date INV-2: its 1 sd 60 → 90/);
  assert.match(err, /two campaigns of different identity/);
});

test('an unpacked package is compared; compute on it names the folder of the campaign', async () => {
  writeAll(at('unpacked'), filesOfZip(new Uint8Array(readFileSync(PACKAGE))).files);
  assert.match((await said('compare', at('unpacked'), revised)).out, /date INV-2: its 1 sd 60 → 90/);
  const { code, err } = await said('compute', at('unpacked'), '--out', at('nothing'));
  assert.equal(code, 2);
  assert.match(err, /is a data package; its campaign is in .*campaign/);
  assert.ok(!existsSync(at('nothing')));
});
