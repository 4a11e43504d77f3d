/** The lint rule that keeps the engine's own arithmetic, locales and clocks out of results finds each of them. */
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test } from 'node:test';

const ROOT = join(import.meta.dirname, '..');

const FOUND = [
  'Math.sin(x)',
  'Math.log2(x)',
  'Math.hypot(x, x)',
  'Math.random()',
  'Math.later(x)',
  '[x].map(Math.exp)',
  "Math['cos'](x)",
  'globalThis.Math.cos(x)',
  'x ** 2',
  'y **= 2',
  "'a'.localeCompare('b')",
  'x.toLocaleString()',
  "new Intl.NumberFormat('en')",
  'new Date()',
  "new Date('5 March 2024')",
  'Date.now()',
  "Date.parse('2024-03-05')",
  'performance.now()',
  'crypto.randomUUID()',
];
const FINE = [
  'Math.sqrt(Math.abs(x)) + Math.max(x, Math.PI) - Math.round(x)',
  'Math.fround(x) * Math.SQRT1_2',
  'Date.UTC(2024, 2, 5)',
  'x * x',
  'x.toFixed(2)',
];

test('each is found, and nothing else', () => {
  const folder = mkdtempSync(join(tmpdir(), 'stillstand-lint-'));
  try {
    writeFileSync(
      join(folder, 'biome.json'),
      JSON.stringify({
        plugins: [join(ROOT, 'scripts', 'lint', 'own-arithmetic.grit')],
        linter: { rules: { preset: 'none' } },
      }),
    );
    const lines = [...FOUND, 'const { tan } = Math'];
    writeFileSync(join(folder, 'all.ts'), `${[...lines, ...FINE].join(';\n')};\n`);
    const { stdout } = spawnSync(
      process.execPath,
      [join(ROOT, 'node_modules', '@biomejs', 'biome', 'bin', 'biome'), 'lint', '--reporter=github'],
      { encoding: 'utf8', cwd: folder },
    );
    const found = [...stdout.matchAll(/title=plugin,.*?,line=(\d+)/g)].map(([, line]) => Number(line));
    assert.deepEqual(
      found.sort((a, b) => a - b),
      lines.map((_, i) => i + 1),
      stdout,
    );
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});
