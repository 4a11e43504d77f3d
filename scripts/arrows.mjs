// Holds imports to the house: a room is entered only by its door, and uses only rooms above it.
//   workspaces  science → campaign → output → surfaces (demo, checks, bench, scripts may use all)
//   rooms       in the order of the lists below
import { globSync, readFileSync } from 'node:fs';
import { dirname, join, normalize, relative } from 'node:path';

const ROOMS = {
  science: ['base', 'survey', 'tide', 'rig', 'depth', 'strata', 'dating', 'correlate', 'points', 'curve'],
  campaign: [
    'problems',
    'tables',
    'settings',
    'results',
    'document',
    'versions',
    'replica',
    'holes',
    'steps',
  ],
  output: ['figures', 'paper', 'report'],
  published: ['curves', 'vocabularies'],
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
// What a room of pure computation may not reach for.
const IMPURE = /^(node:|react|fflate|fs$|path$)/;

const root = join(import.meta.dirname, '..');
const complaints = [];
const files = globSync('{science,campaign,output,published,demo,surfaces,checks,bench}/**/*.{ts,tsx}', {
  cwd: root,
  exclude: (path) => path.includes('node_modules'),
});

for (const file of files) {
  const [workspace, room] = file.split('/');
  const isTest = /\.test\.tsx?$/.test(file) || file.includes('/fixtures/');
  if (file.startsWith('campaign/steps/') && !isTest) {
    // Inside a function a step could use what stands around it, and the memo would not know.
    for (const [line] of readFileSync(join(root, file), 'utf8').matchAll(/^.*[^\w.]step\(.*$/gm)) {
      if (
        !/^(export )?const \w+ = step\($|^(export )?const \w+ = step\(['`]|^export function step</.test(line)
      )
        complain(file, line.trim(), 'a step is a constant at the top of its file');
    }
  }
  for (const target of importsOf(readFileSync(join(root, file), 'utf8'))) {
    if (target.startsWith('.')) {
      const landed = relative(root, normalize(join(root, dirname(file), target)));
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

if (complaints.length > 0) {
  console.error(complaints.join('\n'));
  process.exit(1);
}

function importsOf(source) {
  return [...source.matchAll(/(?:from|import)\s*\(?\s*'([^']+)'/g)].map((match) => match[1]);
}

function complain(file, target, why) {
  complaints.push(`${file} → ${target}: ${why}`);
}
