/**
 * Tides and weather that records are made of: coasts drawn at random (no draws of what the analysis expects), tides that
 * no list of 37 constituents holds, and a sea with two memories, gaps and a surge.
 */
import type { RandomStream } from '@stillstand/science/base';
import { constituentNamed, type TidalConstant, type Tide } from '@stillstand/science/tide';

const HOUR_MS = 3_600_000;
const RAD = Math.PI / 180;

/** Equilibrium ratios to a neighbour, Cartwright & Edden 1973 (from memory). */
const CLOSE = [
  ['K2', 'S2', 0.272],
  ['NU2', 'N2', 0.19],
  ['P1', 'K1', 0.331],
  ['RHO', 'Q1', 0.19],
  ['2Q1', 'Q1', 0.132],
  ['Q1', 'O1', 0.191],
  ['J1', 'K1', 0.056],
  ['OO1', 'K1', 0.031],
  ['M1', 'O1', 0.071],
  ['2N2', 'N2', 0.132],
] as const;
/** The same, with another tide at the same speed: at most so large a share of the neighbour. */
const MIXED = [
  ['MU2', 'M2', 0.031, 0.04],
  ['L2', 'M2', 0.028, 0.04],
  ['LAM2', 'M2', 0.0074, 0.01],
  ['T2', 'S2', 0.058, 0.04],
  ['R2', 'S2', 0.008, 0.04],
  ['2SM2', 'S2', 0, 0.02],
] as const;
/** Shallow water, weather and sun: at most so many times the amplitude of another, or so many metres. */
const OWN = [
  ['M4', 'M2', 0.05],
  ['M6', 'M2', 0.03],
  ['M8', 'M2', 0.005],
  ['M3', 'M2', 0.01],
  ['MK3', 'M2', 0.02],
  ['2MK3', 'M2', 0.02],
  ['S4', 'M2', 0.005],
  ['S6', 'M2', 0.003],
  ['S1', null, 0.015],
  ['SA', null, 0.12],
  ['SSA', null, 0.06],
  ['MF', null, 0.03],
  ['MM', null, 0.03],
  ['MSF', null, 0.02],
] as const;

/** A coast: sizes and ages of its tide even between wide limits; ratios of neighbours off by a tenth, phases by 5°. */
export function coastAtRandom(random: RandomStream): Tide {
  const between = (low: number, high: number): number => low + (high - low) * random.uniform();
  const logBetween = (low: number, high: number): number => low * (high / low) ** random.uniform();
  const found = new Map<string, { H: number; g: number }>();
  const speed = (name: string): number => constituentNamed(name)!.speed_deg_h;
  const age_h = { semidiurnal: between(0, 60), diurnal: between(-20, 60) };
  const turn = (name: string, from: string): number =>
    (speed(name) - speed(from)) * (speed(name) > 20 ? age_h.semidiurnal : age_h.diurnal);
  const add = (name: string, from: string | null, H: number): void => {
    const g = from === null ? 360 * random.uniform() : found.get(from)!.g + turn(name, from);
    found.set(name, { H, g });
  };
  add('M2', null, logBetween(0.2, 3));
  const M2 = found.get('M2')!.H;
  add('S2', 'M2', M2 * logBetween(0.2, 0.6));
  add('N2', 'M2', M2 * between(0.15, 0.25));
  add('K1', null, logBetween(0.03, 0.5));
  add('O1', 'K1', found.get('K1')!.H * between(0.4, 1.1));
  for (const [name, from, ratio] of [...CLOSE].sort((a) => (a[0] === 'Q1' ? -1 : 0))) {
    add(name, from, found.get(from)!.H * ratio * Math.exp(0.1 * random.normal()));
    found.get(name)!.g += 5 * random.normal();
  }
  for (const [name, from, ratio, most] of MIXED) {
    const of = found.get(from)!;
    const own = of.g + turn(name, from);
    const other = 360 * random.uniform();
    const H = of.H * ratio * Math.exp(0.1 * random.normal());
    const beside = of.H * most * random.uniform();
    const c = H * Math.cos(own * RAD) + beside * Math.cos(other * RAD);
    const s = H * Math.sin(own * RAD) + beside * Math.sin(other * RAD);
    found.set(name, { H: Math.hypot(c, s), g: Math.atan2(s, c) / RAD });
  }
  for (const [name, from, most] of OWN) {
    add(name, null, most * random.uniform() * (from === null ? 1 : found.get(from)!.H));
  }
  const M4 = found.get('M4')!.H;
  add('MS4', null, 2 * M4 * (found.get('S2')!.H / M2) * between(0.7, 1.3));
  add('MN4', null, 2 * M4 * (found.get('N2')!.H / M2) * between(0.7, 1.3));
  return {
    mean_m: between(-1, 3),
    constants: [...found].map(
      ([constituent, { H, g }]): TidalConstant => ({
        constituent,
        amplitude_m: H,
        phase_deg: ((g % 360) + 360) % 360,
      }),
    ),
  };
}

