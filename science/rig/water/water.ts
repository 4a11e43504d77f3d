/**
 * Water in the string: how much there is, how hard it holds the sediment down, and what lowers it. Lengths are from the
 * collar, downwards, metres.
 */
import { square } from '@stillstand/science/base';
import { CAUTIONS } from '../caution.ts';

export type WaterKind = 'fresh' | 'sea';

/** Common values; sea water of salinity 35 at 15 °C has 1026. */
export const WATER_KG_M3: Readonly<Record<WaterKind, number>> = { fresh: 1000, sea: 1025 };

/** Litres in `length_m` of a pipe of this bore. */
export const boreVolume_l = (bore_mm: number, length_m: number): number =>
  (Math.PI / 4) * square(bore_mm / 100) * length_m * 10;

/** Litres that raise the water from `to_water_m` to `to_level_m` below the collar; 0 where it stands higher already. */
export const waterToAdd_l = (bore_mm: number, to_water_m: number, to_level_m: number): number =>
  boreVolume_l(bore_mm, Math.max(0, to_water_m - to_level_m));

export interface WaterColumns {
  to_sediment_m: number;
  to_water_inside_m: number;
  /** Water outside (sea, or water table), below the collar. */
  to_water_outside_m: number;
  inside: WaterKind;
  outside: WaterKind;
}

/**
 * Pressure at the shoe inside less outside, in metres of the outside water: positive holds the plug down. The water of
 * the plug came out of the ground and counts as outside water, so that the depth of the shoe falls out:
 * (ρi/ρo)(sediment − water inside) − (sediment − water outside). Fresh water against sea needs its level higher by
 * 2.5 % of its column.
 */
export function pressureHead_m(columns: WaterColumns): number {
  const { to_sediment_m: s, to_water_inside_m: wi, to_water_outside_m: wo, inside, outside } = columns;
  const ratio = s > wi ? WATER_KG_M3[inside] / WATER_KG_M3[outside] : 1;
  return ratio * (s - wi) - (s - wo);
}

/** Collar to water inside that gives this pressure head; negative where it would stand above the collar. */
export function levelForHead_m(columns: Omit<WaterColumns, 'to_water_inside_m'>, head_m: number): number {
  const { to_sediment_m: s, to_water_outside_m: wo, inside, outside } = columns;
  const column = head_m + s - wo;
  return s - (column > 0 ? column * (WATER_KG_M3[outside] / WATER_KG_M3[inside]) : column);
}

/**
 * Critical gradient (Gs − 1)/(1 + e): upward flow at it carries the grains. Terzaghi & Peck 1948, Soil Mechanics in
 * Engineering Practice (from memory).
 */
export const criticalGradient = (grain_density: number, void_ratio: number): number =>
  (grain_density - 1) / (1 + void_ratio);

/** Gs 2.65 with e 0.65 and 1.0; organic Gs 1.6, e 5. What is not known is organic: the worst case. */
export const CRITICAL_GRADIENTS = {
  sand: criticalGradient(2.65, 0.65),
  'loose sand': criticalGradient(2.65, 1),
  organic: criticalGradient(1.6, 5),
} as const;
export type PlugKind = keyof typeof CRITICAL_GRADIENTS;

export interface ExitGradient {
  pressure_head_m: number;
  /** Upward through the plug; 0 while the head holds it down; null without a plug. */
  gradient: number | null;
  critical: number;
  /** Critical ÷ gradient; null while the head holds; 0 without a plug. */
  factor: number | null;
  /** `reversed`: water flows in, slower than would carry grains. `boils`: nothing holds the sediment. */
  verdict: 'held' | 'reversed' | 'boils';
  caution: string;
}

/** Exit gradient at the shoe: head over the length of the plug it flows through, against the critical gradient. */
export function exitGradient(
  pressure_head_m: number,
  plug_m: number,
  kind: PlugKind = 'organic',
): ExitGradient {
  const critical = CRITICAL_GRADIENTS[kind];
  const caution = CAUTIONS.water;
  if (pressure_head_m >= 0) {
    return { pressure_head_m, gradient: 0, critical, factor: null, verdict: 'held', caution };
  }
  if (!(plug_m > 0)) {
    return { pressure_head_m, gradient: null, critical, factor: 0, verdict: 'boils', caution };
  }
  const gradient = -pressure_head_m / plug_m;
  const factor = critical / gradient;
  return { pressure_head_m, gradient, critical, factor, verdict: factor > 1 ? 'reversed' : 'boils', caution };
}

/** A sampler as it hangs in the pipe. */
export interface SamplerShape {
  outside_mm: number;
  bore_mm: number;
  length_m: number;
}

/**
 * How far one run lowers the water, m: by what it took from the plug, by the water it carries out above its core, and,
 * where the string was brim-full when it went in, by what its steel spilled over the collar. First principles; a valve
 * that drains while it is lifted gives some back.
 */
export function runLowers_m(
  bore_mm: number,
  removed_m: number,
  sampler: SamplerShape,
  brimful: boolean,
): number {
  const area = square(bore_mm);
  const core = (removed_m * area) / square(sampler.bore_mm);
  const carried = Math.max(0, sampler.length_m - core) * square(sampler.bore_mm);
  const steel = sampler.length_m * (square(sampler.outside_mm) - square(sampler.bore_mm));
  return removed_m + (carried + (brimful ? steel : 0)) / area;
}
