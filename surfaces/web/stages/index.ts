/** The stages there are, in the order of the job; each is loaded when it is first opened. */
import { type ComponentType, lazy } from 'react';
import type { Stage, StageProps } from '../shell/index.ts';

const page = (load: () => Promise<{ Stage: ComponentType<StageProps> }>): Stage['Page'] =>
  lazy(() => load().then(({ Stage: Page }) => ({ default: Page })));

export const STAGES: readonly Stage[] = [
  { name: 'Plan', Page: page(() => import('./plan/index.ts')), withoutCurve: true },
  { name: 'Drill', Page: page(() => import('./drill/index.ts')), withoutCurve: true },
  { name: 'Describe', Page: page(() => import('./describe/index.ts')) },
  { name: 'Date', Page: page(() => import('./date/index.ts')) },
  { name: 'Points', Page: page(() => import('./points/index.ts')) },
  { name: 'Curve', Page: page(() => import('./curve/index.ts')) },
  { name: 'Report', Page: page(() => import('./report/index.ts')) },
];
