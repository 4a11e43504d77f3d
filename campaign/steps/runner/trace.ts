/**
 * The trace: an interned graph from every number down to the table rows that made it. Nodes are integers, edges two
 * columns (start of each node's parts, and the parts), words are stored once. A set ("joints in the string") is a
 * node of its own, so that a hundred soundings share one list of joints.
 */
import type { TraceId, TraceNode } from '@stillstand/campaign/results';

/** What is said of one node. Words may repeat freely: each is stored once. */
type Quantity = Omit<TraceNode, 'parts'>;

export interface Trace {
  /** Node named `id`, or -1. */
  find(id: TraceId): number;
  node(index: number): TraceNode;
  parts(index: number): number[];
  readonly size: number;
  /** Bytes the graph takes when it is written. */
  bytes(): number;
  ids(): TraceId[];
}

export interface TraceBuilder {
  /** Adds a node whose parts are older nodes; gives its number. The same id again gives the same node. */
  add(quantity: Quantity, parts: readonly number[]): number;
  finish(): Trace;
}

export function traceBuilder(): TraceBuilder {
  const words = new Map<string, number>();
  const spelled: string[] = [];
  const intern = (word: string): number => {
    const known = words.get(word);
    if (known !== undefined) return known;
    words.set(word, spelled.length);
    spelled.push(word);
    return spelled.length - 1;
  };
  const index = new Map<TraceId, number>();
  const id: TraceId[] = [];
  const label: number[] = [];
  const how: number[] = [];
  const unit: number[] = [];
  const table: number[] = [];
  const rowId: (string | null)[] = [];
  const value: (number | string | null)[] = [];
  const sigma: (number | null)[] = [];
  const signed: boolean[] = [];
  const start: number[] = [0];
  const part: number[] = [];

  const add = (quantity: Quantity, parts: readonly number[]): number => {
    const known = index.get(quantity.id);
    if (known !== undefined) return known;
    const here = id.length;
    index.set(quantity.id, here);
    id.push(quantity.id);
    label.push(intern(quantity.label));
    how.push(intern(quantity.how));
    unit.push(intern(quantity.unit));
    table.push(quantity.row === null ? -1 : intern(quantity.row.table));
    rowId.push(quantity.row === null ? null : quantity.row.row_id);
    value.push(quantity.value);
    sigma.push(quantity.sigma);
    signed.push(quantity.signed);
    for (const p of parts) {
      if (p < 0 || p >= here) throw new RangeError(`trace: part ${p} of node ${here} is not an older node`);
      part.push(p);
    }
    start.push(part.length);
    return here;
  };

  const finish = (): Trace => {
    const starts = Int32Array.from(start);
    const edges = Int32Array.from(part);
    const partsOf = (node: number): number[] => Array.from(edges.subarray(starts[node], starts[node + 1]));
    return {
      size: id.length,
      find: (name) => index.get(name) ?? -1,
      parts: partsOf,
      ids: () => [...id],
      node: (node) => ({
        id: id[node]!,
        label: spelled[label[node]!]!,
        how: spelled[how[node]!]!,
        unit: spelled[unit[node]!]!,
        value: value[node] ?? null,
        sigma: sigma[node] ?? null,
        signed: signed[node]!,
        row: table[node] === -1 ? null : { table: spelled[table[node]!]!, row_id: rowId[node]! },
        parts: partsOf(node).map((p) => id[p]!),
      }),
      bytes: () =>
        JSON.stringify({ id, spelled, rowId, value, sigma }).length +
        signed.length +
        4 * (label.length + how.length + unit.length + table.length + starts.length + edges.length),
    };
  };
  return { add, finish };
}
