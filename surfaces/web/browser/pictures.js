// `npm run pictures`, on the Node that set-up installed, with a browser found or installed.
import { register } from 'tsx/esm/api';
import '../../../scripts/browser.mjs';

register();
await import('./pictures.ts');
