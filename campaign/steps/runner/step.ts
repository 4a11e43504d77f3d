/**
 * A step of the computation: a name and a pure function of what it declares. Steps are constants at the top of a file,
 * so that there is nothing around them to take from (scripts/arrows.mjs holds them to that); their function sees the
 * values of its inputs and nothing else. What the trace says of a result is no part of the step: words are made each
 * time, and may be changed without computing anything.
 */
import type { TraceNode } from '@stillstand/campaign/results';

/** Something in the trace, to be named as a part of something else. */
export interface Traced {
  /** Null for what is not worth a line of its own, such as a label. */
  readonly node: number | null;
}

/** A value with what it is known by. */
export interface Known<T> extends Traced {
  readonly value: T;
  /** Digest of the value: worked out when first asked for. */
  readonly key: string;
}

/** What a step's function gets, by name. */
export type Values = Readonly<Record<string, unknown>>;

/** What a step is given for them: each a known value, a list of known values for a list, null for null. */
export type Inputs<V extends Values> = { readonly [Name in keyof V]: Input<V[Name]> };
type Input<T> =
  | Known<T>
  | (T extends readonly (infer Member)[] ? readonly Known<Member>[] : never)
  | (null extends T ? null | Known<NonNullable<T>> : never);

/** What is said of a number: all of its node but its name and its parts. `signed` is false where it is not said. */
export type Told = Omit<TraceNode, 'id' | 'row' | 'parts' | 'signed'> & { signed?: true };

/** What a long computation may use besides: it changes no number. */
export interface Use {
  /** May throw to give the computation up. */
  onProgress: ((done: number, of: number) => void) | undefined;
}

export interface Step<V extends Values, T> {
  readonly name: string;
  readonly compute: (values: V, use: Use) => T;
}

const names = new Set<string>();

/** @throws Error for a name that another step has: their results would be taken for each other's. */
export function step<V extends Values, T>(name: string, compute: Step<V, T>['compute']): Step<V, T> {
  if (names.has(name)) throw new Error(`two steps are named ${name}`);
  names.add(name);
  return { name, compute };
}

/** A long step that was asked for and is not remembered: plain data, to be done anywhere (`long-jobs.ts`). */
export interface LongJob {
  /** What the memo will know its result by. */
  readonly key: string;
  readonly step: string;
  readonly values: Values;
}
