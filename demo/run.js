// `npm run demo`: makes the demo campaign, computes it the whole way by the same command anybody uses, and ends.
import { register } from 'tsx/esm/api';

register();
const { runDemo } = await import('./run-demo.ts');
process.exitCode = await runDemo();
