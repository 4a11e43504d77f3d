/** A point's error, ± 2 sigma: the one number that app, figures, report, tables and trace give, and the protocol's next to it. */
import type { ErrorComponent, PointResult } from '@stillstand/campaign/results';
import { curveError, protocolError } from '@stillstand/science/points';

/** 2 sigma of all parts in their declared shapes: what the curve uses. */
export const pointSigma2 = (point: PointResult): number => 2 * point.rsl_sigma_m;

/** The same of parts of it. */
export const partSigma2 = (...parts: readonly ErrorComponent[]): number => 2 * curveError(parts);

/** 2 sigma as the community protocol counts it; of the declared shapes where its parts are not known. */
export const protocolSigma2 = (point: PointResult): number =>
  point.components.length === 0 ? pointSigma2(point) : protocolError(point.components);
