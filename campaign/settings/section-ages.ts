/** Ages at which section lines are drawn: how one is read where it is typed, and where the settings have it. */

/** cal BP, and at most so many. */
export const SECTION_AGES = { youngest: -100, oldest: 50_000, most: 6 } as const;

/** Thousands may have a comma, the sign may be a minus; null for what is no such age. */
export function readSectionAge(text: string): number | null {
  const plain = text
    .trim()
    .replace('−', '-')
    .replace(/(?<=\d),(?=\d{3}(?!\d))/g, '');
  const age = /^-?\d+(\.\d+)?$/.test(plain) ? Number(plain) : Number.NaN;
  return age >= SECTION_AGES.youngest && age <= SECTION_AGES.oldest ? age : null;
}
