/** Kinds of table as people call them. */
import type { Kind } from '@stillstand/campaign/import';

export const KIND_WORDS: Readonly<Record<Kind, string>> = {
  cores: 'Cores',
  'tide-levels': 'Tide levels',
  levelling: 'Levelling',
  pushes: 'Pushes',
  layers: 'Layers of cores',
  samples: 'Samples',
  'calibration-curves': 'Calibration curve',
  'age-densities': 'Age as a curve of probability',
  dates: 'Dates',
  measurements: 'Measurements',
  'lead-profiles': 'Lead-210 and caesium-137',
  points: 'Sea-level points',
  'published-points': 'Published sea-level points',
};
