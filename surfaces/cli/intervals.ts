/** Stretches of time as they are written in options: OLDER-YOUNGER, cal BP. */
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
