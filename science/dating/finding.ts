/** What makes a laboratory result unusable, or doubtful: an answer, not an exception. */
export interface Finding {
  /** Name of the input, as the caller has it. */
  of: string;
  found: string;
  expected: string;
  fix: string;
}
