/**
 * Constant initial concentration: whatever is laid down begins with the same activity (from memory; Robbins & Edgington
 * 1975, Geochim. Cosmochim. Acta 39:285–304). t = ln(C₀/C)/λ at the middle of a cell.
 */
import { exp, log } from '@stillstand/science/base';
import type { Reading } from './reading.ts';

/**
 * Years before collection at the middle of each cell; Infinity where the activity is not above 0. C₀ is that of the
 * uppermost cell, carried up half its thickness by the mean decline of the profile: `decline_top` = slope × middle.
 */
export function constantConcentration({ lambda, excess }: Reading, decline_top: number): Float64Array {
  const surface = excess[0]! * exp(decline_top);
  return excess.map((c) => (c > 0 && surface > 0 ? log(surface / c) / lambda : Infinity));
}
