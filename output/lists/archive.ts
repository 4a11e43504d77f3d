/** Everything that is kept: where each core and sample lies, what is left of it, and who has it until when. */
import {
  type Away,
  type Custody,
  type CustodyState,
  costsWords,
  custodyOf,
  custodyWords,
  dayOf,
  overdueDays,
} from '@stillstand/campaign/chain';
import type { Campaign } from '@stillstand/campaign/document';
import { labelCode } from '@stillstand/campaign/tables';
import { counted, printed } from '@stillstand/output/words';
import type { List, ListColumn } from './list.ts';

/** Which of them: all, those away from the store, or those on loan. */
export const ARCHIVE_PARTS = ['all', 'away', 'loans'] as const;
export type ArchivePart = (typeof ARCHIVE_PARTS)[number];

const AWAY: readonly CustodyState[] = ['sent', 'arrived', 'lent'];
const IN_PART: Readonly<Record<ArchivePart, (custody: Custody) => boolean>> = {
  all: () => true,
  away: ({ state, loan }) => AWAY.includes(state) || loan !== null,
  loans: ({ loan }) => loan !== null,
};
const TITLES: Readonly<Record<ArchivePart, string>> = {
  all: 'Archive list',
  away: 'Sent and lent',
  loans: 'Loans',
};

/** A list, with how many of what it lists are overdue. */
interface ArchiveList extends List {
  overdue: number;
}

/** `today` is an ISO date; what is overdue is so on that day. */
export function archiveOf(campaign: Campaign, today: string, part: ArchivePart = 'all'): ArchiveList {
  const all = custodyOf(campaign, today);
  const listed = all.filter(IN_PART[part]);
  const loans = all.filter(({ loan }) => loan !== null);
  const late = listed.filter((custody) => overdueDays(custody) !== null);
  const unplaced = listed.filter(isUnplaced);
  const names = (of: readonly Custody[]): string => {
    const shown = of.slice(0, NAMED).map(({ name }) => name);
    return `${shown.join('; ')}${of.length > NAMED ? ` and ${printed(of.length - NAMED)} more` : ''}`;
  };
  return {
    title: TITLES[part],
    head: [
      ['Campaign', campaign.name === '' ? 'without a name' : campaign.name],
      ['Date', today],
      ['Listed', counted(listed.length, 'sample or core', 'samples and cores')],
      ['On loan', printed(loans.length)],
      ['Overdue', printed(late.length)],
    ],
    notes: [
      ...(late.length === 0
        ? []
        : [`Overdue: ${late.map((custody) => `${custody.name}, ${overdueWords(custody)}`).join('; ')}.`]),
      ...(unplaced.length === 0 ? [] : [`No place entered: ${names(unplaced)}.`]),
    ],
    columns: COLUMNS.map(({ column }) => column),
    rows: listed.map((custody) => ({
      code: codeOf(campaign, custody),
      cells: COLUMNS.map(({ cell }) => cell(custody, campaign)),
    })),
    overdue: late.length,
  };
}

/** It should be at hand, and its place is not entered. */
const isUnplaced = ({ state, place, shelf, box }: Custody): boolean =>
  !AWAY.includes(state) && state !== 'discarded' && (place ?? shelf ?? box) === null;

/** More are counted. */
const NAMED = 12;

/** What its label says; a part of a core has none of its own. */
function codeOf(campaign: Campaign, { thing, row_id }: Custody): string | null {
  if (thing.kind === 'core') return thing.tray === null ? labelCode(campaign.id, thing) : null;
  const row = campaign.rows.samples.find((sample) => sample.row_id === row_id);
  return row?.identifier ?? labelCode(campaign.id, thing);
}

/** Who has it: of a loan and a parcel whose result is awaited the one that is overdue, or else the loan. */
const awayOf = ({ loan, waiting }: Custody): Away | null =>
  loan?.overdue_days == null && waiting?.overdue_days != null ? waiting : (loan ?? waiting);

/** A result may be overdue of what is lent since, or used up: then its parcel is named, not where the rest is. */
const overdueWords = (custody: Custody): string =>
  custodyWords(
    awayOf(custody) === custody.loan || custody.state === 'arrived' ? custody : { ...custody, state: 'sent' },
  );

const column = (
  heading: string,
  cell: (custody: Custody, campaign: Campaign) => string | null | undefined,
  more: Partial<ListColumn> = {},
) => ({
  column: { heading, isNumber: false, ...more },
  cell: (custody: Custody, campaign: Campaign): string => cell(custody, campaign) ?? '',
});

const STORE = { within: 'kept in' };
const WHO = { within: 'with whom' };

const COLUMNS = [
  column('label', ({ name }) => name),
  column('kind', ({ thing }) => thing.kind, { within: 'what' }),
  column('hole', ({ hole }) => hole, { within: 'what' }),
  column('material', materialOf, { within: 'what' }),
  column('state', custodyWords),
  column('place', ({ place }) => place, STORE),
  column('shelf', ({ shelf }) => shelf, STORE),
  column('box', ({ box }) => box, STORE),
  column('condition', ({ condition }) => condition),
  column('left', ({ left }) => left),
  column('lent or sent to', (custody) => awayOf(custody)?.laboratory, WHO),
  column('parcel', (custody) => awayOf(custody)?.submission, WHO),
  column('due', (custody) => awayOf(custody)?.due),
  column('overdue, days', (custody) => overdueDays(custody)?.toString(), { isNumber: true }),
  column('last entry', ({ last }) => last && dayOf(last)),
  column('cost', ({ costs }) => costsWords(costs)),
];

function materialOf({ thing, row_id }: Custody, { rows }: Campaign): string | null {
  return thing.kind === 'core'
    ? null
    : (rows.samples.find((sample) => sample.row_id === row_id)?.material ?? null);
}
