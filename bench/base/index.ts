/** Our own elementary functions beside the engine's in the same run: nanoseconds a call, and how many times longer. */
import { atan2, cos, exp, log, randomStream, sin } from '@stillstand/science/base';

export interface FunctionBench {
  name: string;
  /** Nanoseconds a call, the least of the repeats. */
  own_ns: number;
  engine_ns: number;
  /** Own over engine's: below 1 is faster. */
  ratio: number;
}

const CALLS = 20_000;
const REPEATS = 300;

export function benchFunctions(): FunctionBench[] {
  const random = randomStream('functions bench');
  const places = Float64Array.from({ length: CALLS }, () => 400 * (random.uniform() - 0.5));
  const sizes = places.map(Math.abs);
  const powers = places.map((x) => x / 10);
  const out = new Float64Array(CALLS);
  // Each loop written out, so that each function is put into it as it would be in earnest.
  const ways: [string, () => void, () => void][] = [
    [
      'sin',
      () => {
        for (let i = 0; i < CALLS; i++) out[i] = sin(places[i]!);
      },
      () => {
        for (let i = 0; i < CALLS; i++) out[i] = Math.sin(places[i]!);
      },
    ],
    [
      'cos',
      () => {
        for (let i = 0; i < CALLS; i++) out[i] = cos(places[i]!);
      },
      () => {
        for (let i = 0; i < CALLS; i++) out[i] = Math.cos(places[i]!);
      },
    ],
    [
      'atan2',
      () => {
        for (let i = 0; i < CALLS; i++) out[i] = atan2(places[i]!, powers[i]!);
      },
      () => {
        for (let i = 0; i < CALLS; i++) out[i] = Math.atan2(places[i]!, powers[i]!);
      },
    ],
    [
      'exp',
      () => {
        for (let i = 0; i < CALLS; i++) out[i] = exp(powers[i]!);
      },
      () => {
        for (let i = 0; i < CALLS; i++) out[i] = Math.exp(powers[i]!);
      },
    ],
    [
      'log',
      () => {
        for (let i = 0; i < CALLS; i++) out[i] = log(sizes[i]!);
      },
      () => {
        for (let i = 0; i < CALLS; i++) out[i] = Math.log(sizes[i]!);
      },
    ],
  ];
  return ways.map(([name, own, engine]) => {
    let own_ns = Infinity;
    let engine_ns = Infinity;
    for (let k = 0; k < REPEATS; k++) {
      own_ns = Math.min(own_ns, nanoseconds(own));
      engine_ns = Math.min(engine_ns, nanoseconds(engine));
    }
    return { name, own_ns, engine_ns, ratio: own_ns / engine_ns };
  });
}

function nanoseconds(work: () => void): number {
  const began = performance.now();
  work();
  return ((performance.now() - began) * 1e6) / CALLS;
}
