/** Where a thing is, in a line: "sent to Quay Laboratory, parcel P1, on 2026-03-02, waiting 34 days, due 2026-05-01". */
import { thousands } from '@stillstand/science/base';
import type { Away, Custody } from './custody.ts';
import { dayOf, type Entry } from './entries.ts';

const days = (n: number): string => `${thousands(n)} ${n === 1 ? 'day' : 'days'}`;
const joined = (parts: readonly (string | false | null)[]): string =>
  parts.filter((part) => part !== null && part !== false && part !== '').join(', ');

/** What is said first of a thing, in lists and at its head. */
export function custodyWords(custody: Custody): string {
  const { state, waiting, loan, last, results, isDisputed } = custody;
  const said = {
    discarded: () => joined(['discarded', on(last, 'discarded', custody)]),
    lent: () => awayWords('lent to', loan!),
    sent: () => awayWords('sent to', waiting!),
    arrived: () => awayWords('arrived at', waiting!),
    result: () => joined([`result received${resultWords(results)}`, placeWords(custody)]),
    stored: () => joined(['in store', placeWords(custody)]),
    'no entry': () => 'no entry yet',
  }[state]();
  return isDisputed ? `${said} (an entry cannot be used: see the problems)` : said;
}

/** "Cold room, shelf 3, box 12": where it is, or what is left of it; empty where no place is stated. */
export const placeWords = ({ place, shelf, box }: Pick<Custody, 'place' | 'shelf' | 'box'>): string =>
  joined([place, named('shelf', shelf), named('box', box)]);

/** "shelf 3", and "Rack B" where the word is in it already. */
const named = (word: string, label: string | null): string | null =>
  label === null || /^(?:shelf|rack|box|case)\b/i.test(label) ? label : `${word} ${label}`;

function on(last: Entry | null, action: Entry['action'], { entries }: Custody): string | null {
  const entry = last?.action === action ? last : entries.findLast((each) => each.action === action);
  const day = entry === undefined ? null : dayOf(entry);
  return day === null ? null : `on ${day}`;
}

function awayWords(verb: string, { laboratory, submission, since, days: n, ...away }: Away): string {
  return joined([
    `${verb} ${laboratory ?? (verb === 'lent to' ? 'a borrower not named' : 'a laboratory not named')}`,
    submission === null ? null : `parcel ${submission}`,
    since === null ? null : `on ${since}`,
    verb !== 'lent to' && n !== null && n > 0 && `waiting ${days(n)}`,
    dueWords(verb === 'lent to' ? 'due back' : 'due', away),
  ]);
}

/** "due 2026-05-01", "due about 2026-05-01", "overdue by 3 days (due 2026-05-01)". */
function dueWords(
  word: string,
  { due, due_from, overdue_days }: Pick<Away, 'due' | 'due_from' | 'overdue_days'>,
) {
  if (due === null) return null;
  const at = `${due_from === 'usual' ? 'about ' : ''}${due}`;
  return overdue_days === null ? `${word} ${at}` : `overdue by ${days(overdue_days)} (${word} ${at})`;
}

const resultWords = ({ lab_codes, properties }: Custody['results']): string => {
  const named = lab_codes.length > 0 ? lab_codes : properties;
  return named.length === 0
    ? ''
    : `: ${named.slice(0, 3).join(', ')}${named.length > 3 ? ` and ${named.length - 3} more` : ''}`;
};
