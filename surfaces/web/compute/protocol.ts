/** What a screen's side and a computing worker say to each other. */
import type { JsonObject } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import type { TraceNode } from '@stillstand/campaign/results';
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
      curve: 'none' | 'first look, then the whole';
      /** The latest edit, shared: a computation of an older one gives itself up. Null where memory cannot be shared. */
      latest: SharedArrayBuffer | null;
    }
  | { kind: 'trace'; question: number; id: string };

export type Answered =
  /** Of the parsed campaign, since the last such message. */
  | { kind: 'parsed'; edit: number; campaign: Patch }
  /** Of the results, since the last such message. */
  | { kind: 'results'; edit: number; stage: Stage; results: Patch }
  | { kind: 'progress'; edit: number; done: number; of: number }
  | { kind: 'stale'; edit: number }
  | { kind: 'trace'; question: number; nodes: TraceNode[] };

/** Everything but the curve; with a first look at it; the whole. */
type Stage = 'without curve' | 'first look' | 'whole';
