/** Earlier states of a campaign. */
export { documentAfter } from './document-after.ts';
