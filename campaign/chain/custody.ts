/**
 * Where each sample and core is now, what is awaited of it, and what it cost: folded from the entries in force. A result
 * in `determinations` or `measurements` counts as received, whether that is entered or not.
 */
import type { Campaign } from '@stillstand/campaign/document';
import { daysBetween, type Row } from '@stillstand/campaign/tables';
import { type Cost, costsOf } from './costs.ts';
import { weeksAfter } from './days.ts';
import { dayOf, type Entry, entriesByThing } from './entries.ts';
import { type KeptThing, keptThings, type Thing, thingKey, thingName } from './thing.ts';

/** The first that holds: discarded, lent, on its way or at the laboratory without a result, result received, in store. */
export type CustodyState = 'discarded' | 'lent' | 'sent' | 'arrived' | 'result' | 'stored' | 'no entry';

/** Something of it is elsewhere: sent or lent. */
export interface Away {
  /** Laboratory, archive or borrower, as entered. */
  laboratory: string | null;
  submission: string | null;
  request: string | null;
  /** The day it went, ISO 8601. */
  since: string | null;
  days: number | null;
  due: string | null;
  /** `usual`: no day is entered; the laboratory's usual wait after it was sent. */
  due_from: 'entered' | 'usual' | null;
  /** Days past due; null while it is not. */
  overdue_days: number | null;
}

export interface Custody extends KeptThing {
  name: string;
  state: CustodyState;
  /** The earliest first. */
  entries: readonly Entry[];
  last: Entry | null;
  /** Where it is, or what is left of it; while it is away, where it was before. */
  place: string | null;
  shelf: string | null;
  box: string | null;
  condition: string | null;
  left: string | null;
  /** Sent, and no result yet. */
  waiting: Away | null;
  /** Lent, and not back. */
  loan: Away | null;
  results: {
    lab_codes: readonly string[];
    properties: readonly string[];
    /** How many came that no entry says: a first sending would take them for its answer. */
    unentered: number;
  };
  costs: readonly Cost[];
  /** An entry about it cannot be read, or its amendments differ: the rest may be out of date. */
  isDisputed: boolean;
}

/** Days past due of a loan or of a result; null where neither is. */
export const overdueDays = ({ loan, waiting }: Pick<Custody, 'loan' | 'waiting'>): number | null =>
  loan?.overdue_days ?? waiting?.overdue_days ?? null;

type Tables = Pick<Campaign, 'rows' | 'skipped_rows'>;

/** Of every sample and core. `today` is an ISO date; nothing here reads a clock. */
export function custodyOf(campaign: Tables, today: string): Custody[] {
  const things = keptThings(campaign);
  const entries = entriesByThing(campaign, things);
  const { rows } = campaign;
  const weeks = new Map(rows.laboratories.map((row) => [row.laboratory, row.weeks]));
  const determined = Map.groupBy(rows.determinations, (row) => row.sample);
  const measured = Map.groupBy(rows.measurements, (row) => row.sample);
  const isDisputed = disputed(campaign);
  return things.map((kept): Custody => {
    const of = entries.get(thingKey(kept.thing))!;
    const sample = kept.thing.kind === 'sample' ? kept.thing.sample : null;
    const found = resultsOf(
      sample === null ? [] : (determined.get(sample) ?? []),
      sample === null ? [] : (measured.get(sample) ?? []),
    );
    const folded = fold(of);
    const sent = found.count < folded.needed ? folded.sent : null;
    const waiting = sent === null ? null : away(sent, weeks.get(sent.laboratory ?? '') ?? null, today);
    const loan = folded.lent === null ? null : away(folded.lent, null, today);
    const hasResult = found.count > 0 || of.some((entry) => entry.action === 'result');
    const { place, shelf, box, condition, left } = folded;
    return {
      ...kept,
      name: thingName(kept.thing),
      state: of.length === 0 && !hasResult ? 'no entry' : stateOf(folded, waiting !== null, hasResult),
      entries: of,
      last: of.at(-1) ?? null,
      ...{ place, shelf, box, condition, left, waiting, loan },
      results: {
        lab_codes: found.lab_codes,
        properties: found.properties,
        unentered: Math.max(0, found.count - Math.max(folded.sends, folded.received)),
      },
      costs: costsOf(of),
      isDisputed: isDisputed(kept.thing),
    };
  });
}

