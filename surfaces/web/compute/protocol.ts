/** What a screen's side and a computing worker say to each other. */
import type { Campaign, DocumentTable, JsonObject } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import type { Results, TraceNode } from '@stillstand/campaign/results';

export type Asked =
  | {
      kind: 'document';
      /** Counts up with every state of the document; answers carry it. */
      edit: number;
      /** Only the tables that changed since the last message; null for one that is gone. */
      changed: [string, DocumentTable | null][];
      package: JsonObject | null;
      found: readonly Problem[];
      curve: 'none' | 'first look, then the whole';
      /** The latest edit, shared: a computation of an older one gives itself up. Null where memory cannot be shared. */
      latest: SharedArrayBuffer | null;
    }
  | { kind: 'trace'; question: number; id: string };

export type Answered =
  | { kind: 'parsed'; edit: number; campaign: Campaign; problems: Problem[] }
  | { kind: 'results'; edit: number; stage: Stage; results: Results }
  | { kind: 'progress'; edit: number; done: number; of: number }
  | { kind: 'stale'; edit: number }
  | { kind: 'trace'; question: number; nodes: TraceNode[] };

/** Everything but the curve; with a first look at it; the whole. */
type Stage = 'without curve' | 'first look' | 'whole';
