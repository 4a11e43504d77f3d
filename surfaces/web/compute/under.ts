/** Which changes are under a number, by the trace, and whether it moved: asked when changes of others have come. */
import { ROUNDING } from '@stillstand/campaign/compare';
import type { TraceId, TraceNode } from '@stillstand/campaign/results';
import type { Trace } from '@stillstand/campaign/steps';

export interface UnderAsked {
  readonly ids: readonly TraceId[];
  /** Identities of rows that others changed, the latest last. */
  readonly theirs: readonly string[];
  /** Identities of rows that were changed here at the same time. */
  readonly own: readonly string[];
}

/** What is under one number. */
export interface Under {
  /** Place in `theirs` of the last of them that is under it; −1 where none is. */
  readonly theirs: number;
  /** Whether a row that was changed here is. */
  readonly own: boolean;
  /** Whether value or sigma moved by more than rounding; null where neither moved at all, or one is not known. */
  readonly moved: boolean | null;
}

/** `before` and `now`: the traces of the two computations; a row that is gone is under the number of the first alone. */
export function underNumbers(asked: UnderAsked, before: Trace | undefined, now: Trace | undefined): Under[] {
  const reaches = [before, now].flatMap((trace) => (trace === undefined ? [] : [reachOf(trace, asked)]));
  return asked.ids.map((id) => ({
    theirs: Math.max(-1, ...reaches.map(({ theirs }) => theirs(id))),
    own: reaches.some(({ own }) => own(id)),
    moved: hasMoved(nodeOf(before, id), nodeOf(now, id)),
  }));
}

/** Parts are older than what is made of them: one pass over the nodes, whatever is asked. */
function reachOf(trace: Trace, asked: UnderAsked) {
  const places = new Map(asked.theirs.map((row_id, place) => [row_id, place]));
  const ownRows = new Set(asked.own);
  const theirs = new Int32Array(trace.size).fill(-1);
  const own = new Uint8Array(trace.size);
  for (let node = 0; node < trace.size; node++) {
    const row_id = trace.node(node).row?.row_id;
    if (row_id !== undefined) {
      theirs[node] = places.get(row_id) ?? -1;
      own[node] = Number(ownRows.has(row_id));
    }
    for (const part of trace.parts(node)) {
      theirs[node] = Math.max(theirs[node]!, theirs[part]!);
      own[node]! ||= own[part]!;
    }
  }
  return {
    theirs: (id: TraceId): number => theirs[trace.find(id)] ?? -1,
    own: (id: TraceId): boolean => own[trace.find(id)] === 1,
  };
}

function nodeOf(trace: Trace | undefined, id: TraceId): TraceNode | null {
  const node = trace?.find(id) ?? -1;
  return node === -1 ? null : trace!.node(node);
}

const LEAST: Readonly<Record<string, number>> = ROUNDING;

function hasMoved(before: TraceNode | null, now: TraceNode | null): boolean | null {
  if (before === null || now === null) return null;
  if (typeof before.value !== 'number' || typeof now.value !== 'number') return null;
  const [value, sigma] = [now.value - before.value, (now.sigma ?? 0) - (before.sigma ?? 0)].map(Math.abs);
  // Numbers of the rig are read off a fold of all readings, whose own value is another.
  if (value === 0 && sigma === 0) return null;
  const least = LEAST[now.unit] ?? 0;
  return value! >= least || sigma! >= least;
}
