/** Work by a crew: threads played by structured copies in this one. With threads of their own in checks/chains. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { type Plan, runChains } from './chains.ts';
import { chainServer, crewOf, type Port } from './crew.ts';
import { type RandomStream, randomStream } from './random.ts';
import type { Sampler } from './sampler.ts';
import { inProcess, type Work, withCrew } from './work.ts';

interface Draws {
  x: Float64Array;
}

/** Independent normal numbers; a chain answers with its next. `failing` chains fail at their 50th sweep. */
const normals: Sampler<
  { failing: readonly number[] },
  { stream: RandomStream; x: number; left: number },
  Draws,
  string,
  { to: string; x: number }
> = {
  name: 'normals',
  start: ({ failing }, stream, c) => ({ stream, x: 0, left: failing.includes(c) ? 50 : Infinity }),
  sweep(chain) {
    if (--chain.left <= 0) throw new Error('out of numbers');
    chain.x = chain.stream.normal();
  },
  endWarmUp: () => {},
  room: (_, draws) => ({ x: new Float64Array(draws) }),
  keep({ x }, draws, at) {
    draws.x[at] = x;
    return true;
  },
  answer: ({ stream }, to, swept) => {
    swept();
    return { to, x: stream.normal() };
  },
};

const plan: Plan<Draws, number> = {
  chains: 5,
  warm_up: 30,
  draws: 100,
  thin: 1,
  asked_at: [0.5, 1],
  doublings: 2,
  report: (draws, kept) => draws.reduce((sum, { x }) => sum + x[kept - 1]!, 0),
  // Three askings, whatever is found.
  unsettled: (_, last) => (last === null ? 'x' : last.length < 3 ? `${last}x` : null),
};

/** Everything that comes of a run, and what its chains answer. */
function* whole(failing: readonly number[] = []): Work<unknown> {
  const run = yield* runChains(normals, { failing }, plan, randomStream('crew'));
  const { draws, kept, sweeps, all } = run;
  return { draws, kept, sweeps, all, answers: yield* run.ask('next', 5) };
}

interface Played {
  ports: Port[];
  open: Set<number>;
}

/** Each message is copied and comes later, as between threads. */
function played(threads: number, samplers = [normals]): Played {
  const open = new Set<number>();
  const ports = Array.from({ length: threads }, (_, w): Port => {
    let hearOutside: ((message: unknown) => void) | null = null;
    const serve = chainServer(samplers, (message) => {
      const copy = structuredClone(message);
      setImmediate(() => {
        if (open.has(w)) hearOutside?.(copy);
      });
    });
    return {
      post(message) {
        const copy = structuredClone(message);
        setImmediate(() => {
          if (open.has(w)) serve(copy);
        });
      },
      open(hear) {
        open.add(w);
        hearOutside = hear;
      },
      close: async () => {
        open.delete(w);
      },
    };
  });
  return { ports, open };
}

test('1, 2, 3, 5 and 8 threads give what this thread gives, draws and answers alike, twice over', async () => {
  const here = inProcess(whole());
  for (const threads of [1, 2, 3, 5, 8]) {
    const crew = crewOf(played(threads).ports);
    assert.deepEqual(await withCrew(whole(), crew), here, `${threads} threads`);
    assert.deepEqual(await withCrew(whole(), crew), here, `${threads} threads again`);
    await crew.dismiss();
  }
});

test('progress by a crew never runs backwards and ends with all', async () => {
  const crew = crewOf(played(2).ports);
  const heard: [number, number][] = [];
  await withCrew(whole(), crew, (done, of) => heard.push([done, of]));
  for (const [k, [done, of]] of heard.entries()) {
    assert.ok(done <= of);
    if (k > 0) assert.ok(done > heard[k - 1]![0]);
  }
  const [done, of] = heard.at(-1)!;
  assert.equal(done, of);
  await crew.dismiss();
});

test('a sampler that throws is reported with its chain, the same one whatever the number of threads; nothing is left open', async () => {
  const expected = 'chain 2 of normals failed after 49 sweeps: out of numbers';
  assert.throws(() => inProcess(whole([1, 2, 4])), { name: 'ChainError', message: expected });
  for (const threads of [1, 2, 3, 5]) {
    const { ports, open } = played(threads);
    await assert.rejects(withCrew(whole([1, 2, 4]), crewOf(ports)), {
      name: 'ChainError',
      message: expected,
    });
    assert.equal(open.size, 0, `${threads} threads`);
  }
});

test('giving up passes as it is and leaves nothing open; a dismissed crew says so', async () => {
  const { ports, open } = played(2);
  const crew = crewOf(ports);
  const enough = new Error('enough');
  const given = withCrew(whole(), crew, () => {
    throw enough;
  });
  await assert.rejects(given, (error) => error === enough);
  assert.equal(open.size, 0);
  await assert.rejects(withCrew(whole(), crew), /the crew was dismissed/);
});

test('a crew dismissed in the middle rejects what it is at', async () => {
  const { ports, open } = played(2);
  const crew = crewOf(ports);
  const at = withCrew(whole(), crew);
  await crew.dismiss();
  await assert.rejects(at, /the crew was dismissed/);
  assert.equal(open.size, 0);
});

test('two computations do not share a crew: their chains would be taken for each other’s', async () => {
  const crew = crewOf(played(2).ports);
  const first = withCrew(whole(), crew);
  await assert.rejects(withCrew(whole(), crew), /at another computation/);
  assert.deepEqual(await first, inProcess(whole()));
  await crew.dismiss();
});

test('a thread that does not know the sampler, or is lost, is an error and not a wait', async () => {
  await assert.rejects(withCrew(whole(), crewOf(played(2, []).ports)), /no sampler is named normals here/);
  const lost: Port = {
    post: () => {},
    open: (_, gone) => setImmediate(() => gone(new Error('the thread ended'))),
    close: async () => {},
  };
  const crew = crewOf([lost]);
  await assert.rejects(withCrew(whole(), crew), /the thread ended/);
  const idle = crewOf([lost]);
  await new Promise((resolve) => setImmediate(resolve));
  await assert.rejects(withCrew(whole(), idle), /the thread ended/, 'lost while nothing was asked of it');
  assert.throws(() => crewOf([]), RangeError);
});
