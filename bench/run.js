// `npm run bench`: speed and size, beside a general engine in the same run.
import '@stillstand/cli/runtime';

const { runBench } = await import('./run-bench.ts');
await runBench(process.argv.slice(2));
