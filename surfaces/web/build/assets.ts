/**
 * What the build adds to the bundle: the demo campaign as one zip, icons in the sizes devices ask for, the policy in
 * the page, and the list of files that the service worker keeps for work without network.
 */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Resvg } from '@resvg/resvg-js';
import { readFiles, writeZip } from '@stillstand/campaign/document';
import type { Plugin } from 'vite';
import { POLICY_IN_PAGE } from './policy.ts';

const SERVICE_WORKER = 'service-worker.js';
const ICON_SIZES = [192, 512];

/** @param demo folder of the demo campaign. @param publicFolder files that are served as they are. */
export function ownAssets(demo: string, publicFolder: string): Plugin {
  return {
    name: 'stillstand-assets',
    apply: 'build',
    transformIndexHtml: () => [
      {
        tag: 'meta',
        attrs: { 'http-equiv': 'Content-Security-Policy', content: POLICY_IN_PAGE },
        injectTo: 'head-prepend',
      },
    ],
    generateBundle: {
      order: 'post',
      handler(_, bundle) {
        const emit = (fileName: string, source: Uint8Array): void => {
          this.emitFile({ type: 'asset', fileName, source });
          contents.set(fileName, source);
        };
        const contents = new Map<string, string | Uint8Array>();
        for (const [name, item] of Object.entries(bundle)) {
          contents.set(name, item.type === 'chunk' ? item.code : item.source);
        }
        for (const name of readdirSync(publicFolder))
          contents.set(name, readFileSync(join(publicFolder, name)));
        emit('demo.zip', writeZip(readFiles(folderFiles(demo)).document));
        const icon = readFileSync(join(publicFolder, 'icon.svg'), 'utf8');
        for (const size of ICON_SIZES) {
          emit(
            `icon-${size}.png`,
            new Resvg(icon, { fitTo: { mode: 'width', value: size } }).render().asPng(),
          );
        }
        writePrecacheList(bundle[SERVICE_WORKER], contents);
      },
    },
  };
}

/** Puts the list into the worker's code. Its bytes then change whenever any file does, which is how a browser notices. */
function writePrecacheList(
  worker: { type: string; code?: string } | undefined,
  contents: ReadonlyMap<string, string | Uint8Array>,
): void {
  if (worker?.type !== 'chunk' || worker.code === undefined)
    throw new RangeError(`${SERVICE_WORKER} is not in the bundle`);
  const files = [...contents]
    .filter(([name]) => name !== SERVICE_WORKER && !name.endsWith('.map'))
    .map(([name, content]) => [`./${name === 'index.html' ? '' : name}`, digest(content)] as const)
    .sort(([a], [b]) => (a < b ? -1 : 1));
  const version = digest(JSON.stringify(files) + worker.code);
  worker.code = worker.code
    .replaceAll('__PRECACHE_FILES__', JSON.stringify(files.map(([path]) => path)))
    .replaceAll('__PRECACHE_VERSION__', JSON.stringify(version));
}

const digest = (content: string | Uint8Array): string =>
  createHash('sha256').update(content).digest('hex').slice(0, 16);

function folderFiles(folder: string): Map<string, Uint8Array> {
  const names = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) =>
      join(entry.parentPath, entry.name)
        .slice(folder.length + 1)
        .replaceAll('\\', '/'),
    );
  return new Map(names.sort().map((name) => [name, new Uint8Array(readFileSync(join(folder, name)))]));
}
