/** One row of `tide_reductions` on its way to levels, and a level that came of it. */
import type { Campaign } from '@stillstand/campaign/document';
import type { Row } from '@stillstand/campaign/tables';
import type { SiteTideLevel } from '@stillstand/science/points';
import type { Complain } from '../complaint.ts';
import type { Runner } from '../runner/runner.ts';
import type { Traced } from '../runner/step.ts';
import type { Heights } from './heights.ts';

export type Reduction = Row<'tide_reductions'>;

export interface ComputedLevel extends SiteTideLevel {
  sigma_m: number;
  row: Reduction;
  method: 'constants' | 'means';
  /** How, for the trace. */
  how: string;
  /** What it is made of. */
  parts: readonly Traced[];
}

export interface Asked {
  run: Runner;
  campaign: Campaign;
  heights: Heights;
  row: Reduction;
  gauge: Row<'gauges'>;
  complain: Complain<Reduction>;
}
