/** Which samples and cores are in the list, by hole, by what they wait for, and by a word. */
import { type Custody, custodyWords } from '@stillstand/campaign/chain';

export const SHOWN = {
  all: 'everything',
  store: 'in store',
  away: 'sent, no result yet',
  lent: 'lent',
  overdue: 'overdue',
  none: 'without an entry',
  discarded: 'discarded',
} as const;
export type Shown = keyof typeof SHOWN;

export const isShown = (text: string): text is Shown => Object.hasOwn(SHOWN, text);

const IS: Readonly<Record<Shown, (of: Custody) => boolean>> = {
  all: () => true,
  store: ({ state }) => state === 'stored' || state === 'result',
  away: ({ waiting }) => waiting !== null,
  lent: ({ loan }) => loan !== null,
  overdue: ({ waiting, loan }) =>
    (waiting?.overdue_days ?? null) !== null || (loan?.overdue_days ?? null) !== null,
  none: ({ state }) => state === 'no entry',
  discarded: ({ state }) => state === 'discarded',
};

/** `hole`: empty for all; `word`: anywhere in its name or in what is said of it. */
export const chosenFrom = (
  all: readonly Custody[],
  { hole, shown, word }: { hole: string; shown: Shown; word: string },
): Custody[] => {
  const wanted = word.trim().toLowerCase();
  return all.filter(
    (of) =>
      (hole === '' || of.hole === hole) &&
      IS[shown](of) &&
      (wanted === '' || `${of.name} ${custodyWords(of)}`.toLowerCase().includes(wanted)),
  );
};
