import type { TraceId } from './trace-id.ts';

/** How one number came about: a node of the trace, made on demand from the graph. */
export interface TraceNode {
  id: TraceId;
  label: string;
  /** How it was computed from its parts, in words. */
  how: string;
  value: number | string | null;
  /** 1 sigma in the same unit; null where it has none. */
  sigma: number | null;
  unit: string;
  /** Whether its sign is always shown, as of elevations, sea level, rates and shifts. */
  signed: boolean;
  /** For a table row: where it stands. */
  row: { table: string; row_id: string } | null;
  parts: TraceId[];
}
