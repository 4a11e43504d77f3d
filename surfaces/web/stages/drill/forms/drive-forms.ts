/** Driving: how far, how fast, what ended it, and what was done where it met something. */

import type { HoleState } from '@stillstand/campaign/holes';
import { schemas } from '@stillstand/campaign/tables';
import { t } from '../../../language/index.ts';
import { typedIfKnown } from '../tape/lengths.ts';
import { type Base, choice, type EntryForm, type Field, length, number } from './field.ts';

export function driveForm(base: Base, now: HoleState): EntryForm {
  return {
    ...base,
    title: t`Drive the string`,
    verb: t`Record the drive`,
    caution:
      now.run === null
        ? t`Hands off the pipe. Wear ear protection. Follow the vibrator manual.`
        : t`The sampler is in the string: lift it before driving.`,
    table: 'drives',
    fields: driveFields(now),
  };
}

export function stuckForm(base: Base, now: HoleState): EntryForm {
  return {
    ...base,
    title: t`Slowing, refusal, stuck`,
    verb: t`Record the drive`,
    caution: t`Stop the vibrator before the string becomes stuck.`,
    table: 'drives',
    fields: [...driveFields(now, 'slowing'), responseField()],
  };
}

/** Where the last drive met something: what was done about it. */
export function respondForm(base: Base, now: HoleState): EntryForm {
  const drive = now.readings.findLast((r) => r.kind === 'drive');
  return {
    ...base,
    title: drive?.kind === 'drive' && drive.ended_by === 'refusal' ? t`Refusal` : t`Obstruction`,
    verb: t`Record response`,
    caution: t`Vibrator off before the string is lifted. Nobody under the load or in line with it.`,
    table: 'drives',
    fixed: { ...base.fixed, ...(drive === undefined ? {} : { row_id: drive.row_id }) },
    fields: [{ ...responseField(), needed: true }],
  };
}

/** Lift it a little and try again, move the hole, or end it here: what is usual at a stone, common practice, no source. */
const responseField = (): Field => ({
  ...choice(
    'obstruction_response',
    t`Response`,
    schemas.drives.columns.obstruction_response.choices,
    t`Lifted and retried: raise the string 0.2 to 0.5 m, then drive again. Moved: pull, and start a hole next to it. Ended: nothing goes deeper here.`,
    '',
  ),
});

function driveFields(now: HoleState, ended = 'length'): Field[] {
  const last = now.readings.findLast((r) => r.kind === 'drive');
  // lifted off an obstruction, it is not where the last drive left it
  const isLifted = last?.kind === 'drive' && last.obstruction_response === 'lifted_and_retried';
  const stickUp = isLifted ? null : (now.last?.stick_up_m ?? null);
  return [
    length('stick_up_start', t`Stick-up before`, t`Collar above the reference before the drive.`, {
      needed: true,
      signed: true,
      initial: typedIfKnown(stickUp, now.units.tape),
      assumed: stickUp !== null,
    }),
    length('stick_up_end', t`Stick-up after`, t`Collar above the reference after the drive.`, {
      needed: true,
      signed: true,
    }),
    number(
      'duration_s',
      t`Time`,
      's',
      t`How long the vibrator ran; its rate distinguishes slowing from refusal.`,
    ),
    choice('ended_by', t`Ended by`, schemas.drives.columns.ended_by.choices, t`Why it stopped.`, ended),
    number('frequency_hz', t`Vibrator speed`, t`Hz`, t`As the gauge shows it.`),
  ];
}
