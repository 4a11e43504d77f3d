/** How strong the noise of a record is at the speed of a constituent, from what the fit left. */
import { cos, sin, square } from '@stillstand/science/base';

const RAD = Math.PI / 180;
/** Half-width of the band that a species is judged by, °/h: wide for a month, that has few speeds in it. */
const WIDEST_DEG_H = 6.75;
const NARROWEST_DEG_H = 3;
/** Speeds looked at in one band, at most. */
const MOST_SPEEDS = 60;
/** The autoregressive form counts as so many speeds: it holds where a band has none. */
const FORM_COUNTS = 2;

export interface Noise {
  /** Of a residual, 1 sd. */
  sd_m: number;
  /** Of residuals one step apart; 0 with fewer than 30 such pairs. */
  correlation: number;
  /** Variance that white noise would need to do as much at a speed: m². */
  at(speed_deg_h: number, species: number): number;
}

/**
 * Readings on slots of one step; `used`: lines fitted in each species (0 long-period, 1 diurnal, …), which have lost
 * their noise. The spectrum is that of first-order autoregressive noise, times the mean ratio of the periodogram
 * (Hann's taper) to it in the species' band.
 */
export function noiseOf(
  slot: ArrayLike<number>,
  residual: Float64Array,
  step_h: number,
  variance: number,
  used: ReadonlyMap<number, number>,
): Noise {
  const correlation = stepCorrelation(slot, residual);
  const form = (speed_deg_h: number): number =>
    (variance * (1 - square(correlation))) /
    (1 - 2 * correlation * cos(speed_deg_h * step_h * RAD) + square(correlation));
  const power = taperedPower(slot, residual);
  const slots = slot[slot.length - 1]! - slot[0]! + 1;
  const apart = 360 / (slots * step_h);
  const half = Math.min(WIDEST_DEG_H, Math.max(NARROWEST_DEG_H, 60 * apart));
  const ratios = new Map<number, number>();
  for (const [species, lines] of used) {
    const middle = 14.5 * species;
    const from = species === 0 ? apart : middle - half;
    const to = Math.min(middle + half, 180 / step_h);
    const every = Math.max(1, Math.ceil((to - from) / apart / MOST_SPEEDS));
    let sum = 0;
    let count = 0;
    for (let speed = from; speed < to; speed += every * apart) {
      sum += power(speed * step_h * RAD) / form(speed);
      count++;
    }
    const free = Math.max(count / 4, count - lines / every);
    ratios.set(species, (sum + FORM_COUNTS) / (free + FORM_COUNTS));
  }
  return {
    sd_m: Math.sqrt(variance),
    correlation,
    at: (speed_deg_h, species) => (ratios.get(species) ?? 1) * form(speed_deg_h),
  };
}

/** Power at an angle per slot, of white noise its variance. */
function taperedPower(slot: ArrayLike<number>, residual: Float64Array): (angle: number) => number {
  const n = residual.length;
  const first = slot[0]!;
  const slots = slot[n - 1]! - first + 1;
  const tapered = new Float64Array(n);
  let weight = 0;
  for (let i = 0; i < n; i++) {
    const taper = square(sin((Math.PI * (slot[i]! - first + 0.5)) / slots));
    tapered[i] = taper * residual[i]!;
    weight += square(taper);
  }
  return (angle) => {
    // The vector is turned from slot to slot; where one is missing it is set again.
    const turnC = cos(angle);
    const turnS = sin(angle);
    let c = 1;
    let s = 0;
    let sumC = 0;
    let sumS = 0;
    for (let i = 0; i < n; i++) {
      if (i > 0 && slot[i]! === slot[i - 1]! + 1) {
        const next = c * turnC - s * turnS;
        s = s * turnC + c * turnS;
        c = next;
      } else {
        c = cos(angle * (slot[i]! - first));
        s = sin(angle * (slot[i]! - first));
      }
      sumC += tapered[i]! * c;
      sumS += tapered[i]! * s;
    }
    return (square(sumC) + square(sumS)) / weight;
  };
}

function stepCorrelation(slot: ArrayLike<number>, residual: Float64Array): number {
  let together = 0;
  let alone = 0;
  let pairs = 0;
  for (let i = 1; i < residual.length; i++) {
    if (slot[i]! - slot[i - 1]! !== 1) continue;
    together += residual[i]! * residual[i - 1]!;
    alone += (square(residual[i]!) + square(residual[i - 1]!)) / 2;
    pairs++;
  }
  return pairs < 30 || alone === 0 ? 0 : Math.min(0.999, Math.max(0, together / alone));
}
