/** The door of Date: its page. */
export { Stage } from './stage.tsx';
