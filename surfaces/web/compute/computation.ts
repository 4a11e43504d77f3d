/**
 * From the open campaign to its results, with the page: one worker parses and computes, and has its long steps done by
 * others. An edit makes what they are doing stale; it is then given up in mid-run.
 */
import type { Campaign, DocumentTable } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import {
  curveOf,
  type Results,
  type TraceId,
  type TraceNode,
  withCurve,
  withOlderCurves,
} from '@stillstand/campaign/results';
import type { AnsweredQuestion, CurveResult, NoAnswer, Question } from '@stillstand/science/curve';
import type { Store } from '../store/index.ts';
import { canShare } from './can-share.ts';
import { difference, patched } from './patch.ts';
import type { AgesProgress, Answered, Asked } from './protocol.ts';
import type { Under, UnderAsked } from './under.ts';

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
  /** Holes whose ages against depth are shown as they were before the last change, until the new ones are there. */
  readonly formerAges: ReadonlySet<string>;
  /** What the program said when it stopped; null unless `failed`. */
  readonly failure: string | null;
  readonly problems: readonly Problem[];
  /** A number by its id and everything it was made of; empty for an id that names none. */
  trace(id: TraceId): Promise<TraceNode[]>;
  /** The answer of the newest curve of that name; null where there is none. The draws are many, so the page does not go through them. */
  answer(to: Question, curve: string): Promise<AnsweredQuestion | NoAnswer | null>;
  /** What changes of others are under some numbers, and whether they moved them since they came. */
  under(asked: UnderAsked): Promise<readonly Under[]>;
  /** Computes again after a fault. */
  again(): void;
}

const NONE: ReadonlySet<string> = new Set();

export interface Computing {
  now(): Computation;
  subscribe(listener: () => void): () => void;
  /** How far the curve is, 0 to 1; null where none is being computed. Apart, because it changes many times. */
  progress(): number | null;
  /** How far the ages of a hole are; null while none are computed. */
  agesProgress(): AgesProgress | null;
  subscribeToProgress(listener: () => void): () => void;
  /** Asks for the curve until what this returns is called; while nobody does, nothing is spent on it. */
  wantCurve(): () => void;
  /** The same, and first of all the ages against depth of a hole. */
  wantAges(hole: string): () => void;
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
  let first: string | null = null;
  let isStopped = false;
  let isStarting = false;

  /** Acts of others that the worker has heard of. */
  let arrived = store.arrived();

  let worker: ComputeWorker | null = null;
  /** The newest curve of the report, be it a look; and what comes with the whole alone, as it last came. */
  let curve: CurveResult | null = null;
  let curves: ReadonlyMap<string, CurveResult | null> = new Map();
  let histories: Results['histories'] = [];
  let progress: number | null = null;
  let ages: AgesProgress | null = null;
  let now: Computation = {
    results: null,
    campaign: null,
    state: 'computing',
    isLook: false,
    formerAges: NONE,
    failure: null,
    problems: store.openingProblems,
    trace,
    answer,
    under,
    again: start,
  };

  const tell = (change: Partial<Computation>): void => {
    now = { ...now, ...change };
    for (const listener of [...listeners]) listener();
  };
  const tellProgress = (share: number | null, ofAges: AgesProgress | null = null): void => {
    if (share === progress && ofAges === ages) return;
    progress = share;
    ages = ofAges;
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
    const isWanted = wanting > 0;
    const isNew = document !== worker?.sent?.document;
    if (!isNew && (!isWanted || isAskedAlready())) return;
    if (isNew) {
      edit += 1;
      asked = document;
      if (latest !== null) Atomics.store(new Int32Array(latest), 0, edit);
    }
    worker ??= startWorker(heard, failed);
    const isArrival = store.arrived() !== arrived;
    arrived = store.arrived();
    worker.send({
      document,
      edit,
      found: store.openingProblems,
      withCurve: isWanted,
      latest,
      arrived: isArrival,
      first,
    });
    if (!isNew) return;
    tell({ state: 'computing', failure: null });
    tellProgress(null);
  }

  function isAskedAlready(): boolean {
    if (worker?.sent?.withCurve !== true) return false;
    return worker.sent.first === first || now.state === 'final';
  }

