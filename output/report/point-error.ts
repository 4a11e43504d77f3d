/** A point's error as the community protocol counts it. */
import type { ErrorComponent, PointResult } from '@stillstand/campaign/results';
import { protocolError } from '@stillstand/science/points';

/** 2 sigma of a point in the community protocol; of the declared shapes where its parts are not known. */
export function protocolSigma2(point: PointResult): number {
  return point.components.length === 0 ? 2 * point.rsl_sigma_m : protocolError(point.components);
}

/** One part of a point's error at 2 sigma of the protocol: half the width of a uniform, twice the rest. */
export const partSigma2 = (part: ErrorComponent): number => protocolError([part]);
