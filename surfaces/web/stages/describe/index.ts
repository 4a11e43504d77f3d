/** The door of Describe: its page. */
export { Stage } from './stage.tsx';
