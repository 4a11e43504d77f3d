/**
 * Whether a length as typed is one a crew could have read: a caution in words, never a refusal. The ranges are common
 * practice, no source, except where the string itself sets them.
 */

import { type HoleState, mostRecovered, readOn } from '@stillstand/campaign/holes';
import type { Side } from '@stillstand/science/base';
import { clearanceOf, sameLabel } from '@stillstand/science/rig';
import { t } from '../../../language/index.ts';
import { saidLength } from '../tape/lengths.ts';
import type { Field } from './field.ts';
import { enteredOf } from './ordinary.ts';

export interface Doubt {
  level: 'caution' | 'danger';
  words: string;
}

/** `words`: lengths in them are in the unit the crew reads there. */
const caution = (words: string): Doubt => ({ level: 'caution', words });

/** What is doubtful about `m` in this column; `others` are the lengths typed beside it, metres. */
export function doubtOf(
  column: string,
  m: number,
  now: HoleState,
  others: Readonly<Record<string, number | null>> = {},
  /** Of the form: which run a piece is of. */
  fixed: Readonly<Record<string, string>> = {},
): Doubt | null {
  const length = now.fold.collar_to_shoe_m;
  const stickUp = now.last?.stick_up_m ?? null;
  const unit = now.units[readOn(column)];
  const said = (length_m: number, side?: Side): string => saidLength(length_m, unit, side);
  switch (column) {
    case 'length':
      if (m <= 0) return caution(t`A joint has a length above 0.`);
      return m > 6.5 || m < 0.1
        ? caution(t`${said(m)} is unusual for a joint: 0.3 to 6.1 m (1 to 20 ft). Check the unit.`)
        : null;
    case 'stick_up_start':
      return stickUp !== null &&
        !isLifted(now, m) &&
        Math.abs(m - stickUp) > now.settings.stick_up_tolerance_m
        ? caution(t`${said(stickUp)} was expected. Did the string move, or is a joint not entered?`)
        : null;
    case 'stick_up_end': {
      const start = others['stick_up_start'] ?? stickUp;
      if (start !== null && m > start + 0.005)
        return caution(t`More than before the drive: the string would have risen.`);
      if (start !== null && start - m > 3.5) return caution(t`${said(start - m)} in one drive. Check both.`);
      return m < -0.3 ? caution(t`The collar would stand below the reference.`) : null;
    }
    case 'to_sediment': {
      if (length === null) return null;
      if (m < 0) return caution(t`Sediment above the collar.`);
      if (m > length + 0.03)
        return caution(t`Below the shoe, which hangs at ${said(length)}. Check the tape and the joints.`);
      const before = now.sediment.sounded_m;
      if (before !== null && now.run === null && before - m > 0.15)
        return caution(t`${said(before - m)} higher than last sounded: is sand coming in?`);
      return null;
    }
    case 'to_water_inside':
    case 'to_water_before':
    case 'to_water_after':
      if (length !== null && m > length) return caution(t`Water below the shoe.`);
      if (column === 'to_water_after' && m > 1)
        return caution(t`${said(m)} below the collar: a filled string has 0 to 0.3 m. Check the unit.`);
      return m < -0.05 ? caution(t`Water above the collar.`) : null;
    case 'water_outside':
      return Math.abs(m) > 8 ? caution(t`${said(m)} from the reference is far. Check the unit.`) : null;
    case 'start_mark': {
      const sounded = now.sediment.sounded_m;
      if (length !== null && m > length)
        return { level: 'danger', words: t`${said(m - length, 'at least')} past the shoe.` };
      return sounded !== null && Math.abs(m - sounded) > 0.1
        ? caution(t`Sediment was sounded at ${said(sounded)}. Zero check the cable, or repeat the sounding.`)
        : null;
    }
    case 'end_mark': {
      if (length === null) return null;
      const c = clearanceOf(m, length, now.fold.joints_in, now.settings);
      if (c.verdict === 'past shoe')
        return {
          level: 'danger',
          words: t`${said(-c.clearance_m, 'at least')} past the shoe. Lift it now.`,
        };
      if (c.verdict === 'stop')
        return {
          level: 'danger',
          words: t`${said(c.clearance_m, 'at most')} left, inside the margin. No deeper.`,
        };
      const start = others['start_mark'] ?? now.run?.start_mark_m ?? null;
      if (start !== null && m < start - 0.005) return caution(t`Higher than where it first touched.`);
      return c.verdict === 'near stop'
        ? caution(t`Near stop: ${said(c.clearance_m - c.margin_m, 'at most')} to the stop mark.`)
        : null;
    }
    case 'to': {
      const from = others['from'] ?? null;
      if (from !== null && m <= from) return caution(t`Not below where it began.`);
      return from !== null && m - from > 6.5 ? caution(t`${said(m - from)} in one push. Check both.`) : null;
    }
    case 'top':
      return m < 0 ? caution(t`Above the top of what came up.`) : null;
    case 'bottom': {
      const top = others['top'] ?? null;
      if (top !== null && m <= top) return caution(t`Not below its upper end.`);
      const run = now.readings.findLast((r) => r.kind === 'run');
      return run?.kind === 'run' &&
        run.run === fixed['run'] &&
        run.recovered_m !== null &&
        m > run.recovered_m + 0.02
        ? caution(t`${said(run.recovered_m)} came up: longer than that.`)
        : null;
    }
    case 'recovered': {
      const entered = enteredOf(now, others);
      if (entered !== null && m > mostRecovered(entered))
        return caution(
          'from' in others
            ? t`${said(m)} recovered of a push of ${said(entered)}. Check both.`
            : t`${said(m)} recovered of ${said(entered)} taken. Look for fall-in on top.`,
        );
      return m < 0 ? caution(t`A recovered length is not below 0.`) : null;
    }
    case 'ground_below_reference':
      if (now.ground_m !== null && Math.abs(m - now.ground_m) > 0.3)
        return caution(t`${said(now.ground_m)} before: has the ground moved this much?`);
      return Math.abs(m) > 3
        ? caution(t`Far from the reference. Check the unit and the sign: down is positive.`)
        : null;
    default:
      return null;
  }
}

/** Lifted off an obstruction, the string stands higher than the last drive left it. */
function isLifted(now: HoleState, stickUp_m: number): boolean {
  const last = now.readings.findLast((r) => r.kind === 'drive');
  const wasLifted = last?.kind === 'drive' && last.obstruction_response === 'lifted_and_retried';
  return wasLifted && stickUp_m > (now.last?.stick_up_m ?? Number.POSITIVE_INFINITY);
}

/** What is doubtful about the label of an item that is added: the fold counts each label once. */
export function labelDoubt(label: string, item: string, now: HoleState): Doubt | null {
  const there = now.string.find(
    (i) => i.label !== null && sameLabel(i.label) === sameLabel(label) && i.item === (item || 'joint'),
  );
  if (there === undefined) return null;
  const counts = there.label === label.trim() ? t`this one would not be counted` : t`both would be counted`;
  return caution(t`${label.trim()} is already in the string: ${counts}. Another label?`);
}

/** What the form itself doubts of a text or a number, such as a label of pipe that is not at hand. */
export function textDoubt(
  field: Field,
  typed: string,
  values: Readonly<Record<string, string>>,
): Doubt | null {
  if ((field.kind !== 'text' && field.kind !== 'number') || typed.trim() === '') return null;
  const words = field.doubt?.(typed, values);
  return words == null ? null : caution(words);
}
