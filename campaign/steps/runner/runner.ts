/**
 * The step runner: gives a step the values of its inputs, remembers what came out by the digest of those values, and
 * writes the trace around it. A step never sees memo or trace, and the memo knows nothing but what a step was given:
 * a warm computation is the cold one.
 */
import { type TraceId, traceId } from '@stillstand/campaign/results';
import { digest } from './digest.ts';
import type { Inputs, Known, LongJob, Step, Told, Traced, Values } from './step.ts';
import { type Trace, traceBuilder } from './trace.ts';

/** Results by key, kept between computations by the caller; what an edit does not touch is found here. */
export type Memo = Map<string, unknown>;

export interface Runner {
  /** A table row as it stands. */
  row<T extends { row_id: string }>(table: string, row: T, label: string): Known<T>;
  /** A published thing or a setting, told by its name. */
  given<T>(id: TraceId, label: string, how: string, value: T): Known<T>;
  /** A value that the trace does not name: a label, a seed, what the values of others were sorted into. */
  plain<T>(value: T): Known<T>;
  /** Several things as one in the trace, "the joints in the string". */
  set(id: TraceId, label: string, members: readonly Traced[]): Traced;
  /**
   * Computes, or remembers. In the trace `parts` stand below the result: the inputs, where nothing else is said.
   * @throws what the step throws
   */
  do<V extends Values, T>(
    step: Step<V, T>,
    id: TraceId,
    inputs: Inputs<V>,
    tell: (value: T) => Told,
    parts?: (value: T) => readonly Traced[],
  ): Known<T>;
  /** The same of a long step; null where it is left for later. */
  long<V extends Values, T>(
    step: Step<V, T>,
    id: TraceId,
    inputs: Inputs<V>,
    tell: (value: T) => Told,
    parts: (value: T) => readonly Traced[],
  ): Known<T> | null;
  /** The same, of a result that is no number of its own in the trace. */
  untold<V extends Values, T>(step: Step<V, T>, inputs: Inputs<V>): Known<T>;
  /** A number out of a result, with words and parts of its own. */
  part<T>(id: TraceId, value: T, told: Told, parts: readonly Traced[]): Known<T>;
  trace(): Trace;
  /** How many steps were computed and how many remembered. */
  count: { computed: number; remembered: number };
}

export interface RunnerOptions {
  /** Part of every key: no memo outlives its computation. */
  computation: string;
  /** Null: nothing is remembered, and no key is worked out. */
  memo: Memo | null;
  onProgress?: ((done: number, of: number) => void) | undefined;
  /** Long steps that are not remembered are put here and not computed. */
  later?: LongJob[] | undefined;
  /** Which inputs the keys leave out: none, but in the tests that put such a fault in and must find it. */
  forgets?: ((step: string, input: string) => boolean) | undefined;
}

export function stepRunner({ computation, memo, onProgress, later, forgets }: RunnerOptions): Runner {
  const builder = traceBuilder();
  const count = { computed: 0, remembered: 0 };
  const rows = new Map<TraceId, Known<unknown>>();
  const use = { onProgress };

  const keyOf = <V extends Values, T>(step: Step<V, T>, inputs: Inputs<V>): string =>
    digest([
      computation,
      step.name,
      ...Object.entries<Known<unknown> | readonly Known<unknown>[] | null>(inputs)
        .filter(([name]) => forgets?.(step.name, name) !== true)
        .map(([name, input]) => [name, isList(input) ? input.map((each) => each.key) : (input?.key ?? null)]),
    ]);

  const computed = <V extends Values, T>(step: Step<V, T>, inputs: Inputs<V>): T => {
    if (memo === null) {
      count.computed += 1;
      return step.compute(valuesOf(inputs), use);
    }
    const key = keyOf(step, inputs);
    if (memo.has(key)) {
      count.remembered += 1;
      return memo.get(key) as T;
    }
    const value = step.compute(valuesOf(inputs), use);
    memo.set(key, value);
    count.computed += 1;
    return value;
  };

  const told = <T>(
    id: TraceId,
    value: T,
    tell: (value: T) => Told,
    parts: readonly (Traced | null)[],
  ): Known<T> =>
    knownOf(value, builder.add({ id, signed: false, ...tell(value), row: null }, nodesOf(parts)));

  return {
    count,
    row: (table, row, label) => {
      const id = traceId.row(table, row.row_id);
      const known = rows.get(id);
      if (known !== undefined) return known as Known<typeof row>;
      const told = { ...worded(label, 'as recorded'), row: { table, row_id: row.row_id } };
      const fresh = knownOf(row, builder.add({ id, ...told }, []));
      rows.set(id, fresh);
      return fresh;
    },
    given: (id, label, how, value) =>
      knownOf(value, builder.add({ id, ...worded(label, how), row: null }, [])),
    plain: (value) => knownOf(value, null),
    set: (id, label, members) => ({
      node: builder.add({ id, ...worded(label, `${members.length} together`), row: null }, nodesOf(members)),
    }),
    do: (step, id, inputs, tell, parts = () => Object.values<Input>(inputs).flat() as Traced[]) => {
      const value = computed(step, inputs);
      return told(id, value, tell, parts(value));
    },
    long: (step, id, inputs, tell, parts) => {
      const key = later === undefined ? '' : keyOf(step, inputs);
      if (later !== undefined && memo?.has(key) !== true) {
        later.push({ key, step: step.name, values: valuesOf(inputs) });
        return null;
      }
      const value = computed(step, inputs);
      return told(id, value, tell, parts(value));
    },
    untold: (step, inputs) => knownOf(computed(step, inputs), null),
    part: (id, value, told, parts) =>
      knownOf(value, builder.add({ id, signed: false, ...told, row: null }, nodesOf(parts))),
    trace: () => builder.finish(),
  };
}

/** Words without a number. */
const worded = (label: string, how: string) => ({
  label,
  how,
  value: null,
  sigma: null,
  unit: '',
  signed: false,
});

type Input = Known<unknown> | readonly Known<unknown>[] | null;

const isList = (input: Input): input is readonly Known<unknown>[] => Array.isArray(input);

function valuesOf<V extends Values>(inputs: Inputs<V>): V {
  return Object.fromEntries(
    Object.entries<Input>(inputs).map(([name, input]) => [
      name,
      isList(input) ? input.map(({ value }) => value) : (input?.value ?? null),
    ]),
  ) as V;
}

const nodesOf = (parts: readonly (Traced | null)[]): number[] =>
  parts.flatMap((part) => (part === null || part.node === null ? [] : [part.node]));

/** Most values are never an input of anything: their digest waits until it is asked for. */
function knownOf<T>(value: T, node: number | null): Known<T> {
  let key: string | null = null;
  return {
    value,
    node,
    get key() {
      key ??= digest(value);
      return key;
    },
  };
}
