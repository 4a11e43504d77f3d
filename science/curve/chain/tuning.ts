import type { Chain } from './chain.ts';

/**
 * Log of a step's scale after one more try: towards two accepted in five, in the warm-up alone (Andrieu & Thoms 2008, Stat.
 * Comput. 18:343–373).
 */
export const tuned = (
  { adapting, sweeps }: Pick<Chain, 'adapting' | 'sweeps'>,
  log_scale: number,
  accepted: boolean,
  longest: number,
): number =>
  adapting
    ? Math.min(longest, log_scale + Math.min(0.3, 3 / (sweeps + 10)) * ((accepted ? 1 : 0) - 0.4))
    : log_scale;
