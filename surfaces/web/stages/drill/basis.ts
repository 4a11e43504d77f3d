/** What a number rests on that nobody measured: as the crew said it, or as it is assumed until they do. */
export interface Basis {
  says: string;
  assumed: boolean;
}

/** All of it in one line; a press on it says otherwise. */
export const basisWords = (basis: readonly Basis[]): string => basis.map((b) => b.says).join(', ');
