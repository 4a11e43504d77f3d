/**
 * The sheet that goes with a parcel to a laboratory and comes back filled in. Its headings are said here once, so that it is
 * read as it was written, and no column has to be chosen by hand.
 */
import { ourWord } from './trade-words.ts';

/** What the campaign knows of a sample: for the laboratory, and not read again when the sheet comes back. */
export const SHEET_SAYS = {
  code: 'label code',
  identifier: 'identifier',
  hole: 'hole',
  site: 'site',
  position: 'position in the core',
  depth: 'depth below ground, m',
  depth_error: 'depth ±2σ, m',
  elevation: 'elevation, m',
  elevation_error: 'elevation ±2σ, m',
  material: 'material sent',
  amount: 'amount sent',
  request: 'asked for',
  age: 'expected age, cal BP',
  note: 'note for the laboratory',
} as const;

/** By which a result finds its sample. */
export const SHEET_SAMPLE = 'sample';

/** What the laboratory fills in; the method is there already where the request names one. */
export const SHEET_ASKS = {
  method: 'method',
  lab_code: 'laboratory code',
  value: 'value',
  error: 'error, 1σ',
  reported_as: 'reported as',
  delta13c: 'δ13C, ‰',
  fraction: 'fraction dated',
  remarks: 'remarks',
} as const;

/** The method of dating that a request names; null for any other request. */
export const methodAsked = (request: string): string | null => ourWord('determinations', 'method', request);

const SAID: ReadonlySet<string> = new Set(Object.values(SHEET_SAYS));

/** Columns of a table that came back, without those that say what is here already; of other tables all. */
export const withoutSaid = <Column extends { heading: string }>(columns: readonly Column[]): Column[] => {
  const headings = new Set(columns.map(({ heading }) => heading));
  const isOurs = [SHEET_SAMPLE, SHEET_SAYS.code, SHEET_SAYS.request].every((name) => headings.has(name));
  return columns.filter(({ heading }) => !isOurs || !SAID.has(heading));
};
