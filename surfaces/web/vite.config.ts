import { join } from 'node:path';
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';
import { ownAssets } from './build/assets.ts';

const here = import.meta.dirname;
const root = join(here, '..', '..');

// biome-ignore lint/style/noDefaultExport: where the build tool looks
export default defineConfig({
  root: here,
  base: './',
  plugins: [react(), ownAssets(join(root, 'demo', 'campaign'), join(here, 'public'))],
  worker: { format: 'es' },
  build: {
    outDir: join(root, 'out', 'web'),
    emptyOutDir: true,
    target: 'es2022',
    // The policy allows no data: scripts or fonts; small files stay files.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    rolldownOptions: {
      input: {
        index: join(here, 'index.html'),
        'service-worker': join(here, 'offline', 'service-worker.ts'),
      },
      output: {
        entryFileNames: (chunk) =>
          chunk.name === 'service-worker' ? 'service-worker.js' : 'assets/[name]-[hash].js',
      },
    },
  },
});
