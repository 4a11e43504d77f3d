/**
 * Dates of holes that share an error with others, of a reservoir or of doses measured together, given that error: so it is
 * one, however many dates and holes it is in. Out of place a date knows nothing of it.
 */
import {
  ageOfDateInWalk,
  giveDateInWalk,
  logOfDateInWalk,
  shiftWalk,
  unshiftWalk,
  type Walk,
} from '../walk.ts';
import { type DateSharing, logDateGiven } from './date-given.ts';

export interface SharedDate {
  /** Number in the hole. */
  date: number;
  sharing: DateSharing;
}

/** A hole's walk among others, with its dates that share an error. */
export interface SharingWalk {
  walk: Walk;
  shared: readonly SharedDate[];
  /** By such date: the error it was last given, in its sds; NaN for none. */
  given: Float64Array;
}

export const nothingGiven = (shared: readonly SharedDate[]): Float64Array =>
  new Float64Array(shared.length).fill(Number.NaN);

const logInPlace = ({ sharing }: SharedDate, age_cal_bp: number, shift: number): number =>
  logDateGiven(sharing, age_cal_bp, shift) - sharing.log_mass;

/** Log likelihood of the dates in one group of errors, their ages as they are, at an error in its sds. */
export function logOfSharedDates(walks: readonly SharingWalk[], group: string, shift: number): number {
  let sum = 0;
  for (const { walk, shared } of walks)
    for (const each of shared) {
      if (each.sharing.group !== group) continue;
      const age = ageOfDateInWalk(walk, each.date);
      sum += logOfDateInWalk(walk, each.date, age, logInPlace(each, age, shift));
    }
  return sum;
}

/** Those with dates in one group of errors. */
export const holesIn = <Each extends SharingWalk>(walks: readonly Each[], group: string): Each[] =>
  walks.filter(({ shared }) => shared.some(({ sharing }) => sharing.group === group));

/**
 * Shifts holes with such dates by as many years as the error says of them when it changes, and returns how much that
 * changes the log density of all that is in them; −∞ where one of them cannot be. `unshiftHoles` takes it back, all of them.
 */
export function shiftHoles(
  holes: readonly SharingWalk[],
  group: string,
  before: number,
  after: number,
): number {
  let sum = -logOfSharedDates(holes, group, before);
  for (const { walk, shared } of holes) {
    const ours = shared.filter(({ sharing }) => sharing.group === group);
    const loading_yr = ours.reduce((total, { sharing }) => total + sharing.loading_yr, 0) / ours.length;
    const apart = new Set(ours.map(({ date }) => date));
    sum += shiftWalk(walk, -loading_yr * (after - before), (date) => apart.has(date));
  }
  return sum + logOfSharedDates(holes, group, after);
}

export function unshiftHoles(holes: readonly SharingWalk[]): void {
  for (const { walk } of holes) unshiftWalk(walk);
}

/** Gives the dates the errors as they are. */
export function giveSharedDates(
  walks: readonly SharingWalk[],
  groups: readonly string[],
  errors: Float64Array,
): void {
  for (const { walk, shared, given } of walks)
    shared.forEach((each, k) => {
      const shift = errors[groups.indexOf(each.sharing.group)]!;
      if (given[k] === shift) return;
      given[k] = shift;
      giveDateInWalk(walk, each.date, (age) => logInPlace(each, age, shift));
    });
}
