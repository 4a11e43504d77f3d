/** The door of Points: its page. */
export { Stage } from './stage.tsx';
