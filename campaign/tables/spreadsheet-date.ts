/**
 * What spreadsheets make of a number they take for a date: "3-5" becomes 3-May, 5-Mar or 2019-05-03. Month names of
 * the languages whose spreadsheets we expect to meet (English, German, French, Spanish, Portuguese), first three
 * letters. From memory: no published list of these disguises is known to us.
 */
const MONTH =
  '(?:jan|ene|feb|fév|fev|mar|mär|mrz|apr|avr|abr|may|mai|jun|jui|jul|aug|aoû|ago|sep|set|okt|oct|out|nov|dec|dez|déc|dic)[a-zäéûç]{0,7}';

const DISGUISES = [
  // 2019-03-05, 2019/3/5, with or without a time
  /^\d{4}[-/.]\d{1,2}[-/.]\d{1,2}(?:[ T].*)?$/,
  // 05/03/2019, 5.3.19, 5-3-2019
  /^\d{1,2}([-/.])\d{1,2}\1(?:\d{4}|\d{2})(?: .*)?$/,
  // 3-May, 3. Mai 2019, 03/mai
  new RegExp(`^\\d{1,2}(?:[-/ ]|\\. ?)${MONTH}\\.?(?:[-/. ]{1,2}\\d{2,4})?$`, 'iu'),
  // May-05, Mai 2019
  new RegExp(`^${MONTH}\\.?[-/ ]\\d{1,4}$`, 'iu'),
  // 03:05, 3:05:00 AM
  /^\d{1,2}:\d{2}(?::\d{2})?(?: ?[ap]\.?m\.?)?$/i,
] as const;

/** True where the text has the form of a date or a time of day and so cannot be a number. */
export function looksLikeDate(text: string): boolean {
  return text.length < 40 && DISGUISES.some((disguise) => disguise.test(text));
}
