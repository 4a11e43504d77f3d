/**
 * From the open campaign to its results, beside the page: one worker for everything but the curve and for looks at it, so
 * that it answers at once, one for the whole curve. An edit makes what they are doing stale; it is then given up in
 * mid-run.
 */
import type { Campaign, DocumentTable } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import { curveOf, type Results, type TraceId, type TraceNode, withCurve } from '@stillstand/campaign/results';
import type { CurveResult } from '@stillstand/science/curve';
import type { Store } from '../store/index.ts';
import { difference, patched } from './patch.ts';
import type { Answered, Asked } from './protocol.ts';

export interface Computation {
  /** The newest there are; null before the first. */
  readonly results: Results | null;
  readonly campaign: Campaign | null;
  /**
   * `computing`: what is shown is of an older document, or nothing yet. `provisional`: it is of this document, but the
   * curve is missing, old or a look. `final`: everything, as the command line computes it. `failed`: the computation
   * stopped by a fault of the program; what is shown is from before. The next edit, or `again`, begins anew.
   */
  readonly state: 'computing' | 'provisional' | 'final' | 'failed';
  /** Whether the curve that is shown is a look at it: of this document, of few draws. */
  readonly isLook: boolean;
  /** What the program said when it stopped; null unless `failed`. */
  readonly failure: string | null;
  readonly problems: readonly Problem[];
  /** A number by its id and everything it was made of; empty for an id that names none. */
  trace(id: TraceId): Promise<TraceNode[]>;
  /** Computes again after a fault. */
  again(): void;
}

export interface Computing {
  now(): Computation;
  subscribe(listener: () => void): () => void;
  /** How far the curve is, 0 to 1; null where none is being computed. Apart, because it changes many times. */
  progress(): number | null;
  subscribeToProgress(listener: () => void): () => void;
  /** Asks for the curve until what this returns is called; while nobody does, nothing is spent on it. */
  wantCurve(): () => void;
  stop(): void;
}

export function computing(store: Store): Computing {
  const listeners = new Set<() => void>();
  const progressListeners = new Set<() => void>();
  const latest = canShare() ? new SharedArrayBuffer(4) : null;
  let edit = 0;
  /** The document of that edit. */
  let asked: ReturnType<Store['document']> | null = null;
  let wanting = 0;
  let isStopped = false;
  let isStarting = false;

  let quick: ComputeWorker | null = null;
  let whole: ComputeWorker | null = null;
  /** Of the newest whole curve; and the newest curve, be it a look. */
  let wholeEdit = 0;
  let curve: CurveResult | null = null;
  /** Of the newest whole: it comes with no look, and stays in its place till the next. */
  let histories: Results['histories'] = [];
  let progress: number | null = null;
  let now: Computation = {
    results: null,
    campaign: null,
    state: 'computing',
    isLook: false,
    failure: null,
    problems: store.openingProblems,
    trace,
    again: start,
  };

  const tell = (change: Partial<Computation>): void => {
    now = { ...now, ...change };
    for (const listener of [...listeners]) listener();
  };
  const tellProgress = (share: number | null): void => {
    if (share === progress) return;
    progress = share;
    for (const listener of [...progressListeners]) listener();
  };
  // Edits made in one go are computed once, and at once.
  const startSoon = (): void => {
    if (isStarting || store.document() === asked) return;
    isStarting = true;
    queueMicrotask(start);
  };
  const unsubscribe = store.subscribe(startSoon);
  startSoon();

  function start(): void {
    isStarting = false;
    if (isStopped) return;
    const document = store.document();
    const isNew = document !== quick?.sent?.document;
    if (isNew) {
      edit += 1;
      asked = document;
      if (latest !== null) Atomics.store(new Int32Array(latest), 0, edit);
    }
    const isLooking = !isNew && quick?.sent?.curve === 'looks';
    if (isLooking) startWhole();
    if (isLooking || (!isNew && wanting === 0)) return;
    quick ??= worker(heardQuick, failed);
    quick.send(document, edit, store.openingProblems, wanting > 0 ? 'looks' : 'none', latest);
    if (!isNew) return;
    tell({ state: 'computing', failure: null });
    tellProgress(null);
  }

  /** The whole curve, once the looks at it are done: until they are drawn nothing else keeps the machine busy. */
  function startWhole(): void {
    const document = store.document();
    if (wanting === 0 || quick?.isBusy !== false || quick.sent?.curve !== 'looks') return;
    if (document !== quick?.sent?.document || whole?.sent?.document === document) return;
    if (whole?.isBusy === true && latest === null) {
      // Without shared memory a run cannot hear that it is stale.
      whole.end();
      whole = null;
    }
    whole ??= worker(heardWhole, failed);
    whole.send(document, edit, store.openingProblems, 'whole', latest);
  }

  function heardQuick(message: Answered): void {
    if (!('edit' in message) || message.edit !== edit || quick?.results == null) return;
    if (message.kind === 'done') startWhole();
    if (message.kind !== 'results') return;
    const { campaign, results } = quick;
    const isLook = message.stage === 'a look';
    // The whole may have come first.
    if (wholeEdit === edit) return;
    if (isLook) curve = curveOf(results);
    tell({
      results: { ...withCurve(results, curve), histories },
      campaign,
      problems: results.problems,
      state: 'provisional',
      isLook,
    });
  }

  function heardWhole(message: Answered): void {
    if (!('edit' in message) || message.edit !== edit || whole?.results == null) return;
    if (message.kind === 'progress') tellProgress(message.of === 0 ? null : message.done / message.of);
    if (message.kind !== 'results') return;
    const { results } = whole;
    wholeEdit = edit;
    curve = curveOf(results);
    histories = results.histories;
    tell({ results, problems: results.problems, state: 'final', isLook: false });
    tellProgress(null);
  }

  function failed(message: string): void {
    quick?.end();
    whole?.end();
    quick = null;
    whole = null;
    tell({ state: 'failed', failure: message });
    tellProgress(null);
  }

  /** The quick worker answers at once; numbers of the curve are known to the other, once it has computed them. */
  async function trace(id: TraceId): Promise<TraceNode[]> {
    const found = (await quick?.trace(id)) ?? [];
    if (found.length > 0 || whole?.sent?.document !== store.document()) return found;
    return whole.trace(id);
  }

  return {
    now: () => now,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    progress: () => progress,
    subscribeToProgress: (listener) => {
      progressListeners.add(listener);
      return () => progressListeners.delete(listener);
    },
    wantCurve: () => {
      wanting += 1;
      if (now.state !== 'failed') start();
      return () => {
        wanting -= 1;
      };
    },
    stop: () => {
      isStopped = true;
      unsubscribe();
      listeners.clear();
      progressListeners.clear();
      quick?.end();
      whole?.end();
    },
  };
}

