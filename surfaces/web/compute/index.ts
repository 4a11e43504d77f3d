/** Results of the open campaign, computed beside the page. */
export { type Computation, type Computing, computing } from './computation.ts';
export type { Under } from './under.ts';
export {
  ComputingContext,
  useAgesProgress,
  useAgesWanted,
  useComputation,
  useCurveWanted,
  useProgress,
} from './use-computation.ts';
