/**
 * Which numbers on the page another's change has moved: what was on the page when the change came is remembered, and
 * once the campaign is computed again every number that reads otherwise is asked for its cause. A number that an act of
 * this window is under too, or that only rounded otherwise, is not marked; the next own act clears all marks.
 */
import { type TraceId, traceId } from '@stillstand/campaign/results';
import type { Computing, Under } from '../../compute/index.ts';
import type { Changed, ChangedNumbers, ShownNumber } from '../../parts/index.ts';
import { type Act, actWords, crew as crewHere, type Store, writerWords } from '../../store/index.ts';

/** What the page says of the numbers that others moved. */
export interface Arrivals extends ChangedNumbers {
  /** Marked numbers in the order of the page, and who moved them; the same object until it changes. */
  news(): ArrivalNews | null;
  /** Takes all marks away. */
  dismiss(): void;
  stop(): void;
}

interface ArrivalNews {
  readonly numbers: readonly ShownNumber[];
  /** "driller, tablet B". */
  readonly writers: string;
}

interface Mark extends Changed {
  readonly act: Act;
}

/** What a number said before acts of others came that it is not looked into for yet. */
interface Before {
  readonly key: string;
  readonly text: string;
  readonly theirs: readonly Act[];
}

interface Pending {
  readonly numbers: ReadonlyMap<ShownNumber, Before>;
  /** Own acts that the numbers on the page did not know yet. */
  readonly own: readonly Act[];
}

type Watched = Pick<Store, 'acts' | 'arrived' | 'cellsOf' | 'subscribe'>;
type Computed = Pick<Computing, 'now' | 'subscribe'>;

/** What is around it; another in tests. */
interface Page {
  /** Who writes in this window. */
  crew(): { by: string; device: string };
  /** Calls back once the page shows what was just told. */
  afterDrawn(work: () => void): void;
  /** As a number reads, its parts apart. */
  textOf(shown: ShownNumber): string;
}

