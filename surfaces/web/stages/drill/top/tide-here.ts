/** The tide at the hole's site as the rig needs it: what it does now, and how far the sea rose since it was read. */
import { siteTide } from '@stillstand/campaign/steps';
import { useMemo } from 'react';
import { useComputation } from '../../../compute/index.ts';
import { type TideNow, tideAt, tideNow } from '../../../days/index.ts';

export interface TideHere {
  /** Null where no tide is known for now. */
  now: TideNow | null;
  /** Rise of the water by the tide from a moment (ms since 1970) until now, m; null where no tide is known for both. */
  riseSince: (from_ms: number) => number | null;
}

/** Of `site`, null where the hole names none, at a moment in ms; no levels of the hole hang on it. */
export function useTideHere(site: string | null, at_ms: number): TideHere {
  const { campaign, results } = useComputation();
  const datum = results?.datum.label ?? '';
  const of = useMemo(
    () => (campaign === null ? null : siteTide(campaign, site, datum)),
    [campaign, site, datum],
  );
  return useMemo(
    () => ({
      now: of === null ? null : tideNow(of, at_ms),
      riseSince: (from_ms) => {
        const known = of === null ? null : tideAt(of, [from_ms, at_ms]);
        if (known === null) return null;
        const rise = known.curve.height_m(at_ms) - known.curve.height_m(from_ms);
        return Number.isFinite(rise) ? rise : null;
      },
    }),
    [of, at_ms],
  );
}
