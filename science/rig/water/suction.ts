/**
 * Suction below a sampler that is lifted in water: the water it leaves must flow down past it. The likeliest way to draw
 * sand in through the shoe.
 *
 * An estimate from first principles, for a plugged sampler in the middle of clean pipe: the water runs past it at
 * V = v·Dp²/(Dp² − Ds²), relative to the sampler; loss = ½ρV²·(0.5 entry + 1 exit + f·L/(Dp − Ds)), with f = 96/Re
 * (laminar, between parallel walls) or 0.316·Re^(−1/4) (Blasius 1913, smooth walls), whichever is more. The velocity
 * relative to the sampler is used for both walls: laminar, the true one is V less v/2, so that this errs on the safe side.
 */
import { square } from '@stillstand/science/base';
import { CAUTIONS } from '../caution.ts';
import type { SamplerShape, WaterKind } from './water.ts';
import { WATER_KG_M3 } from './water.ts';

const GRAVITY_M_S2 = 9.80665;
/** Water at 10 °C, from memory; colder is stiffer by 15 % at 5 °C. */
const VISCOSITY_PA_S = 1.31e-3;

export interface Suction {
  /** Of the water past the sampler, relative to it. */
  velocity_m_s: number;
  reynolds: number;
  /** Loss of pressure below the sampler, as metres of the water. */
  head_m: number;
  caution: string;
}

/** Null where the sampler does not fit the bore or the speed is no number from 0 up. */
export function suctionOf(
  speed_m_s: number,
  bore_mm: number,
  sampler: Pick<SamplerShape, 'outside_mm' | 'length_m'>,
  water: WaterKind = 'sea',
): Suction | null {
  const gap_m = (bore_mm - sampler.outside_mm) / 1000;
  if (!(gap_m > 0) || !(speed_m_s >= 0)) return null;
  const velocity_m_s = (speed_m_s * square(bore_mm)) / (square(bore_mm) - square(sampler.outside_mm));
  const density = WATER_KG_M3[water];
  const reynolds = (density * velocity_m_s * gap_m) / VISCOSITY_PA_S;
  const f = reynolds > 0 ? Math.max(96 / reynolds, 0.316 / Math.sqrt(Math.sqrt(reynolds))) : 0;
  const losses = 1.5 + (f * sampler.length_m) / gap_m;
  const head_m = (losses * square(velocity_m_s)) / (2 * GRAVITY_M_S2);
  return { velocity_m_s, reynolds, head_m, caution: CAUTIONS.suction };
}

/** Fastest lift whose suction stays below `head_m`, m/s, at most 5; 0 where there is no head to spare. */
export function fastestLift_m_s(
  head_m: number,
  bore_mm: number,
  sampler: Pick<SamplerShape, 'outside_mm' | 'length_m'>,
  water: WaterKind = 'sea',
): number | null {
  if (suctionOf(0, bore_mm, sampler, water) === null) return null;
  let slow = 0;
  let fast = 5;
  if (!(head_m > 0)) return 0;
  if (suctionOf(fast, bore_mm, sampler, water)!.head_m <= head_m) return fast;
  for (let i = 0; i < 50; i++) {
    const middle = (slow + fast) / 2;
    if (suctionOf(middle, bore_mm, sampler, water)!.head_m <= head_m) slow = middle;
    else fast = middle;
  }
  return slow;
}
