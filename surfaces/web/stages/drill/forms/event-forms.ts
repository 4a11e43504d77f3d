/** What happens at a hole besides its readings: a note, a breakdown, weather, an injury, a hand-over, a call-in. */

import { agesOf, type HoleState, handOverLines, type RowSource } from '@stillstand/campaign/holes';
import { momentOf, schemas } from '@stillstand/campaign/tables';
import { t } from '../../../language/index.ts';
import { timeWithOffset } from '../../../store/index.ts';
import { nextAction } from '../next/next-action.ts';
import { type Base, choice, type EntryForm, length, number, ready, type TextField, text } from './field.ts';
import { readers } from './readers.ts';

const needed = (field: TextField): TextField => ({ ...field, needed: true });

export const noteForm = (base: Base): EntryForm => ({
  ...base,
  title: t`Write a note`,
  verb: t`Record the note`,
  fixed: { ...base.fixed, kind: 'note' },
  table: 'events',
  fields: [needed(text('text', t`Note`, t`What happened, at this place in the order of the readings.`))],
});

export const breakdownForm = (base: Base): EntryForm => ({
  ...base,
  title: t`Breakdown`,
  verb: t`Record the breakdown`,
  fixed: { ...base.fixed, kind: 'breakdown' },
  table: 'events',
  caution: t`Make it safe first: load down, vibrator off.`,
  fields: [
    {
      ...needed(
        text(
          'text',
          t`What broke`,
          t`The part and what it does not do. It is the reason of the stop that follows.`,
        ),
      ),
      ready: ready([t`vibrator`, t`hydraulics`, t`engine`, t`winch`, t`rope`, t`pump`, t`sampler`]),
    },
  ],
});

export const weatherForm = (base: Base): EntryForm => ({
  ...base,
  title: t`Weather`,
  verb: t`Record the weather`,
  fixed: { ...base.fixed, kind: 'weather' },
  table: 'events',
  fields: [
    {
      ...needed(text('text', t`Weather`, t`Wind, rain, sea, thunder; and whether work stopped for it.`)),
      ready: ready([
        t`rain`,
        t`strong wind`,
        t`thunder, work stopped`,
        t`fog`,
        t`waves reach the site`,
        t`frost`,
      ]),
    },
  ],
});

/** Nothing is needed of it: it can be recorded before anybody has time to type. */
export const injuryForm = (base: Base): EntryForm => ({
  ...base,
  title: t`Injury`,
  verb: t`Record the injury`,
  fixed: { ...base.fixed, kind: 'injury' },
  table: 'events',
  caution: t`Help first. Typing can wait.`,
  fields: [
    text('text', t`What happened`, t`Who, what, where on the body, what was done. Can be added later.`),
  ],
});

export function handOverForm(base: Base, now: HoleState, source: RowSource): EntryForm {
  const last = now.entries.findLast((e) => e.time !== null)?.time ?? '';
  // as it was when it was read last: the crew that takes over sees how old that is
  const ages = agesOf(now, momentOf(last) ?? 0);
  const next =
    now.row.method === 'string' ? nextAction(now, { resuming: false, replaced: false, ages }).title : '';
  return {
    ...base,
    title: t`Hand over`,
    verb: t`Record the hand-over`,
    fixed: { ...base.fixed, kind: 'hand_over', text: handOverLines(now, source).join('. ') },
    table: 'events',
    caution: t`Go through it together, at the hole.`,
    fields: [
      { ...needed(text('by', t`Who hands over`, t`A role or initials.`)), ready: readers(source) },
      {
        ...needed(text('with_whom', t`Who takes over`, t`A role or initials; they read from here.`)),
        ready: readers(source),
      },
      { ...text('next', t`What comes next`, t`The next thing to be done.`), initial: next },
      text('note', t`Anything else`, t`Dangers, damage, what was promised to whom.`),
      confirmedField(''),
    ],
  };
}

const confirmedField = (initial: string) => ({
  ...choice('confirmed', t`Confirmed`, [], t`By the crew that takes over: read and understood.`, initial),
  options: [
    { value: 'yes', word: t`yes, by who takes over` },
    { value: 'no', word: t`not yet` },
  ],
});

const STEP_MS = 15 * 60_000;

/** Quarter hours, then half hours, and the end of it: as many as a hand sees at once, pressed, never typed. */
export function callInForm(base: Base, source: RowSource, at: Date = new Date()): EntryForm {
  const first = Math.ceil((at.getTime() + STEP_MS / 3) / STEP_MS) * STEP_MS;
  const options = [0, 1, 2, 3, 5, 7, 9].map((steps) => {
    const time = timeWithOffset(new Date(first + steps * STEP_MS));
    return { value: time, word: time.slice(11, 16) };
  });
  const last = source
    .rows('events')
    .findLast(({ cells }) => (cells['with_whom'] ?? '') !== '' && cells['kind'] === 'call_in');
  return {
    ...base,
    title: t`Call-in`,
    verb: t`Record the call`,
    // of the day, not of the hole: whoever is ashore waits for people
    fixed: { kind: 'call_in', date: timeWithOffset(at).slice(0, 10) },
    table: 'events',
    fields: [
      {
        ...needed(text('with_whom', t`With whom`, t`Who expects the call, and how they are called.`)),
        initial: last?.cells['with_whom'] ?? '',
      },
      {
        ...choice(
          'due',
          t`Next call`,
          [],
          t`When they expect the next call. Every hour is common practice, no source.`,
          '',
        ),
        needed: true,
        options: [...options, { value: 'none', word: t`none: all are off the site` }],
      },
    ],
  };
}

/** Of the day: what is read with it may be in any hole. */
export const instrumentForm = (base: Base, at: Date = new Date()): EntryForm => ({
  ...base,
  title: t`Instrument check`,
  verb: t`Record the check`,
  fixed: { date: timeWithOffset(at).slice(0, 10) },
  table: 'instrument_checks',
  fields: [
    {
      ...choice(
        'kind',
        t`What it is`,
        schemas.instrument_checks.columns.kind.choices,
        t`Staff, tape or cable against a known length; a satellite receiver on a known mark.`,
        'tape',
      ),
      needed: true,
    },
    needed(text('instrument', t`Which one`, t`What is painted on it.`)),
    length(
      'known',
      t`Known length`,
      t`True length, as long as can be had: 10 to 30 m of a tape (common practice). Of a receiver the known height.`,
      {
        needed: true,
        signed: true,
      },
    ),
    length(
      'observed',
      t`It reads`,
      t`What the instrument shows there. It is not corrected; an offset widens the errors.`,
      {
        needed: true,
        signed: true,
      },
    ),
    number('position_off_m', t`Position off`, 'm', t`Of a receiver: how far its position is off the mark.`),
  ],
});
