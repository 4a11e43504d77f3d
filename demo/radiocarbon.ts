/** The invented laboratory: true ages to conventional radiocarbon ages, as a real one would report them. */
import { exp, log, type RandomStream, square } from '@stillstand/science/base';
import type { YearlyCurve } from '@stillstand/science/dating';

/** Libby mean life, yr (Stuiver & Polach 1977, Radiocarbon 19:355–363). */
const MEAN_LIFE_YR = 8033;

/** A curve's radiocarbon age and 1 sigma at an age between its years. */
export function onCurve(curve: YearlyCurve, age_cal_bp: number): { c14_age: number; sigma_yr: number } {
  const place = age_cal_bp - curve.from_cal_bp;
  const i = Math.min(curve.c14_age.length - 2, Math.max(0, Math.floor(place)));
  const share = place - i;
  const between = (values: Float64Array) => values[i]! + share * (values[i + 1]! - values[i]!);
  return { c14_age: between(curve.c14_age), sigma_yr: between(curve.sigma_yr) };
}

/** One measurement: the curve's own error and the laboratory's, both drawn; `offset_yr` is the true offset. */
export function measured(
  curve: YearlyCurve,
  age_cal_bp: number,
  offset_yr: number,
  error_yr: number,
  random: RandomStream,
): number {
  const { c14_age, sigma_yr } = onCurve(curve, age_cal_bp);
  return Math.round(c14_age + offset_yr + Math.sqrt(square(error_yr) + square(sigma_yr)) * random.normal());
}

/** Apparent age of a sample with a share of modern carbon (F14C = 1) in it. */
export function withModern(c14_age: number, share: number): number {
  return Math.round(-MEAN_LIFE_YR * log((1 - share) * exp(-c14_age / MEAN_LIFE_YR) + share));
}
