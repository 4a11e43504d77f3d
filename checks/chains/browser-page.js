// A page that computes the cases by Workers: `computed(threads)` is each result as text, by no thread for 0.
import { crewOf, inProcess, withCrew } from '@stillstand/science/base';
import { CASES, written } from './cases.ts';

function port() {
  const worker = new Worker(new URL('./browser-thread.js', import.meta.url), { type: 'module' });
  return {
    post: (message) => worker.postMessage(message),
    open(hear, lost) {
      worker.onmessage = ({ data }) => hear(data);
      worker.onerror = ({ message }) => lost(new Error(message));
    },
    // A Worker that is terminated runs nothing any more.
    close: async () => worker.terminate(),
  };
}

globalThis.computed = async (threads) => {
  const found = [];
  if (threads === 0) {
    for (const work of Object.values(CASES)) found.push(written(inProcess(work())));
    return found;
  }
  const crew = crewOf(Array.from({ length: threads }, port));
  for (const work of Object.values(CASES)) found.push(written(await withCrew(work(), crew)));
  await crew.dismiss();
  return found;
};
