/**
 * Radiocarbon ages whose distances in years are known, rings of a tree or varves, dated together (wiggle match; Bronk
 * Ramsey, van der Plicht & Weninger 2001, from memory). One year is free, that of the first member:
 * p(t) ∝ Π N(rᵢ; μ(t − gapᵢ) + ΔR, errorᵢ² + σ(t − gapᵢ)²), every year equally likely beforehand.
 */
import { chiSquareUpperTail, exp, log, normalCdf, square } from '@stillstand/science/base';
import {
  type Calibration,
  calibrate,
  type NotCalibrated,
  type RadiocarbonAge,
  trimmed,
} from '../calibration.ts';
import type { YearlyCurve } from '../yearly-curve.ts';
import { blockCurve, blockYears, type Place } from './block-curve.ts';
import { convolved, gapKernel, type Kernel, logSum, sumOf } from './log-sums.ts';

export interface SequenceMember extends RadiocarbonAge, Place {
  id: string;
  /** 1 sigma ≥ 0 of its distance from the first, which younger members have positive; its own. */
  after_first_sd_yr: number;
  curve: YearlyCurve;
  /** Members of one group share the error of their ΔR; null: its own. One group at most. */
  offset_group: string | null;
}

interface MatchedMember {
  id: string;
  /** Age of the middle of its rings, by the whole sequence. */
  age: Calibration;
  /** Radiocarbon age that the others let expect, 14C yr BP; NaN for a single member. */
  expected_c14_age: number;
  /** Probability of a measured age as far from that as this one, or farther; 1 for a single member. */
  agreement: number;
}

export interface Sequence {
  kind: 'matched';
  members: MatchedMember[];
  /** At the likeliest year, with members − 1 degrees of freedom. */
  chi_square: number;
  degrees: number;
  p: number;
}

/** Below this over the number of members, one disagrees with the others (Bonferroni: 0.05 for the sequence). */
export const DISAGREES = 0.05;

/**
 * @throws RangeError for no member, a gap that is not finite or with an error below 0, a block that is not whole years, or ΔR shared in
 * two groups. What cannot be calibrated, or runs off its curve, is an answer with its reason.
 */
export function matchSequence(members: readonly SequenceMember[]): Sequence | NotCalibrated {
  check(members);
  const range = yearsOf(members);
  if ('kind' in range) return range;
  const nodes = sharedNodes(members);
  const seen = members.map((member) => seenFrom(member, range));
  // By shared offset and member: log likelihood by the year its own place asks of the first, and with the gap's error in it.
  const states = nodes.map(({ z, logWeight }) => {
    const exact = seen.map((of) => of.logLikelihood(z));
    const blurred = exact.map((of, m) => convolved(of, seen[m]!.kernel));
    return { z, exact, blurred, total: sumOf(blurred, range.years).map((l) => l + logWeight) };
  });
  const together = logSum(states.map(({ total }) => total));
  const peak = Math.max(...together);
  if (!(peak > -Infinity)) {
    return { kind: 'nothing_remains', reason: 'no year fits all members of the sequence' };
  }
  const edge = Math.max(
    range.isCutYoung ? together[0]! : -Infinity,
    range.isCutOld ? together[range.years - 1]! : -Infinity,
  );
  if (edge > peak + LOG_OF_EDGE) {
    return { kind: 'beyond_curve', reason: 'the sequence runs off the end of its calibration curve' };
  }
  const matched = members.map((member, m): MatchedMember => {
    const others = states.map(({ total, blurred }) => total.map((l, t) => l - blurred[m]![t]!));
    const placed = others.map((of) => convolved(of, seen[m]!.kernel));
    const logDensity = logSum(placed.map((of, q) => of.map((l, t) => l + states[q]!.exact[m]![t]!)));
    const { expected_c14_age, agreement } =
      members.length === 1
        ? { expected_c14_age: Number.NaN, agreement: 1 }
        : agreementOf(
            member,
            placed,
            states.map(({ z }) => z),
            seen[m]!,
          );
    return {
      id: member.id,
      age: atPlace(logDensity, range.first, member.after_first_yr),
      expected_c14_age,
      agreement,
    };
  });
  const { chi_square } = fitAtBest(states, together, seen);
  const degrees = members.length - 1;
  const p = degrees === 0 ? 1 : chiSquareUpperTail(chi_square, degrees);
  return { kind: 'matched', members: matched, chi_square, degrees, p };
}

/** e^−10 of the peak: what is cut off beyond the curve is then no part of a 95 % set. */
const LOG_OF_EDGE = -10;

function check(members: readonly SequenceMember[]): void {
  const groups = new Set(members.flatMap((m) => (isShared(m) ? [m.offset_group] : [])));
  const isUsable = members.every((m) => Number.isFinite(m.after_first_yr) && m.after_first_sd_yr >= 0);
  if (members.length === 0 || !isUsable || groups.size > 1) {
    throw new RangeError(
      `matchSequence: ${JSON.stringify(members.map(({ curve: _, ...m }) => m))}; expected members with finite gaps, and one shared ΔR at most`,
    );
  }
}

const isShared = ({ offset_group, offset_sd_yr }: SequenceMember): boolean =>
  offset_group !== null && offset_sd_yr > 0;

interface Years {
  /** cal BP of the first member. */
  first: number;
  years: number;
  /** Whether the curve, and not the ages, ends the range there. */
  isCutYoung: boolean;
  isCutOld: boolean;
}

