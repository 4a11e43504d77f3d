/** What is read at the hole: its ground, its water, its sediment, and the marks on the cable. */

import { type HoleState, lastTyped, type RowSource } from '@stillstand/campaign/holes';
import { schemas } from '@stillstand/campaign/tables';
import { isSounded } from '@stillstand/science/rig';
import { t } from '../../../language/index.ts';
import { type Tape, tapes } from '../tape/cable.ts';
import { tapeInterval_m, typedLength } from '../tape/lengths.ts';
import { type Base, choice, type EntryForm, type Field, length, number, ready } from './field.ts';

export function groundForm(base: Base, now: HoleState): EntryForm {
  return {
    ...base,
    title: now.ground_m === null ? t`Measure ground level` : t`Remeasure ground level`,
    verb: t`Record ground level`,
    table: 'ground_levels',
    fields: [
      groundField(),
      {
        kind: 'text',
        column: 'cause',
        label: t`Cause of change`,
        help: t`Tide, trampling, sand drawdown at the pipe; blank if it has not moved.`,
        ready: ready([t`not moved`, t`tide`, t`trampling`, t`sand drawdown at pipe`]),
      },
    ],
  };
}

function groundField(): Field {
  return length(
    'ground_below_reference',
    t`Ground below the reference`,
    t`From the levelled reference down to the ground, positive down. Usually 0 to 0.5 m; the ground moves, the reference does not.`,
    {
      needed: true,
      signed: true,
    },
  );
}

export function fillForm(base: Base, now: HoleState, source: RowSource): EntryForm {
  const hole = now.row.hole;
  return {
    ...base,
    title: t`Fill the string`,
    verb: t`Record the water`,
    caution: t`Low water inside lets sand boil in at the shoe.`,
    table: 'water_added',
    fields: [
      length(
        'to_water_after',
        t`Water level after`,
        t`Collar to the water inside after filling. Usually 0 to 0.3 m (common practice).`,
        { needed: true },
      ),
      length(
        'to_water_before',
        t`Water level before`,
        t`Collar to the water inside before filling, if it was read.`,
      ),
      number('volume_l', t`Volume`, 'L', t`What was poured in, if it was counted.`),
      choice(
        'kind',
        t`Kind`,
        schemas.water_added.columns.kind.choices,
        t`Sea water is heavier: the head counts it.`,
        lastTyped(source, 'water_added', hole, 'kind'),
      ),
    ],
  };
}

export function soundForm(base: Base, now: HoleState): EntryForm {
  return {
    ...base,
    title: t`Take sounding`,
    verb: t`Record sounding`,
    table: 'soundings',
    fields: [
      length(
        'to_sediment',
        t`To the sediment`,
        t`Collar to the sediment inside: 0 to the shoe. Repeat it; a weight that sinks in reads deep.`,
        { needed: true },
      ),
      length('to_water_inside', t`To the water inside`, t`Collar to the water inside.`),
      length('water_outside', t`Water outside`, t`Water outside below the reference, positive down.`, {
        signed: true,
      }),
      length('stick_up', t`Stick-up`, t`Collar above the reference, if it was read again.`, {
        signed: true,
      }),
      choice(
        'purpose',
        t`When`,
        schemas.soundings.columns.purpose.choices,
        t`Before or after a drive or run; resume after a stop.`,
        soundingPurpose(now),
      ),
    ],
  };
}

/** Whether the sounding comes before or after what. */
function soundingPurpose(now: HoleState): string {
  const at = now.readings.findLastIndex((r) => r.kind === 'drive' || r.kind === 'run' || r.kind === 'joint');
  const last = now.readings[at];
  if (last === undefined) return 'other';
  const sounded = now.readings.slice(at + 1).some(isSounded);
  if (last.kind === 'joint') return 'before_drive';
  if (sounded) return 'before_run';
  return last.kind === 'drive' ? 'after_drive' : 'after_run';
}

export function waterForm(base: Base, now: HoleState): EntryForm {
  const hole = now.row.hole;
  return {
    ...base,
    title: t`Measure water levels`,
    verb: t`Record water levels`,
    fixed: { hole, purpose: 'other' },
    table: 'soundings',
    fields: [
      length('to_water_inside', t`To the water inside`, t`Collar to the water inside.`, { needed: true }),
      length('water_outside', t`Water outside`, t`Water outside below the reference, positive down.`, {
        needed: true,
        signed: true,
      }),
    ],
  };
}

/** The tape that is to be on the cable, confirmed by a person, and the zero check that goes with it. */
export function markForm(base: Base, now: HoleState): EntryForm {
  const tape = tapes(now);
  return {
    ...base,
    title: t`Mark the cable`,
    verb: t`Confirm marks and zero`,
    fixed: { ...base.fixed, ...marksCells(now, tape) },
    table: 'cable_marks',
    caution: t`Zero check: with the tip level with the collar, the tape at the collar reads 0.`,
    fields: [
      {
        kind: 'choice',
        column: 'confirmed',
        label: t`Confirmed`,
        help: t`Only what was done: tape put on at every mark listed, zero checked at the collar.`,
        needed: true,
        initial: tape.length === 0 ? 'zero' : 'both',
        // Without a place for a tape there is nothing to confirm of the marks.
        options: [
          ...(tape.length === 0
            ? []
            : [
                { value: 'both', word: t`marks and zero` },
                { value: 'marks', word: t`marks only` },
              ]),
          { value: 'zero', word: t`zero only` },
        ],
      },
      { ...zeroField(), initial: typedLength(0, now.units.cable), assumed: true },
    ],
  };
}

const zeroField = (): Field =>
  length(
    'cable_at_collar',
    t`Tape at the collar`,
    t`What it reads with the tip level with the collar: 0 if right.`,
    {
      signed: true,
    },
  );

/** The row of `cable_marks` for these tapes, in the crew's unit. */
function marksCells(now: HoleState, tape: readonly Tape[]): Record<string, string> {
  const at = (is: Tape['is']): Record<string, string> => {
    const mark = tape.find((each) => each.is === is);
    return mark === undefined ? {} : { [is]: mark.said };
  };
  return {
    ...at('sediment'),
    ...(tape.some(({ is }) => is === 'between')
      ? { interval: now.units.cable === 'ft' ? t`1 ft` : `${tapeInterval_m(now.units.cable)} m` }
      : {}),
    ...at('full'),
    ...at('stop'),
  };
}

/** The marks as they were put on, to be amended. */
export const marksForm = (base: Base): EntryForm => ({
  ...base,
  title: t`Cable marks`,
  verb: t`Record the marks`,
  table: 'cable_marks',
  fields: [
    length('sediment', t`Sediment`, t`Tip below the collar where it meets the sediment.`),
    length('interval', t`Interval`, t`From there a tape at every such length, up to the stop.`),
    length('full', t`Full`, t`Tip below the collar where the sampler is full.`),
    length('stop', t`Stop`, t`Tip below the collar where the sampler must stop.`, { needed: true }),
  ],
});

/** A zero check as it was read, to be amended. */
export const zeroForm = (base: Base): EntryForm => ({
  ...base,
  title: t`Zero check`,
  verb: t`Record the zero check`,
  table: 'soundings',
  fields: [zeroField()],
});
