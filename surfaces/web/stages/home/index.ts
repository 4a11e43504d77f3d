/** The door of Home. */
export { Home } from './home.tsx';
