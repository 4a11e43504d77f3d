// Readies Node to run our sources, TypeScript as they are: `node --import ./scripts/typescript.mjs FILE`.
// What has no JSX Node reads by itself, leaving the types out. tsx, which reads the rest, gives every inner function its
// name each time it is made: a curve then took a fifth longer.
import { readFileSync } from 'node:fs';
import { enableCompileCache, registerHooks } from 'node:module';
import { fileURLToPath } from 'node:url';
import { register } from 'tsx/esm/api';

enableCompileCache();
// Our own settings, whichever folder a command is given in: without them JSX is read otherwise and figures fail.
register({ tsconfig: fileURLToPath(new URL('../tsconfig.json', import.meta.url)) });
registerHooks({
  load: (url, context, next) =>
    /^file:.*\.ts$/.test(url)
      ? { format: 'module-typescript', source: readFileSync(fileURLToPath(url)), shortCircuit: true }
      : next(url, context),
});