/** Years of the first member that any member alone allows, on the curves of all. */
function yearsOf(members: readonly SequenceMember[]): Years | NotCalibrated {
  let young = Infinity;
  let old = -Infinity;
  let least = -Infinity;
  let most = Infinity;
  for (const member of members) {
    const alone = calibrate(member, member.curve);
    if (alone.kind !== 'calibrated') return { ...alone, reason: `${member.id}: ${alone.reason}` };
    const on = blockYears(member.curve, member);
    const reach = member.block_yr + 6 * member.after_first_sd_yr;
    young = Math.min(young, alone.from_cal_bp + member.after_first_yr - reach);
    old = Math.max(old, alone.from_cal_bp + alone.density.length + member.after_first_yr + reach);
    least = Math.max(least, on.first);
    most = Math.min(most, on.last);
  }
  const first = Math.max(Math.floor(young), least);
  const last = Math.min(Math.ceil(old), most);
  if (last <= first)
    return { kind: 'beyond_curve', reason: 'its members have no years of their curves in common' };
  return { first, years: last - first + 1, isCutYoung: least > young, isCutOld: most < old };
}

/** What a member says of each year of the first. */
interface Seen {
  kernel: Kernel;
  /** Given the shared error of ΔR, in its sd. */
  logLikelihood(z: number): Float64Array;
  /** Distance of measured and expected in sd, by year. */
  off(t: number, z: number): number;
  expected(t: number, z: number): number;
}

function seenFrom(member: SequenceMember, { first, years }: Years): Seen {
  const curve = blockCurve(member.curve, member, first, years);
  const shared = isShared(member) ? member.offset_sd_yr : 0;
  const own = square(member.error_yr) + (shared > 0 ? 0 : square(member.offset_sd_yr));
  const expected = (t: number, z: number): number => curve.c14_age[t]! + member.offset_yr + shared * z;
  const variance = (t: number): number => own + square(curve.sigma_yr[t]!);
  const off = (t: number, z: number): number => (member.c14_age - expected(t, z)) / Math.sqrt(variance(t));
  return {
    kernel: gapKernel(member.after_first_sd_yr),
    expected,
    off,
    logLikelihood: (z) =>
      Float64Array.from({ length: years }, (_, t) => -0.5 * (square(off(t, z)) + log(variance(t)))),
  };
}

/** The shared error of ΔR at ±4 sd; one node where none is shared. */
function sharedNodes(members: readonly SequenceMember[]): { z: number; logWeight: number }[] {
  if (!members.some(isShared)) return [{ z: 0, logWeight: 0 }];
  return Array.from({ length: 41 }, (_, i) => (i - 20) / 5).map((z) => ({ z, logWeight: -0.5 * z * z }));
}

/** The measured age of a member among those the others let expect. */
function agreementOf(
  { c14_age }: SequenceMember,
  placed: readonly Float64Array[],
  shifts: readonly number[],
  { expected, off }: Seen,
): { expected_c14_age: number; agreement: number } {
  const peak = Math.max(...placed.map((of) => Math.max(...of)));
  let total = 0;
  let below = 0;
  let sum = 0;
  for (const [q, logDensity] of placed.entries()) {
    for (const [t, l] of logDensity.entries()) {
      if (l < peak - 40) continue;
      const weight = exp(l - peak);
      total += weight;
      below += weight * normalCdf(off(t, shifts[q]!));
      sum += weight * (expected(t, shifts[q]!) - c14_age);
    }
  }
  const share = below / total;
  return { expected_c14_age: c14_age + sum / total, agreement: 2 * Math.min(share, 1 - share) };
}

/** Chi-square at the likeliest year and shared error; a gap with an error takes the year that costs least. */
function fitAtBest(
  states: readonly { z: number; total: Float64Array }[],
  together: Float64Array,
  seen: readonly Seen[],
): { chi_square: number } {
  const t = together.indexOf(Math.max(...together));
  const { z } = states.reduce((best, state) => (state.total[t]! > best.total[t]! ? state : best));
  let chi_square = z * z;
  for (const { off, kernel } of seen) {
    const reach = (kernel.length - 1) / 2;
    let least = Infinity;
    for (let k = -reach; k <= reach; k++) {
      const u = t + k;
      if (u < 0 || u >= together.length) continue;
      // −2 log of the kernel against its middle is the square of the gap's error in sd.
      const cost = square(off(u, z)) + 2 * (kernel[reach]! - kernel[k + reach]!);
      least = Math.min(least, cost);
    }
    chi_square += least;
  }
  return { chi_square };
}

/** Log density by the year of the first member as the density of a place `after_first_yr` later, on whole years. */
function atPlace(logDensity: Float64Array, first_cal_bp: number, after_first_yr: number): Calibration {
  const peak = Math.max(...logDensity);
  const whole = Math.ceil(after_first_yr);
  // Half a ring from a whole year: half to each neighbour.
  const part = whole - after_first_yr;
  const density = new Float64Array(logDensity.length + 1);
  for (const [i, l] of logDensity.entries()) {
    const p = exp(l - peak);
    density[i] = density[i]! + (1 - part) * p;
    density[i + 1] = density[i + 1]! + part * p;
  }
  return trimmed(density, first_cal_bp - whole, 0);
}
