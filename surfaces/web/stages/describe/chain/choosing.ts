/** Which samples and cores are in the list, by hole, by what they wait for, and by a word. */
import { type Custody, custodyWords, overdueDays } from '@stillstand/campaign/chain';

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
  overdue: (of) => overdueDays(of) !== null,
  none: ({ state }) => state === 'no entry',
  discarded: ({ state }) => state === 'discarded',
};

/** All that may be looked for: also the parcel it went in once, and the box it lay in before. */
const wordsOf = (of: Custody): string =>
  [
    of.name,
    custodyWords(of),
    ...of.entries.flatMap((entry) => [
      entry.laboratory,
      entry.submission,
      entry.place,
      entry.shelf,
      entry.box,
    ]),
  ]
    .join(' ')
    .toLowerCase();

/** `hole`: empty for all; `word`: anywhere in its name, in what is said of it, or in where it ever was. */
export const chosenFrom = (
  all: readonly Custody[],
  { hole, shown, word }: { hole: string; shown: Shown; word: string },
): Custody[] => {
  const wanted = word.trim().toLowerCase();
  return all.filter(
    (of) =>
      (hole === '' || of.hole === hole) && IS[shown](of) && (wanted === '' || wordsOf(of).includes(wanted)),
  );
};
