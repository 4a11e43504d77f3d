/** The door of Curve: its page. */
export { Stage } from './stage.tsx';
