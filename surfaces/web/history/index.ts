/** What was done to the open campaign, and how it differs from an earlier state. */
export { ComparePage } from './compare-page.tsx';
export { HistoryPage } from './history-page.tsx';
