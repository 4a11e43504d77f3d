/** What another seed would do as well. */
import { square } from '@stillstand/science/base';

/** So many Monte-Carlo errors of the difference count as chance: 95 % of a normal law. */
const CHANCE = 2;

/** Bound below which the difference of two means of draws is chance, from the Monte-Carlo error of each. */
export const chanceBelow = (a: number, b: number): number => CHANCE * Math.sqrt(square(a) + square(b));
