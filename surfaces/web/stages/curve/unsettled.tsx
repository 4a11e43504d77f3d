/** With the heading of numbers that have not converged: a mark, and the word once the computation is done. */
import type { CurveResult } from '@stillstand/science/curve';
import { Mark } from '../../parts/index.ts';

export function Unsettled({ curve, isFinal }: { curve: CurveResult; isFinal: boolean }) {
  if (curve.diagnostics.converged) return null;
  return (
    <span className="unsure">
      <Mark name="unconverged" size={16} label="not converged" />
      {isFinal ? ' not converged' : ''}
    </span>
  );
}
