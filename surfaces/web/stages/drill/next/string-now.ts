/** What a string is in, as the next action and the numbers both ask: loose, on its way out, read since; and its names. */

import type { HoleState } from '@stillstand/campaign/holes';
import { isSounded } from '@stillstand/science/rig';
import { t, translated } from '../../../language/index.ts';
import { m2 } from '../tape/lengths.ts';

/** The threaded item that goes below ground unconfirmed, the lowest first. */
export function looseJoint(now: HoleState): HoleState['string'][number] | null {
  return (
    now.string.find(
      (i, at) =>
        (i.item === 'joint' || i.length_m !== null) && (i.tight === false || (i.tight === null && at > 0)),
    ) ?? null
  );
}

/** The string is on its way out: something was pulled since anything last went in or down. */
export function drawing(now: HoleState): boolean {
  const last = now.readings.findLast((r) => r.kind === 'joint' || r.kind === 'drive');
  return (
    last?.kind === 'joint' &&
    (last.action === 'pull' || last.action === 'left' || last.action === 'lost' || last.action === 'cut')
  );
}

/** Nothing was read since that changes what lies in the string. */
export function isLast(now: HoleState, row_id: string): boolean {
  const at = now.readings.findIndex((r) => r.row_id === row_id);
  return !now.readings
    .slice(at + 1)
    .some((r) => r.kind === 'drive' || r.kind === 'joint' || r.kind === 'run' || isSounded(r));
}

/** "joint J4", "shoe". */
export const nameOf = (i: { item: string; label: string | null }): string =>
  `${translated(i.item.replace('_', ' '))} ${i.label ?? ''}`.trim();

export function stickUpWords(now: HoleState): string {
  const stickUp = now.last?.stick_up_m ?? null;
  return stickUp === null ? t`every thread is tight` : t`stick-up ${m2(stickUp)} m`;
}
