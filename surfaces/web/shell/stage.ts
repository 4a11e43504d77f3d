/** A stage as the shell frames it: its name, its page, and what the page is given. */
import type { ComponentType } from 'react';

export interface StageProps {
  /** What the address names beside the stage, e.g. `row`, `hole`, `point`. */
  params: Readonly<Record<string, string>>;
}

export type StageName = 'Plan' | 'Drill' | 'Describe' | 'Date' | 'Points' | 'Curve' | 'Report';

export interface Stage {
  name: StageName;
  /** Loaded when it is first shown. */
  Page: ComponentType<StageProps>;
  /** On the rig nothing is spent on the curve. */
  withoutCurve?: true;
}
