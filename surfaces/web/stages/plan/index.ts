/** The door of Plan: its page. */
export { Stage } from './stage.tsx';
