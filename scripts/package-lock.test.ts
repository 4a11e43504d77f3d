/** What is installed is what was locked: a checksum for each package, from no registry in particular, and no script. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';

const ROOT = join(import.meta.dirname, '..');

interface Locked {
  version?: string;
  integrity?: string;
  resolved?: string;
  link?: boolean;
  optional?: boolean;
  hasInstallScript?: boolean;
}

const read = (name: string): unknown => JSON.parse(readFileSync(join(ROOT, name), 'utf8'));
const { packages } = read('package-lock.json') as { packages: Record<string, Locked> };
const installed = Object.entries(packages).filter(
  ([path, { link }]) => path.includes('node_modules/') && link !== true,
);

test('every locked package has its checksum', () => {
  assert.ok(installed.length > 100);
  for (const [path, { integrity }] of installed) assert.match(integrity ?? '', /^sha512-[\w+/]{86}==$/, path);
});

test('no address of a registry is locked', () => {
  for (const [path, { resolved }] of Object.entries(packages)) {
    assert.doesNotMatch(resolved ?? '', /:/, `${path}: ${resolved}`);
  }
});

test('no package runs a script when it is installed', () => {
  const { allowScripts } = read('package.json') as { allowScripts: Record<string, boolean> };
  for (const [path, { hasInstallScript }] of installed) {
    if (hasInstallScript !== true) continue;
    assert.equal(allowScripts[path.slice(path.lastIndexOf('node_modules/') + 13)], false, path);
  }
  assert.match(readFileSync(join(ROOT, 'scripts', 'set-up.mjs'), 'utf8'), /'--ignore-scripts'/);
});

test('Node itself is locked for each platform it is published for, in one version', () => {
  const nodes = installed.filter(([path]) => /^node_modules\/node-(linux|win|darwin)-\w+$/.test(path));
  assert.ok(nodes.length >= 3);
  assert.deepEqual(
    [...new Set(nodes.map(([, { version, optional }]) => `${version} ${optional}`))],
    ['24.21.0 true'],
  );
});
