/**
 * The step runner: runs pure functions, remembers their results by the hash of their inputs, and writes the trace
 * around them. A step says what it takes, what it computes, and how its result is told; it never sees the trace.
 */
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import { type Quantity, type Trace, traceBuilder } from './trace.ts';

/** A value that knows what it hangs on. */
export interface Known<T> {
  value: T;
  /** Hash of everything it was computed from. */
  key: string;
  /** Its node in the trace. */
  node: number;
}

/** Results by key, kept between computations by the caller; what an edit does not touch is found here. */
export type Memo = Map<string, unknown>;

/** A quantity as a step tells it; the row is filled in by the runner. */
type Told = Omit<Quantity, 'row'>;

export interface Runner {
  /** A table row as it stands. */
  row<T extends { row_id: string }>(table: string, row: T, label: string): Known<T>;
  /** A published thing or a setting, told by its name. */
  given<T>(id: string, label: string, how: string, value: T, content: string): Known<T>;
  /** Several things as one, "the joints in the string". */
  set(id: string, label: string, members: readonly Known<unknown>[]): Known<null>;
  /** Computes once for the same inputs; `tell` says what came out. */
  step<T>(
    name: string,
    id: string,
    inputs: readonly Known<unknown>[],
    compute: () => T,
    tell: (value: T) => Told,
    /** What the trace shows as its parts, where that is less or more than the inputs. */
    parts?: readonly Known<unknown>[],
  ): Known<T>;
  /** A further number out of a result, with parts of its own. */
  quantity<T>(from: Known<unknown>, parts: readonly Known<unknown>[], value: T, told: Told): Known<T>;
  trace(): Trace;
  /** Hash of everything taken so far: rows, published things, settings. */
  everything(): string;
  /** How many steps were computed and how many remembered. */
  count: { computed: number; remembered: number };
}

export function stepRunner(computation: string, memo: Memo): Runner {
  const builder = traceBuilder();
  const count = { computed: 0, remembered: 0 };
  const nodes = (inputs: readonly Known<unknown>[]): number[] => inputs.map((input) => input.node);
  const rows = new Map<string, Known<unknown>>();
  const keys = new Set<string>();
  const taken = (key: string): string => {
    keys.add(key);
    return key;
  };

  return {
    count,
    row: (table, row, label) => {
      const id = `${table}/${row.row_id}`;
      const known = rows.get(id);
      if (known !== undefined) return known as Known<typeof row>;
      const node = builder.add(
        {
          id,
          label,
          how: 'as written down',
          value: null,
          sigma: null,
          unit: '',
          row: { table, row_id: row.row_id },
        },
        [],
      );
      const fresh = { value: row, key: taken(rowKey(table, row)), node };
      rows.set(id, fresh);
      return fresh;
    },
    given: (id, label, how, value, content) => ({
      value,
      key: taken(hash(`given ${id} ${content}`)),
      node: builder.add({ id, label, how, value: null, sigma: null, unit: '', row: null }, []),
    }),
    set: (id, label, members) => ({
      value: null,
      key: hash(`set ${members.map((m) => m.key).join(' ')}`),
      node: builder.add(
        { id, label, how: `${members.length} together`, value: null, sigma: null, unit: '', row: null },
        nodes(members),
      ),
    }),
    step: (name, id, inputs, compute, tell, parts = inputs) => {
      const key = hash(`step ${computation} ${name} ${id} ${inputs.map((input) => input.key).join(' ')}`);
      let value: ReturnType<typeof compute>;
      if (memo.has(key)) {
        value = memo.get(key) as ReturnType<typeof compute>;
        count.remembered += 1;
      } else {
        value = compute();
        memo.set(key, value);
        count.computed += 1;
      }
      return { value, key, node: builder.add({ ...tell(value), row: null }, nodes(parts)) };
    },
    quantity: (from, parts, value, told) => ({
      value,
      key: hash(`quantity ${from.key} ${told.id}`),
      node: builder.add({ ...told, row: null }, nodes(parts)),
    }),
    trace: () => builder.finish(),
    everything: () => hash([...keys].sort().join(' ')),
  };
}

/** Rows are never changed, and belong to one table: one that stays the same object is hashed once. */
const rowKeys = new WeakMap<object, string>();
function rowKey(table: string, row: object): string {
  const key = rowKeys.get(row) ?? hash(`row ${table} ${JSON.stringify(row)}`);
  rowKeys.set(row, key);
  return key;
}

/** SHA-256 of a text, as 64 hexadecimal digits. */
function hash(text: string): string {
  return bytesToHex(sha256(utf8ToBytes(text)));
}
