// `npm run pictures`, on the Node that set-up installed, with a browser found or installed.
import '../../../scripts/browser.mjs';
import '../../../scripts/typescript.mjs';

await import('./pictures.ts');
