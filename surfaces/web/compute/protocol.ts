/** What a screen's side and a computing worker say to each other. */
import type { JsonObject } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import type { TraceId, TraceNode } from '@stillstand/campaign/results';
import type { Patch } from './patch.ts';

export type Asked =
  | {
      kind: 'document';
      /** Counts up with every state of the document; answers carry it. */
      edit: number;
      /** Of the tables (name to `DocumentTable`), since the last message. */
      tables: Patch;
      package: JsonObject | null;
      found: readonly Problem[];
      curve: 'none' | 'looks' | 'whole';
      /** The latest edit, shared: a computation of an older one gives itself up. Null where memory cannot be shared. */
      latest: SharedArrayBuffer | null;
    }
  | { kind: 'trace'; question: number; id: TraceId };

export type Answered =
  /** Of the parsed campaign and of the results, since the last such message. */
  | { kind: 'results'; edit: number; stage: Stage; campaign: Patch; results: Patch }
  | { kind: 'progress'; edit: number; done: number; of: number }
  /** Finished with this edit, or given it up. */
  | { kind: 'done'; edit: number }
  | { kind: 'trace'; question: number; nodes: TraceNode[] };

/** Everything but the curve; with a curve to look at, to be followed by a better one or not; the whole. */
export type Stage = 'without curve' | 'a look' | 'whole';
