/** Height of the tide at any moment: h(t) = mean + Σ f·H·cos(V + u − g). */
import { cos, power, sin, square } from '@stillstand/science/base';
import { meanLongitudes } from './astronomy.ts';
import { type Constituent, constituentNamed } from './constituent.ts';
import { type NodeCorrection, type NodeName, nodeCorrections } from './node.ts';

export interface TidalConstant {
  constituent: string;
  amplitude_m: number;
  /** Phase lag g on the Greenwich argument, UTC. */
  phase_deg: number;
  /** 1 sigma; none where none is stated, and then it counts as 0. */
  amplitude_sigma_m?: number | null;
  phase_sigma_deg?: number | null;
}

export interface Tide {
  /** Mean water level on the zero the heights are wanted on. */
  mean_m: number;
  /** 1 sigma of it; 0 where none is stated. */
  mean_sigma_m?: number;
  constants: readonly TidalConstant[];
}

/** 1 sigma of an angle that is not known at all: uniform on the circle. */
export const PHASE_UNKNOWN_DEG = 180 / Math.sqrt(3);

/** Water against time. Both are NaN where nothing is known. */
export interface TideCurve {
  height_m(time_ms: number): number;
  /** m per hour, rising positive. */
  rate_m_h(time_ms: number): number;
}

const RAD = Math.PI / 180;
const DAY_MS = 86_400_000;
const HOUR_MS = 3_600_000;

/** Argument V + u and factor f of a constituent, from the mean longitudes and node corrections of one moment. */
export function argumentAt(
  constituent: Constituent,
  at: ReturnType<typeof meanLongitudes>,
  nodes: Readonly<Record<NodeName, NodeCorrection>>,
): NodeCorrection {
  const [T, s, h, p, p1] = constituent.argument;
  let u_deg =
    T * at.T_deg + s * at.s_deg + h * at.h_deg + p * at.p_deg + p1 * at.p1_deg + constituent.constant_deg;
  let f = 1;
  for (const [name, times] of constituent.node) {
    u_deg += times * nodes[name].u_deg;
    f *= power(nodes[name].f, Math.abs(times));
  }
  return { f, u_deg };
}

/**
 * The curve of a tide. Arguments and node corrections are taken at each day's midnight and run on with their speed
 * within it: the step at the next midnight stays below 0.1 mm per metre of amplitude. Constituents this room does not
 * know are left out and named in `unknown`.
 */
export function tideCurve(tide: Tide): TideCurve & { unknown: string[] } {
  const unknown: string[] = [];
  const known: { constituent: Constituent; constant: TidalConstant }[] = [];
  for (const constant of tide.constants) {
    const constituent = constituentNamed(constant.constituent);
    if (constituent === null) unknown.push(constant.constituent);
    else known.push({ constituent, constant });
  }
  const n = known.length;
  const speed = Float64Array.from(known, ({ constituent }) => (constituent.speed_deg_h * RAD) / HOUR_MS);
  const size = new Float64Array(n);
  const phase = new Float64Array(n);
  let midnight = Number.NaN;
  const turnTo = (time_ms: number): void => {
    const day = Math.floor(time_ms / DAY_MS) * DAY_MS;
    if (day === midnight) return;
    midnight = day;
    const at = meanLongitudes(day);
    // Node and perigee of the middle of the day.
    const noon = meanLongitudes(day + DAY_MS / 2);
    const nodes = nodeCorrections(noon.N_deg, noon.p_deg);
    for (let k = 0; k < n; k++) {
      const { constituent, constant } = known[k]!;
      const { f, u_deg } = argumentAt(constituent, at, nodes);
      size[k] = f * constant.amplitude_m;
      phase[k] = ((u_deg - constant.phase_deg) % 360) * RAD;
    }
  };
  return {
    unknown,
    height_m(time_ms) {
      turnTo(time_ms);
      const since = time_ms - midnight;
      let height = tide.mean_m;
      for (let k = 0; k < n; k++) height += size[k]! * cos(phase[k]! + speed[k]! * since);
      return height;
    },
    rate_m_h(time_ms) {
      turnTo(time_ms);
      const since = time_ms - midnight;
      let rate = 0;
      for (let k = 0; k < n; k++) {
        rate -= size[k]! * speed[k]! * sin(phase[k]! + speed[k]! * since);
      }
      return rate * HOUR_MS;
    },
  };
}

/**
 * 1 sigma of a constant along its vector and across it, m. Where the phase is not known the error of the amplitude is
 * that of the whole vector, half of its variance each way.
 */
export function constantErrors(constant: TidalConstant): { along_m: number; across_m: number } {
  const size_m = constant.amplitude_sigma_m ?? 0;
  const phase_sigma_deg = constant.phase_sigma_deg ?? 0;
  // Stated to a tenth of a degree.
  const isUnknown = phase_sigma_deg > PHASE_UNKNOWN_DEG - 0.1;
  return isUnknown
    ? { along_m: size_m / Math.SQRT2, across_m: size_m / Math.SQRT2 }
    : { along_m: size_m, across_m: constant.amplitude_m * phase_sigma_deg * RAD };
}

/**
 * 1 sigma of a predicted height from errors of the mean level and the constants, the root mean square over the year:
 * errors of constants count as independent. Where two of a short record are not (S2 and K2), a season may have up to
 * 1.4 times it. What weather does comes on top.
 */
export function predictionSigma({ mean_sigma_m = 0, constants }: Tide): number {
  return Math.sqrt(
    constants.reduce((sum, constant) => {
      const { along_m, across_m } = constantErrors(constant);
      return sum + (square(along_m) + square(across_m)) / 2;
    }, square(mean_sigma_m)),
  );
}

/** Heights at any times, in linear time; times in order are fastest. */
export function predict(tide: Tide, times_ms: ArrayLike<number>): Float64Array {
  const curve = tideCurve(tide);
  const heights = new Float64Array(times_ms.length);
  for (let i = 0; i < heights.length; i++) heights[i] = curve.height_m(times_ms[i]!);
  return heights;
}
