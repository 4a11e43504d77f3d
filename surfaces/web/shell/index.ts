/** What stages ask of the shell around them. */
export { HeadAside, HeadTitle } from './head-slot.tsx';
export { useNavigate } from './route.ts';
export { useOpenRow } from './row-dialog.tsx';
export { type Theme, useTheme } from './theme.ts';
export { TraceBeside } from './trace-panel.tsx';
