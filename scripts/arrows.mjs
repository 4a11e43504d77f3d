// Holds imports to the house: a room is entered only by its door, and uses only rooms above it.
//   workspaces  science → campaign → output → surfaces (demo, checks, bench, scripts may use all)
//   rooms       in the order of the lists below; in the app each stage is a room, and none uses another
//   files       no circles of imports, types included
import { globSync, readFileSync } from 'node:fs';
import { dirname, join, normalize, relative } from 'node:path';

const ROOMS = {
  science: [
    'shape',
    'base',
    'survey',
    'grids',
    'tide',
    'rig',
    'depth',
    'strata',
    'laboratory',
    'dating',
    'luminescence',
    'uranium',
    'lead',
    'clocks',
    'correlate',
    'environments',
    'points',
    'curve',
  ],
  campaign: [
    'problems',
    'tables',
    'settings',
    'results',
    'document',
    'versions',
    'replica',
    'history',
    'holes',
    'order',
    'chain',
    'import',
    'budget',
    'steps',
    'compare',
    'merge',
  ],
  output: [
    'words',
    'spreadsheet',
    'page',
    'drawing',
    'photographs',
    'shapes',
    'figures',
    'typeset',
    'paper',
    'report',
    'geopackage',
    'data-package',
    'sheet',
    'day-sheet',
    'risk-sheet',
    'labels',
    'lists',
  ],
  published: ['curves', 'coast', 'vocabularies', 'dose-factors'],
};
const MAY_USE = {
  science: ['science'],
  campaign: ['campaign', 'science'],
  output: ['output', 'campaign', 'science'],
  published: ['published', 'science'],
  demo: ['demo', 'published', 'output', 'campaign', 'science', 'surfaces'],
  surfaces: ['surfaces', 'published', 'output', 'campaign', 'science'],
  checks: ['checks', 'demo', 'published', 'output', 'campaign', 'science', 'surfaces'],
  bench: ['bench', 'checks', 'demo', 'published', 'output', 'campaign', 'science', 'surfaces'],
};
// Rooms inside surfaces/web, entered by their doors with relative imports. Stages come after all of them.
const WEB = 'surfaces/web/';
const WEB_ROOMS = [
  'language',
  'look',
  'positions',
  'parts',
  'store',
  'copies',
  'scan',
  'link',
  'compute',
  'history',
  'shell',
  'import',
  'days',
  'map-shapes',
  'holes',
  'claim',
];
// What a room of pure computation may not reach for.
const IMPURE = /^(node:|react|fflate|fs$|path$)/;

const root = join(import.meta.dirname, '..');
const complaints = [];
const files = globSync('{science,campaign,output,published,demo,surfaces,checks,bench}/**/*.{ts,tsx}', {
  cwd: root,
  exclude: (path) => path.includes('node_modules'),
});
const known = new Set(files);

