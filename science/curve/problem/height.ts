/**
 * What a sample's height says about the level, with one latent height z ~ N(level + shared errors, s²) a point, of which
 * the sample tells
 *   index: z = y; with a uniform part: z within y ± h; with a lowering by compaction: z − y half-normal above 0;
 *   terrestrial limit: z ≤ y; marine limit: z ≥ y.
 * Given z the heights are normal and the filter exact (the augmentation of Albert & Chib 1993, J. Am. Stat. Assoc.
 * 88:669–679, for probit factors); here z is integrated out again wherever only one point is in play.
 *
 * `mean` and `variance` are those of z predicted from all else.
 */
import {
  exp,
  log,
  log1p,
  normalCdf,
  normalLogCdf,
  type RandomStream,
  truncatedNormal,
} from '@stillstand/science/base';

export const EXACT = 0;
export const TERRESTRIAL = 1;
export const MARINE = 2;
export const UNIFORM = 3;
export const LOWERED = 4;

/** `centre`: y, or y moved by whichever part of the error is held explicitly; `width`: h or the scale of lowering, m. */
export function logHeight(
  kind: number,
  centre: number,
  width: number,
  mean: number,
  variance: number,
): number {
  switch (kind) {
    case EXACT: {
      const miss = centre - mean;
      return -0.5 * ((miss * miss) / variance + log(variance));
    }
    case TERRESTRIAL:
      return normalLogCdf((centre - mean) / Math.sqrt(variance));
    case MARINE:
      return normalLogCdf((mean - centre) / Math.sqrt(variance));
    case UNIFORM: {
      const sd = Math.sqrt(variance);
      // The interval is mirrored into the lower tail, where both ends keep their digits.
      const near = (width - Math.abs(mean - centre)) / sd;
      const far = near - (2 * width) / sd;
      if (near > -3) return log(normalCdf(near) - (far > -10 ? normalCdf(far) : 0));
      const upper = normalLogCdf(near);
      return upper + log1p(-exp(normalLogCdf(far) - upper));
    }
    default: {
      const total = variance + width * width;
      const miss = mean - centre;
      const sd = width / Math.sqrt(total * variance);
      return -0.5 * ((miss * miss) / total + log(total)) + normalLogCdf(miss * sd);
    }
  }
}

/** Draws z given all else. */
export function drawHeight(
  kind: number,
  centre: number,
  width: number,
  mean: number,
  variance: number,
  stream: RandomStream,
): number {
  switch (kind) {
    case EXACT:
      return centre;
    case TERRESTRIAL:
      return truncatedNormal(stream, mean, Math.sqrt(variance), -Infinity, centre);
    case MARINE:
      return truncatedNormal(stream, mean, Math.sqrt(variance), centre, Infinity);
    case UNIFORM:
      return truncatedNormal(stream, mean, Math.sqrt(variance), centre - width, centre + width);
    default: {
      const share = (width * width) / (variance + width * width);
      const spread = Math.sqrt(variance * share);
      return centre + truncatedNormal(stream, (mean - centre) * share, spread, 0, Infinity);
    }
  }
}
