/** Shares of what was held, and what was said with which probability, by tenths. */

/** Held of asked. */
export interface Share {
  held: number;
  of: number;
}
export const share = (): Share => ({ held: 0, of: 0 });
export const add = (to: Share, isHeld: boolean): void => {
  to.of += 1;
  if (isHeld) to.held += 1;
};
export const part = ({ held, of }: Share): number => held / of;
export const inWords = (of: Share): string => `${part(of).toFixed(3)} of ${of.of}`;

/** By tenths of the probability that was said. */
export interface Said {
  probability: number;
  held: number;
  of: number;
}
export const tenths = (): Said[] => Array.from({ length: 10 }, () => ({ probability: 0, held: 0, of: 0 }));
export function addSaid(to: Said[], probability: number, isTrue: boolean): void {
  const tenth = to[Math.min(9, Math.floor(10 * probability))]!;
  tenth.probability += probability;
  tenth.of += 1;
  if (isTrue) tenth.held += 1;
}
export const tenthsInWords = (of: readonly Said[]): string =>
  of
    .filter((each) => each.of > 0)
    .map(
      (each) =>
        `${(each.probability / each.of).toFixed(2)}: ${(each.held / each.of).toFixed(2)} of ${each.of}`,
    )
    .join('; ');