export function arrivals(
  store: Watched,
  computing: Computed,
  { crew, afterDrawn, textOf }: Page = thisPage,
): Arrivals {
  const listeners = new Set<() => void>();
  const shown = new Set<ShownNumber>();
  const marks = new Map<ShownNumber, Mark>();
  let pending: Pending | null = null;
  let looked: { id: TraceId; changed: Changed } | null = null;
  let news: ArrivalNews | null = null;
  let acts = store.acts();
  let arrived = store.arrived();
  /** Own acts since numbers on the page were last computed: of all, and of those that need the curve. */
  let ownSince: { plain: readonly Act[]; curve: readonly Act[] } = { plain: [], curve: [] };

  const tell = (): void => {
    const numbers = [...marks.keys()].sort(inOrder);
    const writers = new Set([...marks.values()].map(({ act }) => writer(act)));
    news = numbers.length === 0 ? null : { numbers, writers: [...writers].join(' and ') };
    for (const listener of [...listeners]) listener();
  };
  const writer = (act: Act): string => {
    const { by, device } = crew();
    return act.by === by && act.device === device ? `${writerWords(act)}, another window` : writerWords(act);
  };
  const clear = (): void => {
    pending = null;
    if (marks.size === 0) return;
    marks.clear();
    tell();
  };

  const heard = (): void => {
    if (store.acts() === acts) return;
    const added = addedTo(acts, store.acts());
    acts = store.acts();
    const theirs = added.filter(({ id }) => store.arrived().has(id) && !arrived.has(id));
    arrived = store.arrived();
    const own = added.filter((act) => !theirs.includes(act) && act.how !== 'repaired');
    if (own.length > 0) {
      ownSince = { plain: [...ownSince.plain, ...own], curve: [...ownSince.curve, ...own] };
      clear();
    }
    if (theirs.length === 0) return;
    const numbers = new Map<ShownNumber, Before>();
    for (const number of shown) {
      const key = keyOf(number);
      const before = pending?.numbers.get(number);
      const text = before?.key === key ? before.text : (marks.get(number)?.was ?? textOf(number));
      numbers.set(number, { key, text, theirs: [...(before?.theirs ?? []), ...theirs] });
    }
    pending = { numbers, own: ownSince.plain };
  };

  const computed = (): void => {
    const { state } = computing.now();
    if (state !== 'provisional' && state !== 'final') return;
    const isWhole = state === 'final';
    const own = ownSince;
    ownSince = { plain: [], curve: isWhole ? [] : own.curve };
    if (pending !== null) afterDrawn(() => void lookInto(isWhole, own.curve));
  };

  /** Numbers of the curve are looked into once it is whole: a look at it is made of other draws each time. */
  async function lookInto(isWhole: boolean, ownOfCurve: readonly Act[]): Promise<void> {
    const looking = pending;
    if (looking === null) return;
    const ready = [...looking.numbers].filter(([number]) => isWhole || !isOfCurve(number.id));
    const changed = ready.filter(
      ([number, { key, text }]) => shown.has(number) && key === keyOf(number) && textOf(number) !== text,
    );
    const theirs = [...new Set(changed.flatMap(([, before]) => before.theirs))];
    const rows = theirs.flatMap((act) => rowsOf(act).map((row_id) => ({ act, row_id })));
    const own = [...looking.own, ...ownOfCurve];
    const found = await computing.now().under({
      ids: changed.map(([{ id }]) => id),
      theirs: rows.map(({ row_id }) => row_id),
      own: own.flatMap(rowsOf),
    });
    // An own act, or another arrival, while it was asked.
    if (pending !== looking) return;
    for (const [i, [number, before]] of changed.entries()) {
      const under = found[i];
      const act = under === undefined || under.own ? null : causeOf(under, rows, before, own.length > 0);
      if (act !== null) marks.set(number, { act, was: before.text, until: untilWords(act) });
    }
    const waiting = [...looking.numbers].filter((entry) => !ready.includes(entry));
    pending = waiting.length === 0 ? null : { ...looking, numbers: new Map(waiting) };
    tell();
  }

  const rowsOf = ({ changes }: Act): string[] =>
    changes.flatMap(({ table, row_id }) => {
      const { amends = '' } = store.cellsOf(table, row_id);
      return amends === '' ? [row_id] : [row_id, amends.trim()];
    });
  /** Null where no act of others moved it. */
  function causeOf(
    { theirs, moved }: Under,
    rows: readonly { act: Act }[],
    before: Before,
    hasOwn: boolean,
  ): Act | null {
    const under = rows[theirs]?.act;
    if (moved === false) return null;
    if (under !== undefined && before.theirs.includes(under)) return under;
    // Nothing but what came can have moved it, though its row is under no number: a setting, or a row that is gone.
    return moved === true && !hasOwn ? before.theirs.at(-1)! : null;
  }
  const untilWords = (act: Act): string => {
    const words = actWords(act, store.cellsOf);
    return words.startsWith(writerWords(act)) ? writer(act) + words.slice(writerWords(act).length) : words;
  };

  const stops = [store.subscribe(heard), computing.subscribe(computed)];
  return {
    watch: (number) => {
      shown.add(number);
      return () => {
        shown.delete(number);
        if (marks.delete(number)) tell();
      };
    },
    of: (number) => marks.get(number) ?? null,
    look: (number) => {
      const changed = marks.get(number) ?? null;
      looked = changed === null ? null : { id: number.id, changed };
      if (marks.delete(number)) tell();
    },
    looked: (id) => (looked?.id === id ? looked.changed : null),
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    news: () => news,
    dismiss: clear,
    stop: () => {
      for (const stop of stops) stop();
    },
  };
}

/** Most often at the end; what another device did long ago comes between. */
function addedTo(before: readonly Act[], now: readonly Act[]): readonly Act[] {
  if (before.length === 0 || now[before.length - 1] === before.at(-1)) return now.slice(before.length);
  const known = new Set(before.map(({ id }) => id));
  return now.filter(({ id }) => !known.has(id));
}

/** The name without the number of the reading it was taken after: the same place on the page, one reading later. */
const keyOf = ({ id }: ShownNumber): string => id.replace(/@[\d.]+$/, '');

const isOfCurve = (id: TraceId): boolean => traceId.seenFrom('any', id) !== id || id.startsWith('curve:');

const thisPage: Page = {
  crew: crewHere,
  afterDrawn: (work) => requestAnimationFrame(() => setTimeout(work)),
  textOf: ({ element }) => {
    if (element === null) return '';
    const parts: string[] = [];
    const texts = document.createTreeWalker(element, NodeFilter.SHOW_TEXT);
    while (texts.nextNode()) parts.push(texts.currentNode.textContent ?? '');
    return parts.join(' ').replace(/\s+/g, ' ').replace('± ', '±').trim();
  },
};

const inOrder = ({ element: a }: ShownNumber, { element: b }: ShownNumber): number =>
  a !== null && b !== null && a.compareDocumentPosition(b) & Node.DOCUMENT_POSITION_FOLLOWING ? -1 : 1;
