/** How the axes of the curve are asked for: their limits, their direction and their units. */
import { printed, years } from '@stillstand/output/words';

export const AGE_SCALES = ['bp', 'ce', 'ka'] as const;
export const RATE_UNITS = ['mm/yr', 'cm/century', 'm/kyr'] as const;

export interface CurveAxes {
  /** Limits of the ages drawn, cal BP whatever is written at the axis; those of the results otherwise. */
  oldest_cal_bp?: number;
  youngest_cal_bp?: number;
  /** Limits of sea level, metres, up positive. */
  highest_m?: number;
  lowest_m?: number;
  /** The side where the older ages are; left otherwise. */
  older?: 'left' | 'right';
  /** Ages as cal BP, as years BCE and CE, or as thousands of years cal BP. */
  ages?: (typeof AGE_SCALES)[number];
  rates?: (typeof RATE_UNITS)[number];
}

/** RangeError where two limits leave nothing between them; `oldest` 60,000 cal BP is the end of IntCal20. */
export function checkedAxes(axes: CurveAxes): CurveAxes {
  const { oldest_cal_bp: oldest, youngest_cal_bp: youngest, highest_m: highest, lowest_m: lowest } = axes;
  if (oldest !== undefined && youngest !== undefined && oldest <= youngest) {
    throw new RangeError(
      `ages of the curve: expected the oldest above the youngest, found ${years(oldest)} and ${years(youngest)} cal BP`,
    );
  }
  if (highest !== undefined && lowest !== undefined && highest <= lowest) {
    throw new RangeError(
      `levels of the curve: expected the highest above the lowest, found ${printed(highest, 2)} and ${printed(lowest, 2)} m`,
    );
  }
  return axes;
}

interface AgeScale {
  name: string;
  /** After an age in words; nothing where its label says it. */
  unit: string;
  /** What is written at the axis, of an age in cal BP. */
  of(cal_bp: number): number;
  /** The age in cal BP of what is written. */
  from(value: number): number;
  label(value: number, step: number): string;
  /** Room for a label, points. */
  room: number;
}

const ka = (value: number, step: number): string => printed(value, step >= 1 ? 0 : step >= 0.1 ? 1 : 2);

/**
 * Years of the era, those before it below 0. It has no year 0: 1950 cal BP is 1 BCE, 1949 cal BP 1 CE, and 0 is where
 * they meet, half a year from either.
 */
const yearOf = (cal_bp: number): number => (cal_bp < ERA ? 1950 - cal_bp : 1949 - cal_bp);
const ERA = 1949.5;

function ageOfYear(year: number): number {
  if (Math.abs(year) < 0.5) return ERA;
  return year > 0 ? 1950 - year : 1949 - year;
}

const yearInWords = (year: number): string =>
  year === 0 ? 'BCE | CE' : `${years(Math.abs(year))} ${year < 0 ? 'BCE' : 'CE'}`;

export const AGE_SCALE: Record<(typeof AGE_SCALES)[number], AgeScale> = {
  bp: { name: 'age, cal BP', unit: ' cal BP', of: (age) => age, from: (age) => age, label: years, room: 34 },
  ce: { name: 'calendar year', unit: '', of: yearOf, from: ageOfYear, label: yearInWords, room: 46 },
  ka: {
    name: 'age, ka cal BP',
    unit: ' ka cal BP',
    of: (age) => age / 1000,
    from: (age) => age * 1000,
    label: ka,
    room: 24,
  },
};

/** One mm/yr in each unit, and as it is written at the axis. */
export const RATE_UNIT: Record<(typeof RATE_UNITS)[number], { per_mm_yr: number; written: string }> = {
  'mm/yr': { per_mm_yr: 1, written: 'mm/yr' },
  'cm/century': { per_mm_yr: 10, written: 'cm per century' },
  'm/kyr': { per_mm_yr: 1, written: 'm/kyr' },
};
