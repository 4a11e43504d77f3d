/** Driving: how far, how fast, what ended it, and what was done where it met something. */
import type { HoleState } from '@stillstand/campaign/holes';
import { schemas } from '@stillstand/campaign/tables';
import { typedIfKnown } from '../tape/lengths.ts';
import { type Base, choice, type EntryForm, type Field, length, number } from './field.ts';

export function driveForm(base: Base, now: HoleState): EntryForm {
  return {
    ...base,
    title: 'Drive the string',
    verb: 'Record the drive',
    caution:
      now.run === null
        ? 'Hands off the pipe. Wear ear protection. Follow the vibrator manual.'
        : 'The sampler is in the string: lift it before driving.',
    table: 'drives',
    fields: driveFields(now),
  };
}

export function stuckForm(base: Base, now: HoleState): EntryForm {
  return {
    ...base,
    title: 'Slowing, refusal, stuck',
    verb: 'Record the drive',
    caution: 'Stop the vibrator before the string becomes stuck.',
    table: 'drives',
    fields: [...driveFields(now, 'slowing'), responseField()],
  };
}

/** Where the last drive met something: what was done about it. */
export function respondForm(base: Base, now: HoleState): EntryForm {
  const drive = now.readings.findLast((r) => r.kind === 'drive');
  return {
    ...base,
    title: drive?.kind === 'drive' && drive.ended_by === 'refusal' ? 'Refusal' : 'Obstruction',
    verb: 'Record response',
    caution: 'Vibrator off before the string is lifted. Nobody under the load or in line with it.',
    table: 'drives',
    fixed: { ...base.fixed, ...(drive === undefined ? {} : { row_id: drive.row_id }) },
    fields: [{ ...responseField(), needed: true }],
  };
}

/** Lift it a little and try again, move the hole, or end it here: what is usual at a stone, common practice, no source. */
const responseField = (): Field => ({
  ...choice(
    'obstruction_response',
    'Response',
    schemas.drives.columns.obstruction_response.choices,
    'Lifted and retried: raise the string 0.2 to 0.5 m, then drive again. Moved: pull, and start a hole next to it. Ended: nothing goes deeper here.',
    '',
  ),
});

function driveFields(now: HoleState, ended = 'length'): Field[] {
  const last = now.readings.findLast((r) => r.kind === 'drive');
  // lifted off an obstruction, it is not where the last drive left it
  const isLifted = last?.kind === 'drive' && last.obstruction_response === 'lifted_and_retried';
  const stickUp = isLifted ? null : (now.last?.stick_up_m ?? null);
  return [
    length('stick_up_start', 'Stick-up before', 'Collar above the reference before the drive.', {
      needed: true,
      signed: true,
      initial: typedIfKnown(stickUp, now.units.tape),
      assumed: stickUp !== null,
    }),
    length('stick_up_end', 'Stick-up after', 'Collar above the reference after the drive.', {
      needed: true,
      signed: true,
    }),
    number(
      'duration_s',
      'Time',
      's',
      'How long the vibrator ran; its rate distinguishes slowing from refusal.',
    ),
    choice('ended_by', 'Ended by', schemas.drives.columns.ended_by.choices, 'Why it stopped.', ended),
    number('frequency_hz', 'Vibrator speed', 'Hz', 'As the gauge shows it.'),
  ];
}
