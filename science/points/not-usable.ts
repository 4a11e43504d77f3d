/** Why a point could not be made: an answer, not an exception. */
export interface NotUsable {
  ok: false;
  reason: 'tide_level_missing' | 'meaning_missing' | 'not_a_number' | 'negative_error';
  found: string;
  expected: string;
  fix: string;
}

export const notUsable = (
  reason: NotUsable['reason'],
  found: string,
  expected: string,
  fix: string,
): NotUsable => ({
  ok: false,
  reason,
  found,
  expected,
  fix,
});

/** The first thing that makes a height and its error parts unusable, or null. */
export function unusableNumbers(
  elevation_m: number,
  errors: readonly { component: string; sigma_m: number }[],
): NotUsable | null {
  if (!Number.isFinite(elevation_m)) {
    return notUsable(
      'not_a_number',
      String(elevation_m),
      'an elevation in metres',
      'Give the sample an elevation.',
    );
  }
  for (const { component, sigma_m } of errors) {
    if (sigma_m >= 0 && Number.isFinite(sigma_m)) continue;
    return notUsable(
      Number.isFinite(sigma_m) ? 'negative_error' : 'not_a_number',
      `${component} ${sigma_m} m`,
      'an error of 0 m or more',
      `Correct the error “${component}”.`,
    );
  }
  return null;
}
