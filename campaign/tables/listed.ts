/** Words of a cell that lists several, separated by ;. */
export const listed = (cell: string | null | undefined): string[] =>
  (cell ?? '')
    .split(';')
    .map((word) => word.trim())
    .filter((word) => word !== '');
