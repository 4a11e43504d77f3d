/** The door of Drill: its page. */
export { Stage } from './stage.tsx';
