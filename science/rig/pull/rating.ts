/**
 * A rated load as it is stamped on the gear, in kN, kg or tonnes, made kN without ever making it larger. What is unclear
 * (a ton, which can be any of three, a breaking load) is said, for a competent person to decide.
 */

/** 1 t = 1000 kg × 9.80665 m/s², standard gravity. */
export const KN_PER_TONNE = 9.80665;

/** kN of one unit. Pound 0.45359237 kg, short ton 2000 lb: by definition. */
const KN_PER: Readonly<Record<string, number>> = {
  kn: 1,
  dan: 0.01,
  n: 0.001,
  kg: KN_PER_TONNE / 1000,
  kgf: KN_PER_TONNE / 1000,
  t: KN_PER_TONNE,
  te: KN_PER_TONNE,
  tonne: KN_PER_TONNE,
  tonnes: KN_PER_TONNE,
  lb: (KN_PER_TONNE * 0.45359237) / 1000,
  lbs: (KN_PER_TONNE * 0.45359237) / 1000,
  lbf: (KN_PER_TONNE * 0.45359237) / 1000,
  // metric, long or short: the smallest of them, on the safe side
  ton: (KN_PER_TONNE * 907.18474) / 1000,
};

export interface ReadRating {
  /** Null where no rating can be read from it. */
  kn: number | null;
  /** What is unclear about it, for people; null where nothing is. */
  doubt: string | null;
}

const UNITS = 'kN|daN|kgf|kg|tonnes|tonne|tons|ton|lbf|lbs|lb|te|t|n';
const LOAD = new RegExp(`(\\d+ \\d+/\\d+|\\d+/\\d+|\\d+(?:[.,]\\d+)?)\\s*(${UNITS})(?![a-z])`, 'gi');
const BREAKING = /\b(?:MBL|MBS|MBF|BL|break(?:ing)?)\b/i;
const WORKING = /\b(?:WLL|SWL|NWL|working load|rated)\b/i;

/**
 * The load in a marking such as "WLL 2 t", "20 kN", "3/4 t", "2000 kg". A bare number is read only as `bare`. Of several
 * loads the one behind WLL or SWL counts, else the least; a breaking load is no rating.
 */
export function readRating(marking: string, bare: 'kN' | null = null): ReadRating {
  const text = marking.trim();
  if (bare !== null && /^\d+(?:\.\d+)?$/.test(text)) return { kn: Number(text), doubt: null };
  const behind = WORKING.exec(text);
  const from = behind?.index ?? 0;
  const loads = [...text.matchAll(LOAD)].filter(({ index }) => index >= from);
  const first = loads[0];
  if (first === undefined) return { kn: null, doubt: 'no load with its unit (kN, kg or t) in the marking' };
  if (behind === null && BREAKING.test(text))
    return { kn: null, doubt: 'a breaking load is no rated load: the working load is far smaller' };
  const read = (behind === null ? loads : [first]).map(loadOf);
  const unread = read.find(({ kn }) => kn === null);
  if (unread !== undefined) return unread;
  const least = read.reduce((a, b) => (b.kn! < a.kn! ? b : a));
  return loads.length > 1 && behind === null
    ? { kn: least.kn, doubt: least.doubt ?? 'several loads in the marking; the least is used' }
    : least;
}

function loadOf([, number = '', unit = '']: readonly string[]): ReadRating {
  if (/,\d{3}$/.test(number))
    return { kn: null, doubt: `${number}: the comma can mean thousands or decimals; write it without` };
  const size = sizeOf(number);
  const isTon = unit === 'T' || /^tons?$/i.test(unit);
  const kn = size * (KN_PER[isTon ? 'ton' : unit.toLowerCase()] ?? Number.NaN);
  if (!(kn > 0)) return { kn: null, doubt: `${number} ${unit} is no load` };
  return { kn, doubt: isTon ? `“${unit}” can be a metric, long or short ton; the short one is used` : null };
}

/** "4 3/4", "3/4", "2.5", "2,5". */
function sizeOf(number: string): number {
  const [, whole = '0', over, under] = /^(?:(\d+) )?(\d+)\/(\d+)$/.exec(number) ?? [];
  return over === undefined ? Number(number.replace(',', '.')) : Number(whole) + Number(over) / Number(under);
}
