/** How fast the string goes down, with the shoe's depth; and the plate of a drive that is slow, by the rule of pace.ts. */

import type { HoleState } from '@stillstand/campaign/holes';
import type { ReducedDrive } from '@stillstand/science/rig';
import { t } from '../../../language/index.ts';
import { m2, m2Least } from '../tape/lengths.ts';
import { type BigNumber, known } from './big-number.ts';

/** The last drive that was timed, while nothing was driven since. */
function lastDrive(now: HoleState): ReducedDrive | null {
  const drive = now.fold.drives.at(-1);
  const last = now.readings.findLast((r) => r.kind === 'drive');
  return drive === undefined || drive.rate_m_per_min === null || drive.row_id !== last?.row_id ? null : drive;
}

/** Rate of the last drive, to be shown with the shoe; null where it was not timed. */
export function rateWithShoe(now: HoleState): BigNumber['also'] {
  const drive = lastDrive(now);
  if (drive === null) return null;
  const level = drive.pace === 'refusal' ? 'danger' : drive.pace === 'slowing' ? 'caution' : 'normal';
  return { value: m2(drive.rate_m_per_min!), unit: 'm/min', level };
}

/** The plate of a slow drive, until something else is read; null where it was not slow. */
export function penetrationRate(now: HoleState): BigNumber | null {
  const drive = lastDrive(now);
  const reading = now.readings.at(-1);
  if (drive === null || drive.row_id !== reading?.row_id) return null;
  if (drive.pace !== 'slowing' && drive.pace !== 'refusal') return null;
  const rate = drive.rate_m_per_min!;
  const minutes = (reading.kind === 'drive' ? (reading.duration_s ?? 0) : 0) / 60;
  const sigma = minutes > 0 ? (Math.SQRT2 * now.settings.stick_up_sigma_m) / minutes : 0;
  const usual = drive.usual_m_per_min;
  const of = usual === null ? '' : t`; ${((100 * rate) / usual).toFixed(0)} % of the usual ${m2(usual)}`;
  const base = known(
    t`Penetration rate`,
    m2(rate),
    'm/min',
    sigma > 0 ? m2Least(2 * sigma) : null,
    t`${m2(rate * minutes)} m in ${secondsWords(minutes * 60)}${of}`,
  );
  return drive.pace === 'refusal'
    ? {
        ...base,
        level: 'danger',
        word: t`Refusal`,
        say: t`Vibrator off. Lift and retry, move, or end the hole.`,
      }
    : {
        ...base,
        level: 'caution',
        word: t`Slowing`,
        say:
          usual === null ? t`Stop before the string sticks.` : t`Stop at ${stopAt(usual)}, a tenth of usual.`,
      };
}

/** The rate at which it is refusal, rounded up: to stop sooner is the safe side. */
const stopAt = (usual: number): string => m2Least(Math.max(0.05, usual / 10));

const secondsWords = (s: number): string => (s < 90 ? `${s.toFixed(0)} s` : t`${(s / 60).toFixed(1)} min`);
