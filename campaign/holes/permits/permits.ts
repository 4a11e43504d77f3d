/**
 * How the permits are on a day, and what must be found out before anything is driven. The state of a permit is what a
 * person entered; local law and the authority that gave it decide what it allows. Pure; nothing throws.
 */
import type { Campaign } from '@stillstand/campaign/document';
import { choiceName, daysBetween, type Row } from '@stillstand/campaign/tables';
import { hasEnded } from '../rig-readings.ts';

export type PermitKind = Row<'permits'>['kind'];

/** `stop`: nothing is driven until it is dealt with; `warn`: to be dealt with; `ok`: as it should be. */
export type PermitLevel = 'stop' | 'warn' | 'ok';

export interface PermitState {
  /** Its label; of one that is missing, the kind in words. */
  permit: string;
  /** Null where its row cannot be read. */
  kind: PermitKind | null;
  words: string;
  level: PermitLevel;
  /** Null where none is recorded. */
  row_id: string | null;
  /** The site it is missing for; null: all of them, or a permit that is recorded. */
  site: string | null;
}

/** A permit that ends within so many days is named; common practice, no source. */
const SOON_DAYS = 14;

/** What is found out before drilling, whether a permit is needed or not. What lies in the ground can kill. */
const MUST_KNOW: readonly { kind: PermitKind; level: PermitLevel }[] = [
  { kind: 'buried_services', level: 'stop' },
  { kind: 'unexploded_ordnance', level: 'stop' },
  { kind: 'landowner', level: 'warn' },
];

const inGround = (kind: PermitKind): boolean =>
  MUST_KNOW.some((known) => known.kind === kind && known.level === 'stop');

const GRAVEST: readonly PermitLevel[] = ['stop', 'warn', 'ok'];

/** Read, not shown: said of every list of permits. */
export const PERMIT_CAUTION =
  'A record only. Local law, the authorities and the text of each permit decide what may be done.';

/** Every permit and what is missing on this day, `2024-03-05`; the gravest first. */
export function permitsOf(
  { rows, skipped_rows }: Pick<Campaign, 'rows' | 'skipped_rows'>,
  date: string,
): PermitState[] {
  const states = [
    ...missingOf(rows),
    ...skipped_rows.flatMap(({ table, label, row_id }) =>
      table === 'permits' ? [unreadable(label ?? 'Permit', row_id)] : [],
    ),
    ...rows.permits.map((row) => ({
      permit: row.permit,
      kind: row.kind,
      row_id: row.row_id,
      site: null,
      ...(renewed(row, rows.permits, date) ?? stateOf(row, date)),
    })),
  ];
  return states.sort((a, b) => GRAVEST.indexOf(a.level) - GRAVEST.indexOf(b.level));
}

const unreadable = (permit: string, row_id: string): PermitState => ({
  permit,
  kind: null,
  words: 'cannot be read: correct its entries',
  level: 'stop',
  row_id,
  site: null,
});

/** Kinds that are not recorded, for each site where a hole goes on; none once every hole has ended. */
function missingOf({ holes, permits }: Campaign['rows']): PermitState[] {
  const goingOn = holes.filter(({ state }) => !hasEnded(state));
  if (holes.length > 0 && goingOn.length === 0) return [];
  const sites = goingOn.length === 0 ? [null] : [...new Set(goingOn.map(({ site }) => site))];
  return MUST_KNOW.flatMap(({ kind, level }) => {
    const lacking = sites.filter(
      (site) => !permits.some((p) => p.kind === kind && (p.site === null || p.site === site)),
    );
    // One line where it lacks everywhere.
    const named = lacking.length === sites.length ? lacking.slice(0, 1).map(() => null) : lacking;
    return named.map((site) => ({
      permit: choiceName(kind),
      kind,
      words: `${findOut(kind)}${site === null ? '' : ` at ${site}`}`,
      level,
      row_id: null,
      site,
    }));
  });
}

const findOut = (kind: PermitKind): string => `Find out before drilling: ${choiceName(kind)}`;

type Said = Pick<PermitState, 'words' | 'level'>;

/** Of one that has expired, where another of its kind, site and giver is granted and valid on the day; else null. */
function renewed(row: Row<'permits'>, permits: readonly Row<'permits'>[], date: string): Said | null {
  const { state, until } = row;
  const hasExpired = until !== null && daysBetween(until, date) > 0;
  if (state !== 'granted' || !hasExpired) return null;
  const next = permits.find(
    (other) =>
      other !== row &&
      other.state === 'granted' &&
      other.kind === row.kind &&
      other.site === row.site &&
      other.issued_by === row.issued_by &&
      grantedOn(other, date).level !== 'stop',
  );
  return next === undefined ? null : { words: `expired ${until}; renewed by ${next.permit}`, level: 'ok' };
}

function stateOf(row: Row<'permits'>, date: string): Said {
  switch (row.state) {
    case 'refused':
      return { words: 'refused', level: 'stop' };
    case 'not_needed':
      return { words: 'not needed', level: 'ok' };
    case 'granted':
      return grantedOn(row, date);
    default: {
      const how =
        row.state === 'asked'
          ? 'asked for, not granted'
          : row.state === 'to_ask'
            ? 'not asked for'
            : 'state not entered';
      return inGround(row.kind)
        ? { words: `${findOut(row.kind)} (${how})`, level: 'stop' }
        : { words: how, level: 'warn' };
    }
  }
}

function grantedOn({ from, until }: Row<'permits'>, date: string): Said {
  for (const day of [from, until])
    if (day !== null && Number.isNaN(daysBetween(day, day)))
      return { words: `granted, but “${day}” is not a date: write it year first, 2024-03-05`, level: 'stop' };
  if (from !== null && until !== null && from > until)
    return { words: `valid from ${from} until ${until}: one of the two dates is wrong`, level: 'stop' };
  if (until !== null && until < date)
    return { words: `expired ${until}, ${days(until, date)} before this day`, level: 'stop' };
  if (from !== null && from > date)
    return { words: `valid from ${from}, ${days(date, from)} after this day`, level: 'stop' };
  if (until === null) return { words: 'granted, no last day stated', level: 'ok' };
  const left = daysBetween(date, until);
  if (left === 0) return { words: `granted, expires at the end of this day`, level: 'warn' };
  return left <= SOON_DAYS
    ? { words: `granted, expires in ${days(date, until)}, ${until}`, level: 'warn' }
    : { words: `granted until ${until}`, level: 'ok' };
}

function days(from: string, to: string): string {
  const count = daysBetween(from, to);
  return `${count} ${count === 1 ? 'day' : 'days'}`;
}