  function heard(message: Answered): void {
    if (!('edit' in message) || message.edit !== edit || worker?.results == null) return;
    if (message.kind === 'progress') tellProgress(message.share, message.ages);
    if (message.kind !== 'results') return;
    const { campaign, results } = worker;
    const { problems } = results;
    if (message.stage === 'whole') {
      curve = curveOf(results);
      curves = new Map(results.curves.map((each) => [each.id, each.curve]));
      histories = results.histories;
      tell({ results, campaign, problems, state: 'final', isLook: false, formerAges: NONE });
      tellProgress(null);
      return;
    }
    const isLook = message.stage === 'a look';
    if (isLook) curve = curveOf(results);
    const newAges = new Set(results.histories.map(({ hole }) => hole));
    const former = histories.filter(({ hole }) => !newAges.has(hole));
    histories = [...results.histories, ...former];
    tell({
      results: { ...withOlderCurves(withCurve(results, curve), curves), histories },
      formerAges: new Set(former.map(({ hole }) => hole)),
      campaign,
      problems,
      state: 'provisional',
      isLook,
    });
  }

  function failed(message: string): void {
    worker?.end();
    worker = null;
    tell({ state: 'failed', failure: message });
    tellProgress(null);
  }

  /** None while there is no worker: the panel says so. */
  async function trace(id: TraceId): Promise<TraceNode[]> {
    return (await worker?.trace(id)) ?? [];
  }

  async function under(asked: UnderAsked): Promise<readonly Under[]> {
    return (await worker?.under(asked)) ?? [];
  }

  async function answer(to: Question, of: string): Promise<AnsweredQuestion | NoAnswer | null> {
    return (await worker?.answer(to, of)) ?? null;
  }

  return {
    now: () => now,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    progress: () => progress,
    agesProgress: () => ages,
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
    wantAges: (hole) => {
      wanting += 1;
      first = hole;
      if (now.state !== 'failed') start();
      return () => {
        wanting -= 1;
        first = null;
      };
    },
    stop: () => {
      isStopped = true;
      unsubscribe();
      listeners.clear();
      progressListeners.clear();
      worker?.end();
    },
  };
}

type Reply = Extract<Answered, { question: number }>;

interface Sent {
  document: ReturnType<Store['document']>;
  edit: number;
  found: readonly Problem[];
  withCurve: boolean;
  latest: SharedArrayBuffer | null;
  arrived: boolean;
  first: string | null;
}

/** The worker, and what of the document it has been told. */
interface ComputeWorker {
  readonly sent: Sent | null;
  /** As the worker last told them. */
  readonly campaign: Campaign | null;
  readonly results: Results | null;
  send(what: Sent): void;
  trace(id: TraceId): Promise<TraceNode[]>;
  answer(to: Question, curve: string): Promise<AnsweredQuestion | NoAnswer | null>;
  under(asked: UnderAsked): Promise<readonly Under[]>;
  end(): void;
}

function startWorker(heard: (message: Answered) => void, failed: (message: string) => void): ComputeWorker {
  const thread = new Worker(new URL('./compute.worker.ts', import.meta.url), { type: 'module' });
  let told: Record<string, DocumentTable> = {};
  let campaign: Campaign | null = null;
  let results: Results | null = null;
  /** Null: the worker ended before it replied. */
  const questions = new Map<number, (reply: Reply | null) => void>();
  let question = 0;
  const ask = (
    about:
      | { kind: 'trace'; id: TraceId }
      | { kind: 'answer'; to: Question; curve: string }
      | ({ kind: 'under' } & UnderAsked),
  ) =>
    new Promise<Reply | null>((resolve) => {
      question += 1;
      questions.set(question, resolve);
      thread.postMessage({ ...about, question } satisfies Asked);
    });
  let sent: ComputeWorker['sent'] = null;
  thread.onmessage = (event: MessageEvent<Answered>) => {
    const message = event.data;
    if ('question' in message) {
      questions.get(message.question)?.(message);
      questions.delete(message.question);
      return;
    }
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
    send: (what) => {
      const { document, edit, found, withCurve, latest, arrived, first } = what;
      // The bytes as read are of no use to a computation, and a table that did not change is the object it was.
      const tables = Object.fromEntries(
        [...document.tables].map(([name, table]) => [name, withoutSource(table)]),
      );
      const patch = difference(told, tables);
      told = tables;
      sent = what;
      const asked: Asked = {
        kind: 'document',
        edit,
        tables: patch,
        package: document.package,
        found,
        withCurve,
        latest,
        arrived,
        first,
      };
      thread.postMessage(asked);
    },
    trace: async (id) => {
      const reply = await ask({ kind: 'trace', id });
      return reply?.kind === 'trace' ? reply.nodes : [];
    },
    answer: async (to, curve) => {
      const reply = await ask({ kind: 'answer', to, curve });
      return reply?.kind === 'answer' ? reply.answer : null;
    },
    under: async (asked) => {
      const reply = await ask({ kind: 'under', ...asked });
      return reply?.kind === 'under' ? reply.found : [];
    },
    end: () => {
      thread.terminate();
      for (const resolve of questions.values()) resolve(null);
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
