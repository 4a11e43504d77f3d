/** Ages that are only limits. */
import type { DateResult } from '@stillstand/campaign/results';

/**
 * A radiocarbon age without an error is a limit: one that was measured has an error. On which side its layer lies, the
 * calibrated range says.
 */
export const isLimit = ({ method, error }: Pick<DateResult, 'method' | 'error'>): boolean =>
  method === 'radiocarbon' && error === 0;
