/**
 * What happened on one day: the facts of the day-end sheet, for the app and the command line alike. Metres; clocks as
 * written, by the place. Pure, and it never throws for bad rows: what cannot be read or dated is counted and said.
 */
import { type Campaign, typedReadings } from '@stillstand/campaign/document';
import { clockOf, dateOf, momentOf, type Row } from '@stillstand/campaign/tables';
import { type InstrumentOffset, instrumentOffsets, offsetWords } from '../instrument-checks.ts';
import { closingDemands } from '../permits/demands.ts';
import { type PermitLevel, permitsOf } from '../permits/permits.ts';
import { itemsWords, type TallyItem } from '../pipe-tally.ts';
import { reconcileDay } from '../reconcile-day.ts';
import { hasEnded } from '../rig-readings.ts';
import type { RowSource } from '../row-source.ts';
import { unansweredWords } from '../safety/answers.ts';
import { safetyChecks } from '../safety/safety.ts';
import { type HoleState, holeState } from '../state.ts';
import { atEndOf, type DaySpan, dayOf, daysOfReadings, lastDay, workAt } from './day-of.ts';
import { openFindings } from './open-findings.ts';
import { type Spell, stopsIn, stopWords } from './stops.ts';

export interface DayHole {
  hole: string;
  /** As it stood at the end of the day. */
  state: string;
  /** Clock of its first reading, where that was on this day. */
  started: string | null;
  /** Clock of its end, or that no time was written; null where it did not end on this day. */
  ended: string | null;
  /** Driven or pushed on this day, each metre of ground once. */
  driven_m: number;
  /** Shoe, or bottom of the deepest push, below the ground at the start, as far as it has been by then. */
  reached_m: number | null;
  /** Runs, or pushes, of the day, and what was recovered, fall-in left out. */
  runs: { label: string; recovered_m: number | null }[];
}

export interface DayFacts {
  date: string;
  campaign: string;
  crew: string;
  weather: string;
  contacts: string;
  leave_by: string;
  /** Who wrote readings and events on this day. */
  recorders: string[];
  holes: DayHole[];
  driven_m: number;
  /** Sum of what was measured. */
  recovered_m: number;
  /** Runs whose recovered length was not written. */
  unmeasured: number;
  /** By hole, in words: of the day, but for what was in the strings when it ended; `undated` is of no known day. */
  pipe: {
    went_in: string[];
    came_out: string[];
    in_string: string[];
    not_back: string[];
    undated: string[];
  };
  /** Dangers first. */
  open: { level: 'danger' | 'caution'; words: string }[];
  /** Permits that stop or warn on this day, then what they demand of a hole that ended on it; the gravest first. */
  permits: { level: PermitLevel; words: string }[];
  events: { clock: string; hole: string; kind: string; words: string; by: string }[];
  calls: { clock: string; words: string; level: 'normal' | 'caution' }[];
  stops: { hole: string; words: string }[];
  instruments: { words: string; isBeyond: boolean }[];
  plan_next: string;
  /** Readings whose day nobody knows: they are on no sheet. */
  undated: number;
  /** Rows that cannot be used, of tables this sheet is made from. */
  unusable: number;
}

