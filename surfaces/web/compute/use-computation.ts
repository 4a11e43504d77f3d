import { createContext, useContext, useEffect, useSyncExternalStore } from 'react';
import type { Computation, Computing } from './computation.ts';

export const ComputingContext = createContext<Computing | null>(null);

/** The newest results of the open campaign; drawn again whenever they change. Throws where no campaign is open. */
export function useComputation(): Computation {
  const computing = useContext(ComputingContext);
  if (computing === null) throw new RangeError('useComputation outside an open campaign');
  return useSyncExternalStore(computing.subscribe, computing.now);
}

/** How far the curve is, 0 to 1, null where none is being computed: for the few words that say so. */
export function useProgress(): number | null {
  const computing = useContext(ComputingContext);
  if (computing === null) throw new RangeError('useProgress outside an open campaign');
  return useSyncExternalStore(computing.subscribeToProgress, computing.progress);
}

/** Says whether the curve is wanted while this is shown: on the rig the battery matters more. */
export function useCurveWanted(wanted: boolean): void {
  const computing = useContext(ComputingContext);
  useEffect(() => (wanted ? computing?.wantCurve() : undefined), [computing, wanted]);
}
