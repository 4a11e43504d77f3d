/** The shell around every stage: what starts it, and what stages ask of it. */
export { App, type HomeProps } from './app.tsx';
export { beginFirstSteps } from './first-steps.tsx';
export { HeadAside, HeadTitle } from './head-slot.tsx';
export { keepOffline } from './offline.ts';
export { go, useNavigate, writeRoute } from './route.ts';
export { useOpenRow } from './row-dialog.tsx';
export type { Stage, StageName, StageProps } from './stage.ts';
export { putOnTheme, type Theme, useTheme } from './theme.ts';
export { TraceBeside } from './trace-panel.tsx';
