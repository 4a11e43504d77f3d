/** Threads of Node that sweep the chains of curves and of ages against depth (science/base/chains/crew.ts). */
import { Worker } from 'node:worker_threads';
import { type Crew, crewOf, type Port } from '@stillstand/science/base';

const THREAD = new URL('./thread.ts', import.meta.url);

/** `running` is how many of its threads have not ended. */
export function nodeCrew(threads: number): { crew: Crew; running: () => number } {
  let running = 0;
  const port = (): Port => {
    const worker = new Worker(THREAD, { execArgv: [] });
    running += 1;
    return {
      post: (message) => worker.postMessage(message),
      open(hear, lost) {
        worker.on('message', hear);
        worker.on('error', lost);
        worker.on('exit', (code) => {
          running -= 1;
          lost(new Error(`a thread that swept chains ended with code ${code}`));
        });
      },
      close: async () => {
        await worker.terminate();
      },
    };
  };
  return { crew: crewOf(Array.from({ length: threads }, port)), running: () => running };
}
