/** A table of somebody else brought into the campaign: seen as it would be added, corrected, then added at once. */
export { ImportPage } from './import-page.tsx';
