/**
 * The classes of one grain-size analysis put together: parts that a total repeats are counted once, the sum is held
 * against 100 %, and what remains is a cumulative curve.
 */
import type { SizeRange } from './size-range.ts';

/** A class as it was measured. */
export interface GrainClass extends SizeRange {
  id: string;
  /** As its property names it. */
  name: string;
  /** Per cent of the mass, or a mass where `is_mass`; of a limit, the limit. */
  amount: number;
  /** 1 sigma of it; null where none was stated. */
  sigma: number | null;
  /** The amount is less than that. */
  is_limit: boolean;
}

export interface GrainFault {
  code: 'negative' | 'overlap' | 'parts' | 'gap' | 'sum' | 'empty';
  severity: 'error' | 'warning' | 'note';
  /** Ids of the classes it is about. */
  classes: readonly string[];
  found: string;
  expected: string;
  fix: string;
}

/** A class that counts, from coarse to fine. */
export interface CountedClass extends SizeRange {
  id: string;
  name: string;
  /** As stated, of `sum_percent`; a limit counts as its half, within a uniform error. */
  percent: number;
  sigma: number | null;
}

export interface GrainClasses {
  /** From coarse to fine, without overlap. */
  classes: readonly CountedClass[];
  /** Of the classes as they were stated; null of masses, which need not sum to anything. */
  sum_percent: number | null;
  /** Whether the classes may be taken for all of the sample. */
  is_whole: boolean;
  faults: readonly GrainFault[];
}

/** Limits that differ by less are one, φ: 63 µm for 62.5, 2 µm for 1.95 or 4 µm for 3.9. */
export const SAME_PHI = 0.05;
/** Sums so near to 100 are rounding; beyond the second the analysis is not whole. Per cent; common practice, no source. */
const ROUNDING = 1;
const LOSS = 5;

const end = (phi: number | null, open: number): number => phi ?? open;
const top = (range: SizeRange): number => end(range.coarser_phi, -Infinity);
const foot = (range: SizeRange): number => end(range.finer_phi, Infinity);
const width = (range: SizeRange): number => foot(range) - top(range);
const near = (a: number, b: number): boolean => a === b || Math.abs(a - b) <= SAME_PHI;
const overlap = (a: SizeRange, b: SizeRange): boolean =>
  Math.min(foot(a), foot(b)) - Math.max(top(a), top(b)) > SAME_PHI;

/** Classes in any order, in per cent of one analysis, or in grams where `is_mass`. Never throws for bad input. */
export function grainClasses(given: readonly GrainClass[], is_mass: boolean): GrainClasses {
  const faults: GrainFault[] = [];
  const usable = given.filter((each) => {
    if (Number.isFinite(each.amount) && each.amount >= 0) return true;
    faults.push({
      code: 'negative',
      severity: 'error',
      classes: [each.id],
      found: `${each.name} ${shown(each.amount)}`,
      expected: '0 or more',
      fix: 'Correct it. The class is left out until then.',
    });
    return false;
  });
  const counted = withoutTotals(usable, faults);
  const classes = counted
    .map(({ id, name, coarser_phi, finer_phi, amount, sigma, is_limit }): CountedClass => {
      // Anywhere from 0 to the limit: a uniform's mean, and its sd as a part of its width.
      const half = { percent: amount / 2, sigma: amount / Math.sqrt(12) };
      return { id, name, coarser_phi, finer_phi, ...(is_limit ? half : { percent: amount, sigma }) };
    })
    .sort((a, b) => top(a) - top(b));
  gaps(classes, faults);
  const limits = counted.filter(({ is_limit }) => is_limit);
  const sum = classes.reduce((total, { percent }) => total + percent, 0);
  const slack = limits.reduce((total, { amount }) => total + amount / 2, 0);
  if (!(sum > 0)) {
    if (usable.length > 0)
      faults.push({
        code: 'empty',
        severity: 'error',
        classes: usable.map(({ id }) => id),
        found: 'no sediment in any class',
        expected: 'at least one class above 0',
        fix: 'Correct the classes. The sample has no grain size until then.',
      });
    return { classes: [], sum_percent: is_mass ? null : 0, is_whole: false, faults };
  }
  if (is_mass) {
    const per_cent = classes.map((each) => scaled(each, 100 / sum));
    return { classes: per_cent, sum_percent: null, is_whole: true, faults };
  }
  const off = Math.max(0, Math.abs(sum - 100) - slack);
  if (off > ROUNDING)
    faults.push({
      code: 'sum',
      severity: off > LOSS ? 'error' : 'warning',
      classes: classes.map(({ id }) => id),
      found: `classes that sum to ${shown(sum)} %`,
      expected: '100 %',
      fix:
        off > LOSS
          ? 'Look for a class that is missing, entered twice or in another unit. No statistics until then.'
          : 'Check the classes. They are taken as parts of their own sum until then.',
    });
  return { classes, sum_percent: sum, is_whole: off <= LOSS, faults };
}

