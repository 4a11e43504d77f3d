/** How strong the noise of a record is at the speed of a constituent, from what the fit left. */
import { cos, sin, square } from '@stillstand/science/base';

const RAD = Math.PI / 180;
/** Middle of the diurnal species; the others are its multiples. */
export const DIURNAL_DEG_H = 14.5;
/** Half-width of the band that a tidal species is judged by, °/h: wide for a month, that has few speeds in it. */
const WIDEST_DEG_H = 6.75;
const NARROWEST_DEG_H = 3;
/** Speeds looked at in one band, at most. */
const MOST_SPEEDS = 60;
/** Weather reddens towards the mean level: a long period is judged by so many speeds round its own. */
const LONG_PERIOD_SPEEDS = 10;
/** Periodograms with Hann's taper scatter as if of so many times fewer speeds (Harris 1978; from memory). */
const HANN = 1.9;
/** Cycles between one species and the next, from which on the noise of each is its own. */
const SPECIES_CYCLES = 3;
/** The autoregressive form counts as so many speeds: it holds where a band has none. */
const FORM_COUNTS = 2;

/** A constituent that was fitted; `settled`, 0 to 1, how far the readings decided it: so much of its noise is gone. */
export interface FittedLine {
  speed_deg_h: number;
  /** 0 long-period, 1 diurnal, … */
  species: number;
  settled: number;
}

export interface Noise {
  /** Of a residual, 1 sd. */
  sd_m: number;
  /** Of residuals one step apart; 0 with fewer than 30 such pairs. */
  correlation: number;
  /** Variance that white noise would need to do as much at a speed: m². */
  at(speed_deg_h: number, species: number): number;
}

/**
 * Readings on slots of one step. The spectrum is that of first-order autoregressive noise, times the mean ratio of the
 * periodogram (Hann's taper) to it: over the band of a species, or round a long period. Of a record that does not
 * separate the species, it is that of the form at the mean level, the strongest.
 */
export function noiseOf(
  slot: ArrayLike<number>,
  residual: Float64Array,
  step_h: number,
  variance: number,
  lines: readonly FittedLine[],
): Noise {
  const correlation = stepCorrelation(slot, residual);
  const form = (speed_deg_h: number): number =>
    (variance * (1 - square(correlation))) /
    (1 - 2 * correlation * cos(speed_deg_h * step_h * RAD) + square(correlation));
  const power = taperedPower(slot, residual);
  const slots = slot[slot.length - 1]! - slot[0]! + 1;
  const apart = 360 / (slots * step_h);
  const fastest = 180 / step_h;
  /** Mean ratio from one speed to another, with the speeds that the fitted lines have emptied. */
  const ratio = (from: number, to: number, species: number): number => {
    const every = Math.max(1, Math.ceil((to - from) / apart / MOST_SPEEDS));
    let sum = 0;
    let count = 0;
    for (let speed = from; speed < Math.min(to, fastest); speed += every * apart) {
      sum += power(speed * step_h * RAD) / form(speed);
      count++;
    }
    const emptied = lines.reduce(
      (all, line) =>
        line.species === species && line.speed_deg_h >= from - apart / 2 && line.speed_deg_h < to
          ? all + line.settled / every
          : all,
      0,
    );
    return (sum + FORM_COUNTS) / (Math.max(count / 4, count - emptied) + FORM_COUNTS);
  };
  const isShort = DIURNAL_DEG_H < SPECIES_CYCLES * apart;
  // Few speeds leave the spectrum itself uncertain: the variance of Student's t with as many degrees of freedom.
  const freedom = (2 * LONG_PERIOD_SPEEDS) / HANN;
  const uncertain = freedom / (freedom - 2);
  const half = Math.min(WIDEST_DEG_H, Math.max(NARROWEST_DEG_H, 60 * apart));
  const known = new Map<number, number>();
  const once = (at: number, found: () => number): number => {
    if (!known.has(at)) known.set(at, found());
    return known.get(at)!;
  };
  return {
    sd_m: Math.sqrt(variance),
    correlation,
    at(speed_deg_h, species) {
      if (isShort) return form(0);
      if (species > 0) {
        const middle = DIURNAL_DEG_H * species;
        return form(speed_deg_h) * once(middle, () => ratio(middle - half, middle + half, species));
      }
      const first = Math.max(1, Math.round(speed_deg_h / apart) - LONG_PERIOD_SPEEDS / 2);
      return (
        uncertain *
        form(speed_deg_h) *
        once(-first, () => ratio(first * apart, (first + LONG_PERIOD_SPEEDS - 0.5) * apart, 0))
      );
    },
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
