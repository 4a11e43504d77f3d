/** Stretches of time and of depth as they are written in options: OLDER-YOUNGER, cal BP; TOP-BASE, m. */
import { WrongUse } from './command.ts';

interface Interval {
  older_cal_bp: number;
  younger_cal_bp: number;
}

/** "8000-7000, 7000-6000" of an option, none for an empty text; wrong use where one is none. */
export function intervalsOf(option: string, list: string): Interval[] {
  if (list.trim() === '') return [];
  return list.split(/[,;]/).map((word) => {
    const ends = /^\s*(-?[\d.]+)\s*-\s*(-?[\d.]+)\s*$/.exec(word);
    const older_cal_bp = Number(ends?.[1]);
    const younger_cal_bp = Number(ends?.[2]);
    if (!(older_cal_bp > younger_cal_bp)) {
      throw new WrongUse(`--${option}: found “${word}”, expected OLDER-YOUNGER such as 8000-7000`);
    }
    return { older_cal_bp, younger_cal_bp };
  });
}

/** "1.2-1.4, 2-2.5" of an option, m below the ground; wrong use where one is none. */
export const stretchesOf = (
  option: string,
  list: string,
  deepest_m: number,
): { top_m: number; base_m: number }[] =>
  list.split(/[,;]/).map((word) => {
    const ends = /^\s*([\d.]+)\s*-\s*([\d.]+)\s*$/.exec(word);
    const [top_m, base_m] = [Number(ends?.[1]), Number(ends?.[2])];
    if (!(top_m < base_m && base_m <= deepest_m))
      throw new WrongUse(
        `--${option}: found “${word}”, expected TOP-BASE such as 1.2-1.4, from 0 to ${deepest_m} m below the ground`,
      );
    return { top_m, base_m };
  });

/** Numbers separated by commas; wrong use where one is none. */
export function numbersOf(option: string, list: string): number[] {
  return list.split(',').map((word) => {
    const value = Number(word.replace('−', '-'));
    if (word.trim() === '' || !Number.isFinite(value)) {
      throw new WrongUse(`--${option}: found “${word}”, expected numbers separated by commas`);
    }
    return value;
  });
}