/** `date` is `2024-03-05`; `typed` are the rows the campaign was read from, which say when a run began. */
export function dayFacts(campaign: Campaign, typed: RowSource, date: string): DayFacts {
  const days = daysOfReadings(campaign);
  const began = beganAt(typed);
  const then = atEndOf(campaign, date, days);
  const { rows } = campaign;
  const day = rows.field_days.find((d) => d.date === date) ?? null;
  const events = rows.events.filter((e) => (e.date ?? dateOf(e.time)) === date);
  const worked = rows.holes.filter(({ hole, ended_at }) => {
    if (dateOf(ended_at) === date || events.some((e) => e.hole === hole)) return true;
    return workAt(campaign, hole).some(({ row_id }) => dayOf(days.get(row_id)) === date);
  });
  const holes = worked.map(({ hole }) => holeOn(campaign, then, hole, date, days));
  const runs = holes.flatMap((h) => h.runs);
  const checks = rows.instrument_checks.filter((c) => (c.date ?? dateOf(c.time)) === date);
  const recorders = [
    ...worked.flatMap(({ hole }) => workAt(campaign, hole).filter((r) => dayOf(days.get(r.row_id)) === date)),
    ...events,
    ...checks,
  ].flatMap(({ by }) => (by === null || by.trim() === '' ? [] : [by.trim()]));
  const unread = new Set(campaign.skipped_rows.map((r) => r.row_id));
  const used = new Set([
    'holes',
    'events',
    'field_days',
    'instrument_checks',
    'string_items',
    'drives',
    'runs',
    'pushes',
  ]);
  return {
    date,
    campaign: campaign.name,
    crew: day?.crew ?? '',
    weather: day?.weather ?? '',
    contacts: day?.contacts ?? '',
    leave_by: clockOf(day?.leave_by ?? null),
    recorders: [...new Set(recorders)],
    holes,
    driven_m: holes.reduce((sum, h) => sum + h.driven_m, 0),
    recovered_m: runs.reduce((sum, r) => sum + (r.recovered_m ?? 0), 0),
    unmeasured: runs.filter((r) => r.recovered_m === null).length,
    pipe: pipeOn(campaign, date),
    open: openOn(
      then,
      date,
      worked.map((h) => h.hole),
    ),
    permits: permitsOn(then, date, holes),
    events: events.flatMap((e) =>
      e.kind === 'call_in'
        ? []
        : [
            {
              clock: clockOf(e.time),
              hole: e.hole ?? '',
              kind: e.kind.replace('_', '-'),
              words: eventWords(e),
              by: e.by ?? '',
            },
          ],
    ),
    calls: callsOn(rows.events, date),
    stops: worked.flatMap(({ hole }) => stopsOn(campaign, hole, date, began)),
    instruments: instrumentOffsets(checks).map((o) => ({ words: checkWords(o), isBeyond: o.isBeyond })),
    plan_next: day?.plan_next ?? '',
    undated: [...days].filter(([row_id, span]) => dayOf(span) === null && !unread.has(row_id)).length,
    unusable: campaign.skipped_rows.filter((r) => used.has(r.table)).length,
  };
}

function holeOn(
  campaign: Campaign,
  then: Campaign,
  hole: string,
  date: string,
  days: ReadonlyMap<string, DaySpan>,
): DayHole {
  const isToday = ({ row_id }: { row_id: string }): boolean => dayOf(days.get(row_id)) === date;
  const state = holeState(then, hole)!;
  const first = workAt(campaign, hole)[0];
  const pushes = then.rows.pushes.filter((p) => p.hole === hole).sort((a, b) => a.seq - b.seq);
  const runs = then.rows.runs.filter((r) => r.hole === hole && isToday(r));
  const depths = [state.fold.deepest_m ?? 0, ...pushes.map((p) => p.to_m)];
  const reached = Math.max(0, ...depths);
  return {
    hole,
    state: stateWords(state),
    started: first !== undefined && isToday(first) ? clockOf(first.time) : null,
    ended: endedOn(campaign, state, date, days),
    driven_m:
      gainedOn(
        state.fold.drives.map((d) => ({ ...d, from_m: 0 })),
        isToday,
      ) + gainedOn(pushes, isToday),
    reached_m: reached > 0 ? reached : null,
    runs: [
      ...runs.map((r) => ({
        label: r.run,
        recovered_m: r.recovered_m === null ? null : Math.max(0, r.recovered_m - (r.fall_in_m ?? 0)),
      })),
      ...pushes.filter(isToday).map((p) => ({ label: p.push, recovered_m: p.recovered_m })),
    ],
  };
}

interface Stretch {
  row_id: string;
  from_m: number;
  to_m: number;
}

/**
 * New ground of a day, metres: how much deeper each stretch got than any before it in this hole. Ground that is driven
 * again, lifted and tried once more, was counted already; what a string sinks before a drive goes with that drive.
 */