const scaled = (each: CountedClass, factor: number): CountedClass => ({
  ...each,
  percent: each.percent * factor,
  sigma: each.sigma === null ? null : each.sigma * factor,
});

/** Parts before their total: the narrowest classes count, and a total is held against its parts. */
function withoutTotals(given: readonly GrainClass[], faults: GrainFault[]): GrainClass[] {
  const counted: GrainClass[] = [];
  const byWidth = given.toSorted((a, b) => width(a) - width(b) || top(a) - top(b));
  for (const each of byWidth) {
    const under = counted.filter((other) => overlap(each, other));
    if (under.length === 0) {
      counted.push(each);
      continue;
    }
    const classes = [each, ...under].map(({ id }) => id);
    const [twin] = under;
    if (under.length === 1 && near(top(each), top(twin!)) && near(foot(each), foot(twin!))) {
      faults.push({
        code: 'overlap',
        severity: 'error',
        classes,
        found: `${each.name} twice: ${shown(twin!.amount)} and ${shown(each.amount)}`,
        expected: 'each class once in an analysis',
        fix: 'Remove one, or give each analysis a batch of its own. The first counts until then.',
      });
      continue;
    }
    if (!tiles(each, under)) {
      faults.push({
        code: 'overlap',
        severity: 'error',
        classes,
        found: `${each.name} over ${under.map(({ name }) => name).join(', ')}`,
        expected: 'classes that do not overlap, or a total with all its parts',
        fix: 'Correct the limits. The wider class is left out until then.',
      });
      continue;
    }
    const parts = under.reduce((total, { amount }) => total + amount, 0);
    const slack = under.reduce((total, { amount, is_limit }) => total + (is_limit ? amount : 0), 0);
    if (Math.abs(parts - each.amount) > ROUNDING + slack)
      faults.push({
        code: 'parts',
        severity: 'warning',
        classes,
        found: `${each.name} ${shown(each.amount)}, its parts ${shown(parts)}`,
        expected: 'a total that is the sum of its parts',
        fix: 'Correct one of them. The parts count until then.',
      });
  }
  return counted;
}

/** Whether the parts follow each other from one end of the whole to the other. */
function tiles(whole: SizeRange, parts: readonly GrainClass[]): boolean {
  let reached = top(whole);
  for (const part of parts.toSorted((a, b) => top(a) - top(b))) {
    if (!near(top(part), reached)) return false;
    reached = foot(part);
  }
  return near(reached, foot(whole));
}

function gaps(classes: readonly CountedClass[], faults: GrainFault[]): void {
  for (let i = 1; i < classes.length; i++) {
    const [before, after] = [classes[i - 1]!, classes[i]!];
    if (near(foot(before), top(after))) continue;
    faults.push({
      code: 'gap',
      severity: 'warning',
      classes: [before.id, after.id],
      found: `nothing between ${before.name} and ${after.name}`,
      expected: 'a class for every size between the coarsest and the finest',
      fix: 'Add the class, with 0 where it is empty. It is taken as empty until then.',
    });
  }
}

/** At most three decimals. */
const shown = (value: number): string => String(Number(value.toFixed(3))).replace('-', '−');