type Wanted = (Asked & { kind: 'document' })['curve'];

/** One worker, and what of the document it has been told. */
interface ComputeWorker {
  readonly sent: { document: ReturnType<Store['document']>; curve: Wanted } | null;
  readonly isBusy: boolean;
  /** As the worker last told them. */
  readonly campaign: Campaign | null;
  readonly results: Results | null;
  send(
    document: ReturnType<Store['document']>,
    edit: number,
    found: readonly Problem[],
    curve: Wanted,
    latest: SharedArrayBuffer | null,
  ): void;
  trace(id: TraceId): Promise<TraceNode[]>;
  end(): void;
}

function worker(heard: (message: Answered) => void, failed: (message: string) => void): ComputeWorker {
  const thread = new Worker(new URL('./compute.worker.ts', import.meta.url), { type: 'module' });
  let told: Record<string, DocumentTable> = {};
  let campaign: Campaign | null = null;
  let results: Results | null = null;
  const questions = new Map<number, (nodes: TraceNode[]) => void>();
  let question = 0;
  let sent: ComputeWorker['sent'] = null;
  let sentEdit = 0;
  let doneEdit = 0;
  thread.onmessage = (event: MessageEvent<Answered>) => {
    const message = event.data;
    if (message.kind === 'trace') {
      questions.get(message.question)?.(message.nodes);
      questions.delete(message.question);
      return;
    }
    if (message.kind === 'done') doneEdit = message.edit;
    // Whether or not it is still wanted: the next difference is from here.
    if (message.kind === 'results') {
      campaign = patched(campaign, message.campaign) as Campaign;
      results = patched(results, message.results) as Results;
    }
    heard(message);
  };
  thread.onerror = ({ message }: { message?: string }) =>
    failed(message?.replace(/^Uncaught /, '') ?? 'a part of it could not be loaded');
  return {
    get campaign() {
      return campaign;
    },
    get results() {
      return results;
    },
    get sent() {
      return sent;
    },
    get isBusy() {
      return doneEdit !== sentEdit;
    },
    send: (document, edit, found, curve, latest) => {
      // The bytes as read are of no use to a computation, and a table that did not change is the object it was.
      const tables = Object.fromEntries(
        [...document.tables].map(([name, table]) => [name, withoutSource(table)]),
      );
      const patch = difference(told, tables);
      told = tables;
      sent = { document, curve };
      sentEdit = edit;
      const asked: Asked = {
        kind: 'document',
        edit,
        tables: patch,
        package: document.package,
        found,
        curve,
        latest,
      };
      thread.postMessage(asked);
    },
    trace: (id) =>
      new Promise((resolve) => {
        question += 1;
        questions.set(question, resolve);
        thread.postMessage({ kind: 'trace', question, id } satisfies Asked);
      }),
    end: () => {
      thread.terminate();
      for (const resolve of questions.values()) resolve([]);
      questions.clear();
    },
  };
}

/** One such object for each table, so that unchanged tables are seen to be unchanged. */
const bare = new WeakMap<DocumentTable, DocumentTable>();
function withoutSource(table: DocumentTable): DocumentTable {
  const known = bare.get(table) ?? { ...table, source: null };
  bare.set(table, known);
  return known;
}

const canShare = (): boolean =>
  globalThis.crossOriginIsolated === true && typeof SharedArrayBuffer === 'function';