function gainedOn(stretches: readonly Stretch[], isToday: (stretch: Stretch) => boolean): number {
  let deepest_m = 0;
  let gained_m = 0;
  for (const stretch of stretches) {
    if (isToday(stretch)) gained_m += Math.max(0, stretch.to_m - Math.max(deepest_m, stretch.from_m));
    deepest_m = Math.max(deepest_m, stretch.to_m);
  }
  return gained_m;
}

function endedOn(
  { rows }: Campaign,
  { row, ended }: HoleState,
  date: string,
  days: ReadonlyMap<string, DaySpan>,
): string | null {
  if (!ended) return null;
  const at = dateOf(row.ended_at);
  if (at !== null) return at === date ? clockOf(row.ended_at) : null;
  return lastDay(rows, row.hole, days) === date ? 'time not recorded' : null;
}

function stateWords({ row, fold, run, string }: HoleState): string {
  const state = row.state ?? 'open';
  if (hasEnded(state)) {
    const why = row.end_reason === null || row.end_reason === state ? '' : `: ${row.end_reason}`;
    return `${state}${why}`;
  }
  const joints = `${fold.joints_in} ${fold.joints_in === 1 ? 'joint' : 'joints'} in`;
  return [
    state,
    ...(string.length === 0 ? [] : [joints]),
    ...(run === null ? [] : [`run ${run.run} in progress`]),
  ].join(', ');
}

function pipeOn(campaign: Campaign, date: string): DayFacts['pipe'] {
  const day = reconcileDay(campaign, date);
  const words = (items: readonly TallyItem[], fate = ''): string[] =>
    [...Map.groupBy(items, (item) => item.hole)].map(
      ([hole, of]) => `${hole}: ${itemsWords(of)}${fate === '' ? '' : `, ${fate}`}`,
    );
  return {
    went_in: words(day.wentIn),
    came_out: [...words(day.back), ...words(day.damaged, 'damaged'), ...words(day.cut, 'cut')],
    in_string: words(day.inString),
    not_back: [
      ...words(day.damaged, 'damaged'),
      ...words(day.cut, 'cut'),
      ...words(day.left, 'left in the ground'),
      ...words(day.lost, 'lost'),
      ...words(day.unaccounted, 'not accounted for'),
    ],
    undated: words(day.undated),
  };
}

/** Safety questions answered no and not since otherwise, or not at all, and what the readings of the day’s holes say is wrong. */
function openOn(then: Campaign, date: string, worked: readonly string[]): DayFacts['open'] {
  const goesOn = then.rows.holes.filter((h) => worked.includes(h.hole) && !hasEnded(h.state));
  const nos = [null, ...goesOn.map((h) => h.hole)].flatMap((hole) =>
    safetyChecks(then, date, hole)
      .filter((c) => c.given?.answer === 'no' && (c.of === 'hole') === (hole !== null))
      .map((c) => ({
        level: c.no,
        words: `${hole === null ? '' : `${hole}: `}${c.hazard}. ${c.act}`,
      })),
  );
  const found = worked.flatMap((hole) =>
    openFindings(holeState(then, hole)!).map(({ level, words }) => ({ level, words: `${hole}: ${words}` })),
  );
  const unanswered = worked.flatMap((hole) => {
    const words = unansweredWords(safetyChecks(then, date, hole), `Site check of ${hole}`);
    return words === null ? [] : [{ level: 'caution' as const, words }];
  });
  const open = [...nos, ...found, ...unanswered];
  return [...open.filter((o) => o.level === 'danger'), ...open.filter((o) => o.level !== 'danger')];
}

/** Nothing where the campaign records no permits. */
function permitsOn(campaign: Campaign, date: string, holes: readonly DayHole[]): DayFacts['permits'] {
  const { rows, skipped_rows } = campaign;
  if (rows.permits.length === 0 && !skipped_rows.some(({ table }) => table === 'permits')) return [];
  const states = permitsOf(campaign, date).flatMap(({ permit, row_id, level, words }) =>
    level === 'ok' ? [] : [{ level, words: row_id === null ? words : `${permit}: ${words}` }],
  );
  const demands = holes.flatMap(({ hole, ended }) => {
    if (ended === null) return [];
    const site = rows.holes.find((row) => row.hole === hole)?.site ?? null;
    return closingDemands(rows.permits, site).map(({ permit, words }) => ({
      level: 'ok' as const,
      words: `${hole} ended; ${permit} demands ${words}`,
    }));
  });
  return [...states, ...demands];
}

