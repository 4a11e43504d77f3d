/** The stages there are, in the order of the job; each is loaded when it is first opened. */
import type { ComponentType } from 'react';

export interface StageProps {
  /** What the address names beside the stage, e.g. `row`, `hole`, `point`. */
  params: Readonly<Record<string, string>>;
}

export type StageName = 'Plan' | 'Drill' | 'Describe' | 'Date' | 'Points' | 'Curve' | 'Report';

export interface Stage {
  name: StageName;
  load: () => Promise<{ Stage: ComponentType<StageProps> }>;
  /** On the rig nothing is spent on the curve. */
  withoutCurve?: true;
}

export const STAGES: readonly Stage[] = [
  { name: 'Plan', load: () => import('./plan/stage.tsx'), withoutCurve: true },
  { name: 'Drill', load: () => import('./drill/stage.tsx'), withoutCurve: true },
  { name: 'Describe', load: () => import('./describe/stage.tsx') },
  { name: 'Date', load: () => import('./date/stage.tsx') },
  { name: 'Points', load: () => import('./points/stage.tsx') },
  { name: 'Curve', load: () => import('./curve/stage.tsx') },
  { name: 'Report', load: () => import('./report/stage.tsx') },
];
