import type { AgeInterval } from '@stillstand/campaign/results';
import { years } from '@stillstand/output/words';

/** "1963 CE" of a year after 1950; nothing of the others, which are read in cal BP. */
export const commonEra = (cal_bp: number): string => (cal_bp < 0 ? `${1950 - Math.round(cal_bp)} CE` : '');

/** "5,587–5,468", and with its share where the set has several parts: "5,587–5,468 (12 %)"; a single year alone. */
export function setWords(set: AgeInterval, withShare: boolean): string {
  const [older, end] = [years(set.older_cal_bp), years(set.younger_cal_bp)];
  const younger = end === older ? '' : set.younger_cal_bp < 0 ? ` to ${end}` : `–${end}`;
  const share = set.probability * 100;
  const percent = share < 1 ? 'under 1' : String(Math.round(share));
  return `${older}${younger}${withShare ? ` (${percent} %)` : ''}`;
}
