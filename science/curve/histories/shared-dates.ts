/**
 * Dates of a hole that share an error with others, of a reservoir or of doses measured together, given that error: so it
 * enters a curve once, however many holes and points it is in. Out of place a date knows nothing of it.
 */
import {
  ageOfDateInWalk,
  giveDateInWalk,
  logOfDateInWalk,
  shiftWalk,
  unshiftWalk,
} from '@stillstand/science/dating';
import { logAgeGiven } from '../problem/age-prior.ts';
import type { SharedDate } from './histories.ts';
import type { WalkInCurve } from './walks.ts';

const logInPlace = ({ prior }: SharedDate, age_cal_bp: number, shift: number): number =>
  logAgeGiven(prior, age_cal_bp, shift) - prior.shared.log_mass;

/** Log likelihood of the dates in one group of errors, their ages as they are, at an error in its sds. */
export function logOfSharedDates(walks: readonly WalkInCurve[], group: string, shift: number): number {
  let sum = 0;
  for (const { of, walk } of walks)
    for (const each of of.shared) {
      if (each.prior.shared.group !== group) continue;
      const age = ageOfDateInWalk(walk, each.date);
      sum += logOfDateInWalk(walk, each.date, age, logInPlace(each, age, shift));
    }
  return sum;
}

/** Those with dates in one group of errors. */
export const holesIn = (walks: readonly WalkInCurve[], group: string): WalkInCurve[] =>
  walks.filter(({ of }) => of.shared.some(({ prior }) => prior.shared.group === group));

/**
 * Shifts holes with such dates by as many years as the error says of them when it changes, and returns how much that
 * changes the log density of all but the heights; −∞ where one of them cannot be. `unshiftHoles` takes it back, all of them.
 */
export function shiftHoles(
  holes: readonly WalkInCurve[],
  group: string,
  before: number,
  after: number,
): number {
  let sum = -logOfSharedDates(holes, group, before);
  for (const { of, walk } of holes) {
    const ours = of.shared.filter(({ prior }) => prior.shared.group === group);
    const loading_yr = ours.reduce((total, { prior }) => total + prior.shared.loading_yr, 0) / ours.length;
    const apart = new Set(ours.map(({ date }) => date));
    sum += shiftWalk(walk, -loading_yr * (after - before), (date) => apart.has(date));
  }
  return sum + logOfSharedDates(holes, group, after);
}

export function unshiftHoles(holes: readonly WalkInCurve[]): void {
  for (const { walk } of holes) unshiftWalk(walk);
}

/** Gives the dates the errors as they are. */
export function giveSharedDates(
  walks: readonly WalkInCurve[],
  groups: readonly string[],
  errors: Float64Array,
): void {
  for (const { of, walk, given } of walks)
    of.shared.forEach((each, k) => {
      const shift = errors[groups.indexOf(each.prior.shared.group)]!;
      if (given[k] === shift) return;
      given[k] = shift;
      giveDateInWalk(walk, each.date, (age) => logInPlace(each, age, shift));
    });
}
