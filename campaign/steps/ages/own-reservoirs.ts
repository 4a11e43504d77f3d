/** ΔR from the campaign's own shells, for a screen that offers it while a determination is filled in. */
import type { Campaign } from '@stillstand/campaign/document';
import { stepRunner } from '../runner/runner.ts';
import { curvesAtHand, type Published } from './dates.ts';
import { ownCurves } from './own-curves.ts';
import { type Reservoir, reservoirs } from './reservoirs.ts';

/** As the computation has them; a group whose curves are not at hand is left out. */
export function ownReservoirs(campaign: Campaign, published: Published): Reservoir[] {
  const run = stepRunner({ computation: '', memo: null });
  const { of } = reservoirs(run, campaign, curvesAtHand(run, ownCurves(campaign).of, published));
  return [...of.values()];
}
