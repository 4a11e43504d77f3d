/** A number that is only a limit, as people write it: "> 48,000", "<0.5", "ND". */

type Qualifier = 'less_than' | 'greater_than' | 'not_determined';

export interface Limit {
  qualifier: Qualifier;
  /** The number as typed; empty where none is given. */
  value: string;
}

const BELOW = /^(?:[<≤]=?|less than|below|under|younger than|at most)\s*(?=[-+−]?[\d.,])/iu;
const ABOVE = /^(?:[>≥]=?|greater than|more than|above|over|older than|at least)\s*(?=[-+−]?[\d.,])/iu;
const NOT_DETERMINED = /^(?:n\.?\s?d\.?|n\.?\s?m\.?|not (?:determined|measured|analy[sz]ed))$/iu;
/** Below detection without saying where that lies. */
const UNDETECTED =
  /^(?:b\.?\s?d\.?(?:\s?l\.?)?|below (?:the )?detection(?: limit)?|not detect(?:ed|able)|<\s?l\.?o\.?[dq]\.?|<\s?l\.?d\.?|<\s?m\.?d\.?a\.?|<\s?d\.?l\.?|<\s?m\.?d\.?l\.?)$/iu;

/** The limit a cell states; null where it is a plain number or something else. */
export function readLimit(text: string): Limit | null {
  const typed = text.trim();
  if (NOT_DETERMINED.test(typed)) return { qualifier: 'not_determined', value: '' };
  if (UNDETECTED.test(typed)) return { qualifier: 'less_than', value: '' };
  if (BELOW.test(typed)) return { qualifier: 'less_than', value: typed.replace(BELOW, '') };
  if (ABOVE.test(typed)) return { qualifier: 'greater_than', value: typed.replace(ABOVE, '') };
  return null;
}