for (const file of files) {
  const [workspace, room] = file.split('/');
  const isTest = /\.test\.tsx?$/.test(file) || file.includes('/fixtures/');
  if (file.startsWith('campaign/steps/') && file !== 'campaign/steps/runner/step.ts' && !isTest) {
    // Inside a function a step could use what stands around it, and the memo would not know.
    for (const [line] of readFileSync(join(root, file), 'utf8').matchAll(/^.*[^\w.]step\(.*$/gm)) {
      if (!/^(export )?const \w+ = step\((['`].*)?$/.test(line))
        complain(file, line.trim(), 'a step is a constant at the top of its file');
    }
  }
  for (const target of importsOf(readFileSync(join(root, file), 'utf8'))) {
    if (target.startsWith('.')) {
      const landed = landing(file, target);
      if (file.startsWith(WEB)) checkInWeb(file, target, landed, isTest);
      if (ROOMS[workspace] && !isTest && landed.split('/').slice(0, 2).join('/') !== `${workspace}/${room}`) {
        complain(file, target, 'a relative import leaves its room; use the door of the other room');
      }
      continue;
    }
    const ours = /^@stillstand\/([a-z]+)(?:\/([a-z]+))?$/.exec(target.replace(/\/(cli|web)$/, '/surfaces'));
    if (!ours) {
      if (workspace === 'science' && !isTest && IMPURE.test(target)) {
        complain(file, target, 'science is pure: no input, output, framework or clock');
      }
      if (workspace === 'campaign' && !isTest && /^react/.test(target)) {
        complain(file, target, 'campaign knows no screen: it runs in Node as in a browser');
      }
      continue;
    }
    const [, toWorkspace, toRoom] = ours;
    if (isTest && workspace !== 'science' && workspace !== 'campaign') continue;
    if (!MAY_USE[workspace]?.includes(toWorkspace)) {
      if (!isTest) complain(file, target, `${workspace} may not use ${toWorkspace}`);
      continue;
    }
    if (toWorkspace === workspace && ROOMS[workspace]) {
      const order = ROOMS[workspace];
      if (order.indexOf(toRoom) === -1) complain(file, target, `no such room in ${workspace}`);
      else if (order.indexOf(toRoom) >= order.indexOf(room)) {
        complain(
          file,
          target,
          `${room} may use only rooms above it: ${order.slice(0, order.indexOf(room)).join(', ')}`,
        );
      }
    }
  }
}

for (const circle of circles()) complaints.push(`a circle of imports: ${circle.join(' ↔ ')}`);

if (complaints.length > 0) {
  console.error(complaints.join('\n'));
  process.exit(1);
}

/** A relative import in the app: down the list of rooms, by their doors, and never from stage to stage. */
function checkInWeb(file, target, landed, isTest) {
  const from = webRoom(file);
  const to = webRoom(landed);
  if (from === to) return;
  if (from.startsWith('stages/') && to.startsWith('stages/')) {
    complain(file, target, 'no stage uses another; what two share goes to a room above the stages');
  }
  const order = [...WEB_ROOMS, 'stages/*', 'stages', 'main'];
  const place = (room) => order.indexOf(room.startsWith('stages/') ? 'stages/*' : room);
  // Tests, and what builds the app and drives its browser, look into every room.
  if (isTest || place(from) === -1) return;
  if (place(to) === -1) complain(file, target, 'no such room in surfaces/web');
  else if (place(to) >= place(from)) {
    complain(file, target, `${from} may use only rooms above it: ${order.slice(0, place(from)).join(', ')}`);
  } else if (to !== 'look' && landed !== `${WEB}${to}/index.ts`) {
    complain(file, target, `enter ${to} by its door, index.ts`);
  }
}

/** The room of the app a file lies in: a folder of surfaces/web, or one of its stages; `main` starts them. */
function webRoom(file) {
  const [room, stage, ...below] = file.slice(WEB.length).split('/');
  if (room === 'main.tsx') return 'main';
  return room === 'stages' && below.length > 0 ? `stages/${stage}` : room;
}

/** Files that import one another, directly or round about: strongly connected components (Tarjan 1972). */
function circles() {
  const found = [];
  const numbers = new Map();
  const lowest = new Map();
  const open = [];
  const visit = (file) => {
    numbers.set(file, numbers.size);
    lowest.set(file, numbers.get(file));
    open.push(file);
    for (const next of filesImportedBy(file)) {
      if (!numbers.has(next)) visit(next);
      if (open.includes(next)) lowest.set(file, Math.min(lowest.get(file), lowest.get(next)));
    }
    if (lowest.get(file) !== numbers.get(file)) return;
    const together = open.splice(open.indexOf(file));
    if (together.length > 1) found.push(together.reverse());
  };
  for (const file of files) if (!numbers.has(file)) visit(file);
  return found;
}

function filesImportedBy(file) {
  return importsOf(readFileSync(join(root, file), 'utf8'))
    .map((target) =>
      target.startsWith('.') ? landing(file, target) : `${target.replace('@stillstand/', '')}/index.ts`,
    )
    .filter((landed) => known.has(landed) && landed !== file);
}

function landing(file, target) {
  return relative(root, normalize(join(root, dirname(file), target)));
}

function importsOf(source) {
  return [...source.matchAll(/(?:from|import)\s*\(?\s*'([^']+)'/g)].map((match) => match[1]);
}

function complain(file, target, why) {
  complaints.push(`${file} → ${target}: ${why}`);
}
