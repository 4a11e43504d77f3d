/** Which of two things happened later, where holes share the same pipe and clocks may be missing. */

export interface Moment {
  /** Null: in no hole. */
  hole: string | null;
  /** Place in the order of its hole. */
  line: number;
  /** ms since 1970; NaN where the clock was not read. */
  time_ms: number;
}

/** Whether `b` is later than `a`: in one hole by its order, else by the clock; null where nothing shows it. */
export function isLater(b: Moment, a: Moment): boolean | null {
  if (b.hole === a.hole && b.hole !== null) return b.line > a.line;
  return Number.isFinite(a.time_ms) && Number.isFinite(b.time_ms) && a.time_ms !== b.time_ms
    ? b.time_ms > a.time_ms
    : null;
}

/** The latest; where nothing shows which of two it is, the graver one, by `gravity`. */
export function latest<M extends Moment>(moments: readonly M[], gravity: (moment: M) => number): M | null {
  let last: M | null = null;
  for (const moment of moments) {
    const later = last === null ? true : isLater(moment, last);
    if (later === true || (later === null && gravity(moment) >= gravity(last!))) last = moment;
  }
  return last;
}
