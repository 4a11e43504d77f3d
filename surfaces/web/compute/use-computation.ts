import { createContext, useContext, useEffect, useSyncExternalStore } from 'react';
import type { Computation, Computing } from './computation.ts';
import type { AgesProgress } from './protocol.ts';

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

/** How far the ages against depth of a hole are, null while none are computed. */
export function useAgesProgress(): AgesProgress | null {
  const computing = useContext(ComputingContext);
  if (computing === null) throw new RangeError('useAgesProgress outside an open campaign');
  return useSyncExternalStore(computing.subscribeToProgress, computing.agesProgress);
}

/** Says whose ages against depth are looked at, which are then computed first; null: of no hole. */
export function useAgesWanted(hole: string | null): void {
  const computing = useContext(ComputingContext);
  useEffect(() => (hole === null ? undefined : computing?.wantAges(hole)), [computing, hole]);
}

/** Says whether the curve is wanted while this is shown: on the rig the battery matters more. */
export function useCurveWanted(wanted: boolean): void {
  const computing = useContext(ComputingContext);
  useEffect(() => (wanted ? computing?.wantCurve() : undefined), [computing, wanted]);
}
