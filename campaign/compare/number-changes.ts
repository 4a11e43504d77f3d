/** The numbers of two computations held against each other. */
import type { Results } from '@stillstand/campaign/results';
import { square } from '@stillstand/science/base';
import { chanceBelow } from './chance.ts';
import { type Kind, type Quantity, quantitiesOf, type Unit } from './quantities.ts';

/** A number that moved by less than this, its sigma too, is unchanged: half of the last digit that is printed. */
export const ROUNDING: Readonly<Record<Unit, number>> = {
  m: 0.0005,
  'mm/yr': 0.005,
  'cal BP': 0.5,
  ratio: 0.0005,
};

export type Side = Pick<Quantity, 'value' | 'sigma' | 'mcse' | 'status'>;

export interface NumberChange
  extends Pick<Quantity, 'kind' | 'id' | 'name' | 'unit' | 'isSigned' | 'isHeadline' | 'below'> {
  key: string;
  /** Null where the number is new. */
  old: Side | null;
  /** Null where the number is gone. */
  now: Side | null;
  /** New less old, in the unit; null where one of them is missing. */
  difference: number | null;
  /** The same in sigmas: √(mean of the two squared), so that it does not matter which is the old one. Null without sigma. */
  in_sigma: number | null;
  /** New sigma less old. */
  sigma_difference: number | null;
  /** Value and sigma moved by no more than two Monte-Carlo errors of the difference: another seed does as much. */
  within_monte_carlo: boolean;
}

export interface NumberChanges {
  changes: NumberChange[];
  /** Numbers that both have. */
  compared: number;
  /** Those that are the same to the last bit, sigma and status too. */
  same: number;
  /** Those that moved by less than `ROUNDING`. */
  rounded: number;
}

/** Changed numbers, the rates of the curve of the report first, then by how many sigmas they moved. */
export function numberChanges(old: Results, now: Results): NumberChanges {
  const before = new Map(quantitiesOf(old).map((each) => [each.key, each]));
  const after = new Map(quantitiesOf(now).map((each) => [each.key, each]));
  const pairs = [
    ...[...after.values()].map((each) => [before.get(each.key) ?? null, each] as const),
    ...[...before.values()].filter(({ key }) => !after.has(key)).map((each) => [each, null] as const),
  ];
  const both = pairs.filter(([a, b]) => a !== null && b !== null);
  const same = both.filter(([a, b]) => isSame(a!, b!)).length;
  const changes = pairs.flatMap(([a, b]) =>
    a !== null && b !== null && isUnchanged(a, b) ? [] : [change(a, b)],
  );
  return {
    changes: changes.sort(byWeight),
    compared: both.length,
    same,
    rounded: both.filter(([a, b]) => isUnchanged(a!, b!)).length - same,
  };
}

const isSame = (a: Quantity, b: Quantity): boolean =>
  a.value === b.value && a.sigma === b.sigma && a.status === b.status;

function isUnchanged(a: Quantity, b: Quantity): boolean {
  const rounding = ROUNDING[b.unit];
  return (
    a.status === b.status &&
    (a.sigma === null) === (b.sigma === null) &&
    Math.abs(b.value - a.value) < rounding &&
    Math.abs((b.sigma ?? 0) - (a.sigma ?? 0)) < rounding
  );
}

function change(a: Quantity | null, b: Quantity | null): NumberChange {
  const { kind, key, id, name, unit, isSigned, isHeadline } = (b ?? a)!;
  // What is under it in either: a row that no longer counts is under the old one only.
  const below = [...new Set([...(a?.below ?? []), ...(b?.below ?? [])])];
  const difference = a === null || b === null ? null : b.value - a.value;
  const sigma = a === null || b === null ? null : sigmaOfBoth(a.sigma, b.sigma);
  return {
    ...{ kind, key, id, name, unit, isSigned, isHeadline, below },
    old: sideOf(a),
    now: sideOf(b),
    difference,
    in_sigma: difference === null || sigma === null ? null : difference / sigma,
    sigma_difference:
      a === null || b === null || a.sigma === null || b.sigma === null ? null : b.sigma - a.sigma,
    within_monte_carlo: a !== null && b !== null && isChance(a, b),
  };
}

const sideOf = (of: Quantity | null): Side | null =>
  of === null ? null : { value: of.value, sigma: of.sigma, mcse: of.mcse, status: of.status };

function sigmaOfBoth(a: number | null, b: number | null): number | null {
  if (a === null || b === null) return null;
  const both = Math.sqrt((square(a) + square(b)) / 2);
  return both > 0 ? both : null;
}

/**
 * An sd of draws has a Monte-Carlo error of its own, which is not stored. With the tails that outliers give a curve it was
 * measured over 12 seeds as 1.7 times that of the mean (rms; docs/methods/compare.md), so that twice is allowed.
 */
function isChance(a: Quantity, b: Quantity): boolean {
  if (a.mcse === null || b.mcse === null || a.status !== b.status) return false;
  const chance = chanceBelow(a.mcse, b.mcse);
  return Math.abs(b.value - a.value) <= chance && Math.abs((b.sigma ?? 0) - (a.sigma ?? 0)) <= 2 * chance;
}

function byWeight(a: NumberChange, b: NumberChange): number {
  const first = Number(isHeadlineRate(b)) - Number(isHeadlineRate(a));
  return first !== 0 ? first : weight(b) - weight(a);
}

const isHeadlineRate = ({ kind, isHeadline }: { kind: Kind; isHeadline: boolean }): boolean =>
  kind === 'rate' && isHeadline;

/** In sigmas, of value or sigma, whichever moved more. New and gone before all that merely moved. */
function weight({ old, now, difference, in_sigma, sigma_difference }: NumberChange): number {
  if (difference === null) return Number.MAX_VALUE;
  const sigma = sigmaOfBoth(old?.sigma ?? null, now?.sigma ?? null);
  return Math.max(Math.abs(in_sigma ?? 0), sigma === null ? 0 : Math.abs(sigma_difference ?? 0) / sigma);
}
