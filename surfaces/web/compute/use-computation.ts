import { createContext, useContext, useEffect, useSyncExternalStore } from 'react';
import type { Computation, Computing } from './computation.ts';

export const ComputingContext = createContext<Computing | null>(null);

/** The newest results of the open campaign; drawn again whenever they change. Throws where no campaign is open. */
export function useComputation(): Computation {
  const computing = useContext(ComputingContext);
  if (computing === null) throw new RangeError('useComputation outside an open campaign');
  return useSyncExternalStore(computing.subscribe, computing.now);
}

/** Says whether the curve is wanted while this is shown: on the rig the battery matters more. */
export function useCurveWanted(wanted: boolean): void {
  const computing = useContext(ComputingContext);
  useEffect(() => (wanted ? computing?.wantCurve() : undefined), [computing, wanted]);
}
