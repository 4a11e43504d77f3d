/** What the page, the worker of the campaign and the worker of its long steps say to each other. */
import type { JsonObject } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import type { TraceId, TraceNode } from '@stillstand/campaign/results';
import type { LongJob } from '@stillstand/campaign/steps';
import type { AnsweredQuestion, NoAnswer, Question } from '@stillstand/science/curve';
import type { Patch } from './patch.ts';
import type { Under, UnderAsked } from './under.ts';

export type Asked =
  | {
      kind: 'document';
      /** Counts up with every state of the document; answers carry it. */
      edit: number;
      /** Of the tables (name to `DocumentTable`), since the last message. */
      tables: Patch;
      package: JsonObject | null;
      found: readonly Problem[];
      /** Whether the curve is wanted, and ages against depth. */
      withCurve: boolean;
      /** The latest edit, shared: a computation of an older one gives itself up. Null where memory cannot be shared. */
      latest: SharedArrayBuffer | null;
      /** Changes of others have come with it: what was computed before is kept, to say which numbers they moved. */
      arrived: boolean;
      /** The hole whose ages are looked at: they are computed before those of others, and before any look at the curve. */
      first: string | null;
    }
  | ({ kind: 'under'; question: number } & UnderAsked)
  | { kind: 'trace'; question: number; id: TraceId }
  /** To the curve of that name. */
  | { kind: 'answer'; question: number; to: Question; curve: string };

export type Answered =
  /** Of the parsed campaign and of the results, since the last such message. */
  | { kind: 'results'; edit: number; stage: Stage; campaign: Patch; results: Patch }
  /** Of the curves, and of the ages of the hole, or the holes together, being computed; null where none are. */
  | { kind: 'progress'; edit: number; share: number | null; ages: AgesProgress | null }
  | { kind: 'trace'; question: number; nodes: TraceNode[] }
  | { kind: 'under'; question: number; found: Under[] }
  /** Null where there is no curve. */
  | { kind: 'answer'; question: number; answer: AnsweredQuestion | NoAnswer | null };

export interface AgesProgress {
  /** More than one where their dates share errors: they are computed together. */
  readonly holes: readonly string[];
  /** 0 to 1. */
  readonly share: number;
}

/** Everything but the curve; with a curve to look at, to be followed by a better one or not; the whole. */
export type Stage = 'without curve' | 'a look' | 'whole';

/** A long step to be done. `stop` is shared: the job gives itself up once it is no longer `turn` there. */
export interface LongAsked {
  turn: number;
  job: LongJob;
  stop: SharedArrayBuffer | null;
}

export type LongAnswered =
  | { kind: 'progress'; turn: number; done: number; of: number }
  | { kind: 'done'; turn: number; value: unknown }
  | { kind: 'given up'; turn: number };
