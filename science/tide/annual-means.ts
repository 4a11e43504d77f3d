/** From a table of annual means to blocks: which rows can be used, and what is wrong with the others. */
import { type AnnualBlocks, type AnnualMean, annualBlocks, LEAST_YEARS } from './annual-blocks.ts';

export interface AnnualRow extends AnnualMean {
  /** Months with readings, 0 to 12; null where it is not known. */
  months: number | null;
  /** A doubt somebody wrote beside it; empty for none. */
  flag: string;
}

export interface AnnualFault {
  reason:
    | 'monthly_values'
    | 'not_metres'
    | 'missing_as_number'
    | 'same_year'
    | 'far_off'
    | 'flagged'
    | 'few_months'
    | 'gaps'
    | 'stands_out'
    | 'too_few_years'
    | 'wanders';
  /** Errors: not used. Warnings: used, in doubt. Notes: as it should be, said. */
  severity: 'error' | 'warning' | 'note';
  column: 'year' | 'level_m' | 'months' | 'flag';
  /** Number of the first row it is about. */
  row: number;
  found: string;
  expected: string;
  fix: string;
}

/** Beyond this no mean level above a gauge's zero is metres. */
const MOST_M = 30;
/** A year with fewer months is biased by the season (common practice, no source). */
const LEAST_MONTHS = 11;
/** Codes for a missing value lie far below any level (−99999 and the like). */
const MISSING_BELOW = -900;
/** A year so many robust sds off its neighbours, and so much, stands out. */
const OFF_SD = 6;
const OFF_M = 0.1;

/** Years so alike from one to the next are no weather: a zero that was moved, or decades that the model has not. */
const WANDERS = 0.85;

/** `found` is null where too little of the table can be used. */
export function readAnnualMeans(rows: readonly AnnualRow[]): {
  found: AnnualBlocks | null;
  faults: AnnualFault[];
} {
  const { means, faults } = usableMeans(rows);
  if (means.length === 0) return { found: null, faults };
  const found = annualBlocks(means);
  if (found.correlation > WANDERS)
    faults.push({
      reason: 'wanders',
      severity: 'warning',
      column: 'level_m',
      row: rows.findIndex(({ year_ce }) => year_ce === means[0]!.year_ce),
      found: `levels that keep away from a smooth rise for decades (correlation of a year with the next ${found.correlation.toFixed(2)}, 1 sd ${found.sd_m.toFixed(3)} m)`,
      expected: `a correlation below ${WANDERS}`,
      fix: 'Check the record for a change of the gauge or its zero. It is used until then, with an error that may be too small.',
    });
  return { found, faults };
}