function eventWords(e: Row<'events'>): string {
  const note = e.note === null ? '' : ` ${e.note}`;
  if (e.kind !== 'hand_over') return `${e.text ?? ''}${note}`.trim();
  const next = e.next === null ? '' : ` Next: ${e.next}.`;
  const confirmed = e.confirmed === true ? 'Confirmed.' : 'Not confirmed.';
  return `to ${e.with_whom ?? 'not named'}. ${e.text ?? ''}.${next}${note} ${confirmed}`.replaceAll(
    '..',
    '.',
  );
}

/** Calls made on the day, how late each was, and one that was due and never made. */
function callsOn(events: readonly Row<'events'>[], date: string): DayFacts['calls'] {
  const made = events
    .filter((e) => e.kind === 'call_in')
    .map((e) => ({ e, at_ms: momentOf(e.time ?? '') }))
    .sort((a, b) => (a.at_ms ?? 0) - (b.at_ms ?? 0));
  return made.flatMap(({ e, at_ms }, i) => {
    const due_ms = momentOf(made[i - 1]?.e.due ?? '');
    const late = at_ms === null || due_ms === null ? 0 : Math.floor((at_ms - due_ms) / 60_000);
    const who = e.with_whom === null ? '' : ` with ${e.with_whom}`;
    const next = e.due === null ? 'last call' : `next ${clockOf(e.due)}`;
    const said: DayFacts['calls'] = [];
    if ((e.date ?? dateOf(e.time)) === date)
      said.push({
        clock: clockOf(e.time),
        words: `call${who}, ${next}${late > 0 ? `; ${late} min late` : ''}`,
        level: late > 0 ? 'caution' : 'normal',
      });
    if (i === made.length - 1 && dateOf(e.due) === date)
      said.push({ clock: clockOf(e.due), words: `due${who}: no call recorded`, level: 'caution' });
    return said;
  });
}

/** Longer than this is the time between two shifts, minutes; our choice. */
const SHIFT_MIN = 6 * 60;

function stopsOn(
  campaign: Campaign,
  hole: string,
  date: string,
  began: (row_id: string) => string | null,
): DayFacts['stops'] {
  const events = campaign.rows.events.filter((e) => e.hole === hole && e.kind !== 'call_in');
  const spells: (Spell & { seq: number })[] = [
    ...workAt(campaign, hole).map(({ row_id, seq, time }) => ({
      seq,
      from: began(row_id) ?? time ?? '',
      to: time ?? '',
      event: null,
    })),
    ...events.map((e) => ({
      seq: e.seq,
      from: '',
      to: '',
      event: [e.kind === 'note' ? '' : e.kind.replace('_', '-'), e.kind === 'hand_over' ? '' : (e.text ?? '')]
        .filter(Boolean)
        .join(', '),
    })),
  ].sort((a, b) => a.seq - b.seq);
  return stopsIn(spells)
    .filter((s) => dateOf(s.from) === date || dateOf(s.to) === date)
    .filter((s) => s.minutes <= SHIFT_MIN || dateOf(s.from) === dateOf(s.to))
    .map((s) => ({ hole, words: stopWords(s) }));
}

/** When a run first touched: its later rows have the time of the last reading of the cable. */
function beganAt(typed: RowSource): (row_id: string) => string | null {
  const { of } = typedReadings('runs', typed.rows('runs'));
  return (row_id) => of.get(row_id)?.first.cells['time']?.trim() || null;
}

function checkWords(offset: InstrumentOffset): string {
  const position = offset.position_off_m === null ? '' : `, position ${offset.position_off_m} m off`;
  return `${offsetWords(offset)}${position}; ${offset.isBeyond ? 'beyond' : 'within'} its reading error`;
}
