/** Words and numbers of what is expected, no finer than it is known. */
import type { CrewUnit } from '@stillstand/campaign/holes';
import { printed } from '@stillstand/output/words';
import { FOOT_M } from '@stillstand/science/base';
import { t } from '../../../language/index.ts';
import type { AheadLine } from './ahead.ts';

/** Environment and about what age, of the holes that have it; empty where nobody says. */
export function aboutOf({ environment, age_cal_bp }: Pick<AheadLine, 'environment' | 'age_cal_bp'>): string {
  const age = age_cal_bp === null ? null : ageOf(age_cal_bp);
  return [environment, age].filter((part) => part !== null && part !== '').join('; ');
}

/** To the hundred years: the ages are of other places. */
function ageOf({ younger, older }: { younger: number; older: number }): string {
  const [from, to] = [older, younger].map((age) => printed(Math.round(age / 100) * 100, 0));
  return from === to ? t`about ${from!} cal BP` : t`${from!}–${to!} cal BP`;
}

/** Decimals as the band has use for; no sign on a depth, a true minus on an elevation. */
export function lengthOf(
  m: number,
  unit: CrewUnit,
  { upper, lower }: { upper: number; lower: number },
): string {
  return printed(unit === 'ft' ? m / FOOT_M : m, Math.abs(upper - lower) < WIDE_M ? 2 : 1);
}

/** A band as wide as this has no use for centimetres, m. */
const WIDE_M = 0.3;
