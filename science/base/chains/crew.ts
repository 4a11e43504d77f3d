/**
 * A crew of threads that talk by messages: both ends of the talk. What a thread is (a Worker of a browser, a worker of
 * Node) is the surface's business; it gives a `Port` to each. Chain c is swept by thread c modulo their number.
 */
import {
  type AnySampler,
  ChainError,
  type Crew,
  carryOut,
  REPORTED_EVERY,
  type Reply,
  type Swept,
  type Task,
} from './work.ts';

/** A thread seen from outside. Messages are plain data, as the structured clone of HTML takes them. */
export interface Port {
  post(message: unknown): void;
  /** `hear` gets each message of the thread, `lost` the reason why none will come any more. Called once. */
  open(hear: (message: unknown) => void, lost: (reason: unknown) => void): void;
  /** Ends the thread; resolves when it has ended. */
  close(): Promise<void>;
}

interface Call {
  sampler: string;
  task: Task;
  chains: readonly number[];
}

type Message =
  | { kind: 'swept'; sweeps: number }
  | { kind: 'done'; replies: readonly Reply[] }
  | { kind: 'failed'; chain: number; sweeps: number; message: string };

/** What one thread is at. */
interface Waiting {
  swept(sweeps: number): void;
  ended(message: Exclude<Message, { kind: 'swept' }>): void;
  failed(reason: unknown): void;
}

export function crewOf(ports: readonly Port[]): Crew {
  if (ports.length === 0) throw new RangeError('crewOf: no threads; expected one or more');
  const waiting: (Waiting | null)[] = ports.map(() => null);
  /** Why nothing can be performed any more. */
  let over: { reason: unknown } | null = null;
  ports.forEach((port, w) => {
    port.open(
      (heard) => {
        const message = heard as Message;
        const one = waiting[w];
        if (message.kind !== 'swept') {
          waiting[w] = null;
          one?.ended(message);
          return;
        }
        try {
          one?.swept(message.sweeps);
        } catch (reason) {
          one?.failed(reason);
        }
      },
      (reason) => {
        over ??= { reason };
        waiting[w]?.failed(reason);
      },
    );
  });

  return {
    async perform({ sampler, chains, task }, swept) {
      if (over !== null) throw over.reason;
      const replies: Reply[] = [];
      const failures: ChainError[] = [];
      await Promise.all(
        ports.slice(0, chains).map((port, w) => {
          const own = Array.from({ length: chains }, (_, c) => c).filter((c) => c % ports.length === w);
          return new Promise<void>((resolve, reject) => {
            waiting[w] = {
              swept,
              failed: reject,
              ended: (message) => {
                if (message.kind === 'done')
                  for (const [k, c] of own.entries()) replies[c] = message.replies[k]!;
                else
                  failures.push(
                    new ChainError(sampler.name, message.chain, message.sweeps, new Error(message.message)),
                  );
                resolve();
              },
            };
            port.post({ sampler: sampler.name, task, chains: own } satisfies Call);
          });
        }),
      );
      // The one that fails first where chains follow one another.
      const [first] = failures.sort((a, b) => a.chain - b.chain);
      if (first !== undefined) throw first;
      return replies;
    },
    async dismiss() {
      const reason = new Error('the crew was dismissed');
      over = { reason };
      for (const one of waiting) one?.failed(reason);
      await Promise.all(ports.map((port) => port.close()));
    },
  };
}

/** The other end, in a thread: give it each message that comes. `samplers` are all it can be asked to sweep. */
export function chainServer(
  samplers: readonly AnySampler[],
  post: (message: unknown) => void,
): (message: unknown) => void {
  const here = new Map<number, Swept>();
  const say = (message: Message): void => post(message);
  return (message) => {
    const { sampler: name, task, chains } = message as Call;
    const sampler = samplers.find((known) => known.name === name);
    let unsaid = 0;
    const tell = (): void => {
      if (unsaid > 0) say({ kind: 'swept', sweeps: unsaid });
      unsaid = 0;
    };
    const swept = (): void => {
      unsaid++;
      if (unsaid === REPORTED_EVERY) tell();
    };
    try {
      if (sampler === undefined) throw new Error(`no sampler is named ${name} here`);
      if (task.kind === 'start') here.clear();
      const replies = chains.map((c) => carryOut(here, sampler, task, c, swept));
      tell();
      say({ kind: 'done', replies });
    } catch (error) {
      const { chain, sweeps, cause } =
        error instanceof ChainError ? error : { chain: chains[0]!, sweeps: 0, cause: error };
      say({ kind: 'failed', chain, sweeps, message: cause instanceof Error ? cause.message : String(cause) });
    }
  };
}
