/** Problems and settings: a row each, as described. */
import { bySeverity } from '@stillstand/campaign/problems';
import { type Results, resultsShape } from '@stillstand/campaign/results';
import { itself, table } from './table.ts';

const { problems, settings } = resultsShape.fields;

export const PROBLEMS = table({
  file: 'problems.csv',
  entry: 'problems[]',
  about: `${problems.of.about}; the most serious first`,
  shape: problems.of,
  rows: (results) => bySeverity(results.problems),
  read: itself<Results['problems'][number]>,
});

export const SETTINGS = table({
  file: 'settings.csv',
  entry: 'settings[]',
  about: settings.about,
  shape: settings.of,
  rows: (results) => results.settings,
  read: itself<Results['settings'][number]>,
});
