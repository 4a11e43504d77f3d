/** The shell around every stage: what starts it, and what stages ask of it. */
export { App, type HomeProps } from './app.tsx';
export { DirectLink } from './direct-link.tsx';
export { beginFirstSteps } from './frame/first-steps.tsx';
export { HeadAside, HeadTitle } from './frame/head-slot.tsx';
export { keepOffline } from './offline.ts';
export { go, useNavigate, writeRoute } from './route.ts';
export { addWithNamed, newRows, newRowWords } from './rows/new-rows.ts';
export { useOpenRow } from './rows/row-dialog.tsx';
export { TraceBeside } from './rows/trace-panel.tsx';
export type { Stage, StageName, StageProps } from './stage.ts';
export { putOnTheme, type Theme, useTheme } from './theme.ts';
