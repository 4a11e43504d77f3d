/** Choices as people read them, where the word in the table is too short to be understood alone. */
import { choiceName, type TableName } from '@stillstand/campaign/tables';

const WORDS: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  'determinations.age_role': {
    dates: 'age of the layer',
    maximum: 'maximum age (layer is younger)',
    minimum: 'minimum age (layer is older)',
  },
  'points.age_from': {
    determination: 'a date of its sample',
    pooled: 'pooled dates of its sample',
    between: 'between the dates above and below',
    event: 'all dates of one event',
    age_depth: 'age against depth in its hole',
  },
};

/** Whether the schema’s own words already say what each choice means. */
export const hasChoiceWords = (table: TableName, column: string): boolean => `${table}.${column}` in WORDS;

export const choiceWords = (table: TableName, column: string, choice: string): string =>
  WORDS[`${table}.${column}`]?.[choice] ?? choiceName(choice);