interface Folded {
  place: string | null;
  shelf: string | null;
  box: string | null;
  condition: string | null;
  left: string | null;
  /** The last time it was sent, as long as no result was entered since and it did not come back. */
  sent: Entry | null;
  sends: number;
  /** Entries of a result. */
  received: number;
  /**
   * So many dates, or batches of measurements, end the wait: one for each time it was sent, and one more than was entered
   * before the last time. No result says by itself which parcel it answers.
   */
  needed: number;
  hasArrived: boolean;
  lent: Entry | null;
  isDiscarded: boolean;
}

function fold(entries: readonly Entry[]): Folded {
  const now: Folded = {
    ...{ place: null, shelf: null, box: null, condition: null, left: null },
    ...{ sent: null, sends: 0, received: 0, needed: 0, hasArrived: false, lent: null, isDiscarded: false },
  };
  for (const entry of entries) {
    const { action } = entry;
    // With a new place, shelf and box of the one before no longer hold.
    if (entry.place !== null) Object.assign(now, { place: entry.place, shelf: null, box: null });
    if (entry.shelf !== null) Object.assign(now, { shelf: entry.shelf, box: null });
    now.box = entry.box ?? now.box;
    now.condition = entry.condition ?? now.condition;
    now.left = entry.left ?? now.left;
    // A result may come long after the piece is gone; anything else says that it is there.
    if (action !== 'result') now.isDiscarded = action === 'discarded';
    if (action === 'sent') {
      now.sent = entry;
      now.sends += 1;
      now.needed = Math.max(now.sends, now.received + 1);
      now.hasArrived = false;
    }
    if (action === 'arrived') now.hasArrived = true;
    if (action === 'result') now.received += 1;
    if (action === 'result' || action === 'returned') now.sent = null;
    if (action === 'lent') now.lent = entry;
    if (action === 'returned' || action === 'stored' || action === 'discarded') now.lent = null;
  }
  return now;
}

interface Found {
  lab_codes: string[];
  properties: string[];
  count: number;
}

function resultsOf(
  determinations: readonly Row<'determinations'>[],
  measurements: readonly Row<'measurements'>[],
): Found {
  const batches = new Set(measurements.map(({ batch }) => batch));
  return {
    lab_codes: determinations.map(({ lab_code }) => lab_code),
    properties: [...new Set(measurements.map(({ property }) => property))],
    count: Math.max(determinations.length, batches.size),
  };
}

function stateOf(
  { isDiscarded, lent, hasArrived }: Folded,
  isWaiting: boolean,
  hasResult: boolean,
): CustodyState {
  if (isDiscarded) return 'discarded';
  if (lent !== null) return 'lent';
  if (isWaiting) return hasArrived ? 'arrived' : 'sent';
  return hasResult ? 'result' : 'stored';
}

function away(entry: Entry, weeks: number | null, today: string): Away {
  const since = dayOf(entry);
  const usual = since === null || weeks === null ? null : weeksAfter(since, weeks);
  const due = entry.due ?? usual;
  const late = due === null ? null : daysBetween(due, today);
  const { laboratory, submission, request } = entry;
  return {
    ...{ laboratory, submission, request, since, due },
    days: since === null ? null : daysBetween(since, today),
    due_from: entry.due !== null ? 'entered' : usual === null ? null : 'usual',
    overdue_days: late !== null && late > 0 ? late : null,
  };
}

/** Entries set aside name a thing as far as they can be read; one that names none may be about any. */
function disputed({ skipped_rows }: Tables): (thing: Thing) => boolean {
  const set = skipped_rows.filter((row) => row.table === 'custody');
  const word = (value: string | boolean | undefined): string | null =>
    typeof value === 'string' && value !== '' ? value : null;
  return (thing) =>
    set.some(({ agreed }) => {
      const sample = word(agreed['sample']);
      const hole = word(agreed['hole']);
      if (sample === null && hole === null) return true;
      if (thing.kind === 'sample') return sample === thing.sample;
      const run = word(agreed['run']);
      return sample === null && hole === thing.hole && (run === null || run === thing.run);
    });
}