/** Means in order of year, fit for `annualBlocks`; none where the table as a whole cannot be meant. */
export function usableMeans(rows: readonly AnnualRow[]): { means: AnnualMean[]; faults: AnnualFault[] } {
  const faults: AnnualFault[] = [];
  const say = (
    [reason, severity, column]: [AnnualFault['reason'], AnnualFault['severity'], AnnualFault['column']],
    of: readonly AnnualRow[],
    found: string,
    expected: string,
    fix: string,
  ): void => {
    faults.push({ reason, severity, column, row: rows.indexOf(of[0]!), found, expected, fix });
  };
  const none = { means: [], faults };
  const real = rows.filter(({ level_m }) => level_m > MISSING_BELOW);
  const missing = rows.filter(({ level_m }) => level_m <= MISSING_BELOW);
  if (missing.length > 0)
    say(
      ['missing_as_number', 'error', 'level_m'],
      missing,
      `${missing[0]!.level_m} in ${years(missing)}`,
      'nothing, or no row, where there is no mean',
      'Delete these rows. They are left out until then.',
    );
  if (real.length === 0) return none;

  const byYear = Map.groupBy(real, ({ year_ce }) => Math.floor(year_ce));
  const parts = real.filter(({ year_ce }) => !Number.isInteger(year_ce));
  if (parts.length > 0 || real.length > 1.5 * byYear.size) {
    const most = [...byYear.values()].reduce((a, b) => (b.length > a.length ? b : a));
    say(
      ['monthly_values', 'error', 'year'],
      parts.length > 0 ? parts : most.slice(1),
      parts.length > 0
        ? `years with a fraction, such as ${parts[0]!.year_ce}`
        : `${real.length} rows for ${byYear.size} years`,
      'one mean for each whole calendar year',
      'These look like monthly means: average the months of each calendar year, and give their number in months. The gauge is not used until then.',
    );
    return none;
  }
  const sizes = real.map(({ level_m }) => Math.abs(level_m)).sort((a, b) => a - b);
  const typical = sizes[Math.floor(sizes.length / 2)]!;
  if (typical > MOST_M) {
    say(
      ['not_metres', 'error', 'level_m'],
      real,
      `levels such as ${real[0]!.level_m}`,
      `metres, between −${MOST_M} and ${MOST_M}`,
      `These look like millimetres: divide by 1,000 (${real[0]!.level_m} mm is ${real[0]!.level_m / 1000} m). The gauge is not used until then.`,
    );
    return none;
  }

  const kept: AnnualRow[] = [];
  for (const of of byYear.values()) {
    if (of.length > 1)
      say(
        ['same_year', 'error', 'year'],
        of.slice(1),
        `${of.length} rows for ${of[0]!.year_ce}`,
        'one mean for each year',
        'Delete all but one. The first is used until then.',
      );
    kept.push(of[0]!);
  }
  /** Takes out what a rule is about, and says so. */
  const without = (
    among: readonly AnnualRow[],
    isOut: (row: AnnualRow) => boolean,
    about: Parameters<typeof say>[0],
    found: (out: readonly AnnualRow[]) => string,
    expected: string,
    fix: string,
  ): AnnualRow[] => {
    const out = among.filter(isOut);
    if (out.length > 0) say(about, out, found(out), expected, fix);
    return among.filter((row) => !isOut(row));
  };
  const inMetres = without(
    kept,
    ({ level_m }) => Math.abs(level_m) > MOST_M,
    ['far_off', 'error', 'level_m'],
    (out) => `${out[0]!.level_m} m in ${years(out)}`,
    `metres, between −${MOST_M} and ${MOST_M}, as the other years`,
    'Correct the level or its unit. These years are left out until then.',
  );
  const unflagged = without(
    inMetres,
    ({ flag }) => flag !== '',
    ['flagged', 'note', 'flag'],
    (out) => `a flag on ${years(out)}`,
    'no flag on a year that is to be used',
    'No action needed: flagged years are left out.',
  );
  const whole = without(
    unflagged,
    ({ months }) => months !== null && months < LEAST_MONTHS,
    ['few_months', 'note', 'months'],
    (out) => `fewer than ${LEAST_MONTHS} months in ${years(out)}`,
    `${LEAST_MONTHS} months or more, so that the season does not bias the mean`,
    'No action needed: these years are left out.',
  );
  const used = whole.sort((a, b) => a.year_ce - b.year_ce);
  if (used.length < LEAST_YEARS) {
    say(
      ['too_few_years', 'error', 'year'],
      used.length === 0 ? real : used,
      `${used.length} usable years`,
      `${LEAST_YEARS} or more: fewer do not show how much a year differs from the next`,
      'Add years. The gauge is not used until then.',
    );
    return none;
  }
  const gaps = used.flatMap((row, i) => {
    const before = used[i - 1];
    return before === undefined || row.year_ce === before.year_ce + 1
      ? []
      : [{ row, text: spanText(before.year_ce + 1, row.year_ce - 1) }];
  });
  if (gaps.length > 0)
    say(
      ['gaps', 'note', 'year'],
      gaps.map(({ row }) => row),
      `no usable mean in ${gaps.map(({ text }) => text).join(', ')}`,
      'every year, or gaps that are known',
      'No action needed: the other years are used.',
    );
  const off = standingOut(used);
  if (off.length > 0)
    say(
      ['stands_out', 'warning', 'level_m'],
      off,
      off.map(({ year_ce, level_m }) => `${level_m} m in ${year_ce}`).join(', '),
      'a level like that of the years next to it',
      'Check it. Flag the year to leave it out; it is used until then.',
    );
  return { means: used.map(({ year_ce, level_m, sigma_m }) => ({ year_ce, level_m, sigma_m })), faults };
}

/** Years far from the median of the six next to them, by the median of all such distances. */
function standingOut(used: readonly AnnualRow[]): AnnualRow[] {
  const median = (values: readonly number[]): number =>
    values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)]!;
  const apart = used.map((row, i) => {
    const from = Math.max(0, Math.min(used.length - 7, i - 3));
    const next = used.slice(from, from + 7).filter((each) => each !== row);
    return Math.abs(row.level_m - median(next.map(({ level_m }) => level_m)));
  });
  // Half of a normal's distances from its middle are below 0.674 sd.
  const sd = median(apart) / 0.674;
  return used.filter((_, i) => apart[i]! > OFF_M && apart[i]! > OFF_SD * sd);
}

const spanText = (from: number, to: number): string => (from === to ? `${from}` : `${from}–${to}`);

/** "1915–1919, 1923". */
function years(rows: readonly AnnualRow[]): string {
  const all = rows.map(({ year_ce }) => year_ce).sort((a, b) => a - b);
  const spans: [number, number][] = [];
  for (const year of all) {
    const last = spans.at(-1);
    if (last !== undefined && year === last[1] + 1) last[1] = year;
    else spans.push([year, year]);
  }
  return spans.map(([from, to]) => spanText(from, to)).join(', ');
}
