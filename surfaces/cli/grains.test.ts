/** `grains`: a plain table of classes as laboratories send it; sums, limits, open ends, both scales. */
import assert from 'node:assert/strict';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';
import { said } from './fixtures/said.ts';

const place = mkdtempSync(join(tmpdir(), 'stillstand-grains-'));
after(() => rmSync(place, { recursive: true, force: true }));

function file(name: string, lines: readonly string[]): string {
  const path = join(place, name);
  writeFileSync(path, lines.join('\n'));
  return path;
}

interface Found {
  samples: {
    sample: string;
    sum_percent: number | null;
    statistics: {
      percentiles_phi: Record<string, number | null>;
      parts: Record<string, number | null>;
      folk_ward: { mean_phi: number; sorting_phi: number; sorting_class: string } | null;
      moments: { mean_phi: number; sd_phi: number; kurtosis: number } | null;
      sigma: { mean_phi: number | null };
      name: string | null;
    } | null;
  }[];
}
const found = async (path: string, ...options: string[]) => {
  const { code, out, err } = await said('grains', path, ...options, '--json');
  return { code, err, samples: out === '' ? [] : (JSON.parse(out) as Found).samples };
};

test('φ classes give moments and percentiles; per cent may stand in the heading', async () => {
  const path = file('phi.csv', [
    'sample,0-1 phi (%),1-2 phi (%),2-3 phi (%),3-4 phi (%),4-5 phi (%),2-3 phi (%)_sigma',
    'A,5,20,45,25,5,1',
  ]);
  const { code, err, samples } = await found(path);
  assert.equal(code, 0, err);
  const { statistics } = samples[0]!;
  // Computed outside the product: see checks/laboratory.
  assert.ok(Math.abs(statistics!.moments!.mean_phi - 2.55) < 1e-9);
  assert.ok(Math.abs(statistics!.moments!.sd_phi - 0.9206) < 5e-6);
  // By hand: 25 % at 2 φ, 70 % at 3 φ.
  assert.ok(Math.abs(statistics!.percentiles_phi['p50']! - (2 + 25 / 45)) < 1e-9);
  assert.ok(statistics!.sigma.mean_phi! > 0);
  assert.equal(statistics!.parts['sand'], 95);
  const text = await said('grains', path);
  assert.match(text.out, /Limits of Wentworth 1922; φ by Folk & Ward 1957, divisor 6\.6/);
  assert.match(text.out, /A +0\.0 +95\.0 +5\.0 +0\.0 +2\.56 .*sand, moderately sorted/);
});

test('sieves in millimetres and words, a limit, and an open end that is not made up', async () => {
  const path = file('sieves.csv', [
    'id,> 2 mm,1-2 mm,0.5-1 mm,250-500 µm,125-250 µm,63-125 µm,silt,clay',
    'S1,<0.5,5,15,30,25,15,6,4',
    'S2,0,0,0,1,2,4,43,50',
  ]);
  const { code, err, samples } = await found(path);
  assert.equal(code, 0, err);
  assert.deepEqual(
    samples.map(({ statistics }) => statistics!.name),
    ['slightly gravelly sand', 'mud'],
  );
  assert.ok(samples[0]!.statistics!.folk_ward !== null);
  assert.equal(samples[1]!.statistics!.folk_ward, null);
});

test('a sum that is off is an error at its line and column; masses need none; the other scale moves its limits', async () => {
  const lines = ['sample,sand,silt,clay', 'A,40,35,25', 'B,40,35,10', 'C,40,35,23'];
  const path = file('words.csv', lines);
  const { code, err, samples } = await found(path);
  assert.equal(code, 1);
  assert.match(err, /error: words\.csv, line 3, B, sand: found “classes that sum to 85 %”; expected 100 %/);
  assert.match(err, /warning: words\.csv, line 4, C, sand: found “classes that sum to 98 %”/);
  assert.deepEqual(
    samples.map(({ statistics }) => statistics?.name ?? null),
    ['sandy mud', null, 'sandy mud'],
  );
  const mass = await found(path, '--mass');
  assert.equal(mass.code, 0, mass.err);
  assert.equal(mass.samples[1]!.sum_percent, null);
  const iso = file('iso.csv', ['sample,> 63 µm,2-63 µm,< 2 µm', 'A,40,35,25']);
  const parts = (await found(iso, '--scale', 'iso_14688')).samples[0]!.statistics!.parts;
  assert.deepEqual([parts['silt'], parts['clay'], parts['gravel']], [35, 25, null]);
});

test('a table without classes, and a scale that is none, say what is expected', async () => {
  const none = await said('grains', file('none.csv', ['sample,loss', 'A,3']));
  assert.equal(none.code, 2);
  assert.match(none.err, /found the columns sample, loss; expected a column for each class/);
  const scale = await said('grains', file('x.csv', ['sand,mud', '1,2']), '--scale', 'fine');
  assert.match(scale.err, /--scale: found “fine”, expected wentworth or iso_14688/);
});
