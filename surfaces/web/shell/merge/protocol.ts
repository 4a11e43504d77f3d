/** What the page and the worker of a merge say to each other. */
import type { Decisions, MergePlan } from '@stillstand/campaign/merge';

export type Asked =
  | {
      kind: 'plan';
      zip: Blob;
      /** The campaign here, as one Yjs update. */
      state: Uint8Array;
      /** Its photos and other files: bytes by path. */
      files: ReadonlyMap<string, number>;
    }
  | {
      kind: 'merge';
      /** As it is now: it may have changed since the plan. */
      state: Uint8Array;
      files: ReadonlyMap<string, number>;
      decisions: Decisions;
      crew: { by: string; device: string };
    };

export type Answered =
  | { kind: 'plan'; plan: MergePlan }
  | { kind: 'merged'; update: Uint8Array; files: ReadonlyMap<string, Uint8Array>; plan: MergePlan }
  /** A file that was moved meanwhile, or a fault of the program. */
  | { kind: 'failed'; why: string };
