// `npm run demo`: makes the demo campaign, computes it the whole way by the same command anybody uses, and ends.
import '@stillstand/cli/runtime';

const { runDemo } = await import('./run-demo.ts');
process.exitCode = await runDemo();
