/** The door of Report: its page. */
export { Stage } from './stage.tsx';