/** Constituents that a month or half a year cannot separate from a larger neighbour. */
const UNRESOLVED = ['K2', 'T2', 'R2', 'NU2', '2N2', 'LAM2', 'P1', 'RHO', '2Q1', 'S1', 'MF'];

/** The tide with these a fifth larger or smaller. */
export const withRatiosOff = (tide: Tide, random: RandomStream): Tide => ({
  ...tide,
  constants: tide.constants.map((c) =>
    UNRESOLVED.includes(c.constituent)
      ? { ...c, amplitude_m: c.amplitude_m * (random.uniform() < 0.5 ? 0.8 : 1.2) }
      : c,
  ),
});

/** Speeds by multiples of T, s, h, p, and shares of a listed one: Cartwright & Edden 1973, seasons and compounds (from memory). */
const UNLISTED = [
  [28.9430375, 'M2', 0.006],
  [29.0251728, 'M2', 0.006],
  [30.5443747, 'M2', 0.004],
  [30.626512, 'K2', 0.08],
  [27.4238337, 'M2', 0.007],
  [12.9271398, 'O1', 0.03],
  [14.0251729, 'O1', 0.013],
  [14.5695476, 'K1', 0.011],
  [14.9178647, 'K1', 0.019],
  [15.0821353, 'K1', 0.008],
  [15.1232059, 'K1', 0.014],
  [15.5125897, 'K1', 0.011],
  [16.0569644, 'K1', 0.009],
] as const;

/** Heights to add of tides that nobody lists, each with a phase drawn. */
export function unlistedTide(tide: Tide, random: RandomStream): (time_ms: number) => number {
  const parts = UNLISTED.map(([speed, of, share]) => ({
    speed: (speed * RAD) / HOUR_MS,
    H: share * tide.constants.find(({ constituent }) => constituent === of)!.amplitude_m,
    phase: 2 * Math.PI * random.uniform(),
  }));
  const from_ms = Date.UTC(1990, 0, 1);
  return (time_ms) =>
    parts.reduce((sum, { speed, H, phase }) => sum + H * Math.cos(speed * (time_ms - from_ms) + phase), 0);
}

/** A number of sd 1 with a memory of ten days, at times in order. */
export function wavering(random: RandomStream): (time_ms: number) => number {
  let now = random.normal();
  let at_ms: number | null = null;
  return (time_ms) => {
    const kept = at_ms === null ? 1 : Math.exp(-(time_ms - at_ms) / (240 * HOUR_MS));
    at_ms = time_ms;
    now = kept * now + Math.sqrt(1 - kept * kept) * random.normal();
    return now;
  };
}

/** A shallow bay: the tide about its mean steepened and flattened. */
export const shallow = (height_m: number): number => height_m + 0.03 * height_m ** 2 - 0.02 * height_m ** 3;

/** Hours kept (gaps of one to five days, 15 % in all), and weather of each: m. */
export function weather(
  hours: number,
  { hasGaps, hasSurge }: { hasGaps: boolean; hasSurge: boolean },
  random: RandomStream,
): { kept: number[]; height_m: Float64Array } {
  const height_m = new Float64Array(hours);
  const memories = [
    { hours: 60, sd_m: 0.08 },
    { hours: 4, sd_m: 0.04 },
  ].map(({ hours: memory_h, sd_m }) => {
    const step = Math.exp(-1 / memory_h);
    return { step, fresh: sd_m * Math.sqrt(1 - step * step), now: sd_m * random.normal() };
  });
  for (let i = 0; i < hours; i++) {
    for (const memory of memories) {
      memory.now = memory.step * memory.now + memory.fresh * random.normal();
      height_m[i]! += memory.now;
    }
    height_m[i]! += 0.02 * random.normal();
  }
  if (hasSurge) {
    const peak = hours * random.uniform();
    const width_h = 12 + 18 * random.uniform();
    for (let i = 0; i < hours; i++) height_m[i]! += 0.8 * Math.exp(-0.5 * ((i - peak) / width_h) ** 2);
  }
  const missing = new Set<number>();
  while (hasGaps && missing.size < 0.15 * hours) {
    // Never the first or last hour, so that the span is what is said.
    const from = 1 + Math.floor(random.uniform() * (hours - 2));
    const to = Math.min(hours - 1, from + 24 * (1 + 4 * random.uniform()));
    for (let i = from; i < to; i++) missing.add(i);
  }
  return { kept: Array.from({ length: hours }, (_, i) => i).filter((i) => !missing.has(i)), height_m };
}
