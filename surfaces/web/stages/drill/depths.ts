/** What the depth model already says of the hole: its units, how far down it was sampled, where a run lies. */

import type { HoleResult } from '@stillstand/campaign/results';
import type { HoleViewUnit } from '@stillstand/output/figures';
import { t } from '../../language/index.ts';
import { m2 } from './tape/lengths.ts';

export function unitsOf(result: HoleResult | null): HoleViewUnit[] {
  return (result?.units ?? []).map((u) => ({
    top_m: u.depth_top_m.value,
    bottom_m: u.depth_bottom_m.value,
    sediment: u.sediment,
    secondary_sediment: u.secondary_sediment,
    contact_below: u.contact_below,
  }));
}

export function sampledTo(result: HoleResult | null): number | null {
  const bottoms = (result?.runs ?? []).filter((r) => r.removed_m > 0).map((r) => r.depth_bottom_m.value);
  return bottoms.length === 0 ? null : Math.max(...bottoms);
}

export function runDepth(result: HoleResult | null, run: string): string | null {
  const of = result?.runs.find((r) => r.run === run);
  if (of === undefined || of.removed_m <= 0) return null;
  return t`${m2(of.depth_top_m.value)} to ${m2(of.depth_bottom_m.value)} m`;
}
