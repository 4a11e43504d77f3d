/** A messy table of annual means: what is used, and what is said of the rest. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { type AnnualRow, readAnnualMeans, usableMeans } from './annual-means.ts';

const YEARS = Array.from({ length: 40 }, (_, i) => 1950 + i);
const row = (year_ce: number, of: Partial<AnnualRow> = {}): AnnualRow => ({
  year_ce,
  // A sawtooth of ± 2 cm on a rise.
  level_m: 7 + 0.002 * (year_ce - 1950) + 0.02 * ((year_ce % 3) - 1),
  sigma_m: null,
  months: null,
  flag: '',
  ...of,
});
const PLAIN = YEARS.map((year) => row(year));
const said = (rows: readonly AnnualRow[]) =>
  usableMeans(rows).faults.map(({ reason, severity, row: at }) => [reason, severity, at]);
const used = (rows: readonly AnnualRow[]): number => usableMeans(rows).means.length;
const changed = (change: (each: AnnualRow) => AnnualRow): AnnualRow[] => PLAIN.map(change);

test('a whole table is used as it is, in order of year', () => {
  assert.deepEqual(said(PLAIN), []);
  const { means } = usableMeans(PLAIN.toReversed());
  assert.deepEqual(
    means,
    PLAIN.map(({ year_ce, level_m, sigma_m }) => ({ year_ce, level_m, sigma_m })),
  );
});

test('millimetres, months for years and codes for missing values are asked about, once', () => {
  const inMm = changed((each) => ({ ...each, level_m: 1000 * each.level_m }));
  assert.deepEqual(said(inMm), [['not_metres', 'error', 0]]);
  assert.match(
    usableMeans(inMm).faults[0]!.fix,
    /divide by 1,000 \(69\d\d mm is 6\.9\d+ m\)|\(70\d\d mm is 7\.0/,
  );
  assert.equal(used(inMm), 0);
  const parts = PLAIN.flatMap((each) =>
    [0, 1, 2].map((m) => ({ ...each, year_ce: each.year_ce + m / 12 + 1 / 24 })),
  );
  assert.deepEqual(said(parts), [['monthly_values', 'error', 0]]);
  const twelve = PLAIN.flatMap((each) => Array.from({ length: 12 }, () => each));
  assert.equal(said(twelve)[0]![0], 'monthly_values');
  assert.equal(used(twelve), 0);
  const codes = changed((each) =>
    each.year_ce > 1960 && each.year_ce < 1964 ? { ...each, level_m: -99999 } : each,
  );
  assert.deepEqual(said(codes), [
    ['missing_as_number', 'error', 11],
    ['gaps', 'note', 14],
  ]);
  assert.match(usableMeans(codes).faults[0]!.found, /^-99999 in 1961–1963$/);
  assert.equal(used(codes), 37);
});

test('gaps, flags, years of few months, two rows of a year, a year far off: each is named', () => {
  assert.deepEqual(said(PLAIN.filter(({ year_ce }) => year_ce !== 1970)), [['gaps', 'note', 20]]);
  const flagged = changed((each) => (each.year_ce === 1989 ? { ...each, flag: 'Q' } : each));
  assert.deepEqual(said(flagged), [['flagged', 'note', 39]]);
  assert.equal(used(flagged), 39);
  const few = changed((each) => ({ ...each, months: each.year_ce === 1950 ? 8 : 12 }));
  assert.deepEqual(said(few), [['few_months', 'note', 0]]);
  assert.equal(used(few), 39);
  assert.deepEqual(said([...PLAIN, row(1960, { level_m: 7.5 })]), [['same_year', 'error', 40]]);
  const off = changed((each) => (each.year_ce === 1975 ? { ...each, level_m: 7.6 } : each));
  assert.deepEqual(said(off), [['stands_out', 'warning', 25]]);
  assert.equal(used(off), 40, 'used until it is flagged');
  const unit = changed((each) => (each.year_ce === 1975 ? { ...each, level_m: 7050 } : each));
  assert.deepEqual(said(unit), [
    ['far_off', 'error', 25],
    ['gaps', 'note', 26],
  ]);
  assert.equal(used(unit), 39);
});

test('a zero that was moved half-way is doubted', () => {
  const moved = changed((each) => ({ ...each, level_m: each.level_m + (each.year_ce < 1968 ? 0 : 0.4) }));
  const reasons = ({ faults }: ReturnType<typeof readAnnualMeans>): string[] =>
    faults.map(({ reason }) => reason);
  assert.deepEqual(reasons(readAnnualMeans(moved)), ['stands_out', 'wanders']);
  assert.deepEqual(reasons(readAnnualMeans(PLAIN)), []);
});

test('too few years are not used', () => {
  assert.deepEqual(said(PLAIN.slice(0, 9)), [['too_few_years', 'error', 0]]);
  assert.equal(used(PLAIN.slice(0, 9)), 0);
  assert.equal(used(PLAIN.slice(0, 10)), 10);
  assert.deepEqual(said([]), []);
});
