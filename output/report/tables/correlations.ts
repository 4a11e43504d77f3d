/** Contacts correlated between holes. */
import { type CorrelationResult, resultsShape } from '@stillstand/campaign/results';
import { itself, table } from './table.ts';

const { correlations } = resultsShape.fields;

export const CORRELATIONS = table({
  file: 'correlations.csv',
  entry: 'correlations[]',
  about: correlations.of.about,
  shape: correlations.of,
  rows: (results) => results.correlations,
  read: itself<CorrelationResult>,
});
