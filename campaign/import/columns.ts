/** Columns as spreadsheets name them: A is the first, AA the 27th. */

/** The place of a column, from 0. */
export const placeOf = (letters: string): number =>
  [...letters].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0) - 1;

/** The letters of a place from 0. */
export function lettersOf(place: number): string {
  let letters = '';
  for (let rest = place + 1; rest > 0; rest = Math.floor((rest - 1) / 26)) {
    letters = String.fromCharCode(65 + ((rest - 1) % 26)) + letters;
  }
  return letters;
}
