/** What a crew that takes over a hole must hear first: dangers, what stopped the last drive, what broke, who was hurt. */

import { clockOf, dateOf, momentOf, type Row } from '@stillstand/campaign/tables';
import { tapeLength } from '@stillstand/science/base';
import { instrumentOffsets, offsetWords } from '../instrument-checks.ts';
import type { RowSource } from '../row-source.ts';
import { checksOf, dangersOf, unansweredWords } from '../safety/answers.ts';
import type { HoleState } from '../state.ts';
import { stoppedDrive } from '../stopped-drive.ts';
import { openFindings } from './open-findings.ts';
import { eventsTyped } from './typed-events.ts';

/** Line by line, the gravest first; no line where there is nothing of the kind. */
export function handedOn(now: HoleState, source: RowSource): string[] {
  const hole = now.row.hole;
  // a no of whatever day is still one
  const noes = checksOf(source, ALWAYS, hole).filter((c) => c.given?.answer === 'no');
  const findings = openFindings(now);
  const events = eventsTyped(source).filter((e) => e.hole === null || e.hole === hole);
  const last = lastTime(now, events);
  const dangers = [
    ...dangersOf(noes).map((c) => `${c.hazard}. ${c.act}`),
    ...findings.filter((f) => f.level === 'danger').map((f) => f.words),
  ];
  const unanswered = unansweredWords(checksOf(source, dateOf(last) ?? ALWAYS, hole));
  return [
    ...(dangers.length === 0 ? [] : [`Dangers: ${dangers.join('; ')}`]),
    ...events.filter((e) => e.kind === 'injury' && isOfShift(e, last)).map(eventLine),
    ...noes.filter((c) => c.state === 'caution').map((c) => `Answered no: ${c.hazard}. ${c.act}`),
    ...findings.filter((f) => f.level === 'caution' && f.code === 'sampler-past-shoe').map((f) => f.words),
    ...stoppedBy(now),
    ...events.filter((e) => e.kind === 'breakdown' && isOfShift(e, last)).map(eventLine),
    ...offsetsNow(now.campaign.rows.instrument_checks),
    ...(unanswered === null ? [] : [unanswered]),
  ];
}

const ALWAYS = '9999-12-31';

/** Of the last reading or event that has a time, as written. */
function lastTime({ entries }: HoleState, events: readonly Row<'events'>[]): string | null {
  const times = [...entries, ...events].flatMap(({ time }) => (time === null ? [] : [time]));
  return times.toSorted((a, b) => (momentOf(a) ?? 0) - (momentOf(b) ?? 0)).at(-1) ?? null;
}

const DAY_MS = 24 * 60 * 60_000;

/** Of the same day, or less than 24 h before it, for a shift can run over midnight; one without a time counts. */
function isOfShift({ date, time }: Row<'events'>, last: string | null): boolean {
  const day = date ?? dateOf(time);
  if (day === null || last === null || day === dateOf(last)) return true;
  const [from, to] = [momentOf(time ?? ''), momentOf(last)];
  return from !== null && to !== null && Math.abs(to - from) < DAY_MS;
}

/** "Breakdown 13:20: winch". */
function eventLine({ kind, time, text, note }: Row<'events'>): string {
  const clock = clockOf(time) || 'time not recorded';
  const said = [text, note].filter(Boolean).join(' ');
  return `${kind === 'injury' ? 'Injury' : 'Breakdown'} ${clock}: ${said === '' ? 'not described' : said}`;
}

const RESPONSES = {
  lifted_and_retried: 'lifted and tried again',
  moved: 'hole moved',
  ended: 'hole ended',
} as const;

/** What the last drive met, where it was no ordinary end, and what was done about it. */
function stoppedBy(now: HoleState): string[] {
  const stopped = stoppedDrive(now);
  if (stopped === null) return [];
  const { by, response, at_m } = stopped;
  const where = at_m === null ? '' : ` at ${tapeLength(at_m, now.units.tape)} below the ground`;
  const done = response === null ? 'what was done is not said' : RESPONSES[response];
  return [`Last drive met ${by === 'obstruction' ? 'an obstruction' : by}${where}: ${done}`];
}

/** Of each instrument its last check, where that is beyond the error of reading it. */
function offsetsNow(checks: readonly Row<'instrument_checks'>[]): string[] {
  const last = new Map(instrumentOffsets(checks).map((o) => [`${o.kind} ${o.instrument}`, o]));
  return [...last.values()]
    .filter((o) => o.isBeyond)
    .map((o) => `${offsetWords(o)}; beyond its reading error`);
}
