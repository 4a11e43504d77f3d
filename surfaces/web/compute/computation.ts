/**
 * From the open campaign to its results, beside the page: one worker for everything but the curve, so that it answers
 * at once, one for the curve. An edit makes what they are doing stale; the curve is then given up in mid-run.
 */
import type { Campaign, DocumentTable } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import type { Results, TraceNode } from '@stillstand/campaign/results';
import type { Store } from '../store/index.ts';
import { difference, patched } from './patch.ts';
import type { Answered, Asked } from './protocol.ts';

export interface Computation {
  /** The newest there are; null before the first. */
  readonly results: Results | null;
  readonly campaign: Campaign | null;
  /**
   * `computing`: what is shown is of an older document, or nothing yet. `provisional`: it is of this document, but the
   * curve is missing, old or a first look. `final`: everything, as the command line computes it.
   */
  readonly state: 'computing' | 'provisional' | 'final';
  readonly problems: readonly Problem[];
  /** How far the curve is, 0 to 1; null where none is being computed. */
  readonly progress: number | null;
  /** A number by its id and everything it was made of; empty for an id that names none. */
  trace(id: string): Promise<TraceNode[]>;
}

export interface Computing {
  now(): Computation;
  subscribe(listener: () => void): () => void;
  /** Asks for the curve until what this returns is called; while nobody does, nothing is spent on it. */
  wantCurve(): () => void;
  stop(): void;
}

/** Edits that follow one another so fast are computed once. */
const SETTLE_MS = 30;
/** Ids of numbers only the worker with the curve knows. */
const OF_THE_CURVE = /^(?:curve|interval|level|rate|points used|points by influence|settings\/curve)\b/;

export function computing(store: Store): Computing {
  const listeners = new Set<() => void>();
  const latest = canShare() ? new SharedArrayBuffer(4) : null;
  let edit = 0;
  let wanting = 0;
  let isStopped = false;
  let timer: ReturnType<typeof setTimeout> | null = null;

  const quick = worker(heardQuick);
  let curve: ComputeWorker | null = null;
  let quickResults: Results | null = null;
  let curveResults: Results | null = null;
  let curveEdit = 0;
  let curveStage: 'first look' | 'whole' | null = null;
  let quickEdit = 0;
  let now: Computation = {
    results: null,
    campaign: null,
    state: 'computing',
    problems: store.openingProblems,
    progress: null,
    trace,
  };

  const tell = (change: Partial<Computation>): void => {
    now = { ...now, ...change };
    for (const listener of [...listeners]) listener();
  };
  const unsubscribe = store.subscribe(() => {
    if (store.document() !== quick.sent?.document) schedule();
  });
  schedule(0);

  function schedule(ms = SETTLE_MS): void {
    if (timer !== null) clearTimeout(timer);
    timer = setTimeout(() => {
      timer = null;
      if (!isStopped) start();
    }, ms);
  }

  function start(): void {
    const document = store.document();
    if (document !== quick.sent?.document) {
      edit += 1;
      if (latest !== null) Atomics.store(new Int32Array(latest), 0, edit);
      tell({ state: 'computing' });
      quick.send(document, edit, store.openingProblems, 'none', latest);
    }
    startCurve();
  }

  function startCurve(): void {
    const document = store.document();
    if (wanting === 0 || curve?.sent?.document === document) return;
    if (curve?.isBusy === true && latest === null) {
      // Without shared memory a run cannot hear that it is stale.
      curve.end();
      curve = null;
    }
    curve ??= worker(heardCurve);
    curve.send(document, edit, store.openingProblems, 'first look, then the whole', latest);
  }

  function heardQuick(message: Answered): void {
    if (message.kind === 'parsed' && message.edit === edit) {
      tell({ campaign: quick.campaign });
    } else if (message.kind === 'results' && message.edit === edit) {
      quickResults = quick.results;
      quickEdit = message.edit;
      show();
    }
  }

  function heardCurve(message: Answered): void {
    if (message.kind === 'stale' || ('edit' in message && message.edit !== edit)) return;
    if (message.kind === 'progress') tell({ progress: message.of === 0 ? null : message.done / message.of });
    else if (message.kind === 'results') {
      curveResults = curve?.results ?? null;
      curveEdit = message.edit;
      curveStage = message.stage === 'whole' ? 'whole' : 'first look';
      show();
    }
  }

  /** What is known of this edit: the whole, or everything but the curve with the newest curve there is. */
  function show(): void {
    if (curveEdit === edit && curveStage === 'whole' && curveResults !== null) {
      tell({ results: curveResults, problems: curveResults.problems, state: 'final', progress: null });
    } else if (curveEdit === edit && curveResults !== null) {
      tell({ results: curveResults, problems: curveResults.problems, state: 'provisional' });
    } else if (quickEdit === edit && quickResults !== null) {
      const results = { ...quickResults, curve: curveResults?.curve ?? null };
      tell({ results, problems: quickResults.problems, state: 'provisional', progress: null });
    }
  }

  function trace(id: string): Promise<TraceNode[]> {
    return OF_THE_CURVE.test(id) && curve !== null ? curve.trace(id) : quick.trace(id);
  }

  return {
    now: () => now,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    wantCurve: () => {
      wanting += 1;
      if (!isStopped && timer === null && quick.sent !== null) startCurve();
      return () => {
        wanting -= 1;
      };
    },
    stop: () => {
      isStopped = true;
      if (timer !== null) clearTimeout(timer);
      unsubscribe();
      listeners.clear();
      quick.end();
      curve?.end();
    },
  };
}

/** One worker, and what of the document it has been told. */
interface ComputeWorker {
  readonly sent: { document: ReturnType<Store['document']> } | null;
  readonly isBusy: boolean;
  /** As the worker last told them. */
  readonly campaign: Campaign | null;
  readonly results: Results | null;
  send(
    document: ReturnType<Store['document']>,
    edit: number,
    found: readonly Problem[],
    curve: (Asked & { kind: 'document' })['curve'],
    latest: SharedArrayBuffer | null,
  ): void;
  trace(id: string): Promise<TraceNode[]>;
  end(): void;
}

function worker(heard: (message: Answered) => void): ComputeWorker {
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
    if (message.kind === 'stale' || (message.kind === 'results' && message.stage !== 'first look')) {
      doneEdit = message.edit;
    }
    // Whether or not it is still wanted: the next difference is from here.
    if (message.kind === 'parsed') campaign = patched(campaign, message.campaign) as Campaign;
    if (message.kind === 'results') results = patched(results, message.results) as Results;
    heard(message);
  };
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
      sent = { document };
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
