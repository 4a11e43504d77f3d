/** The two copies and what they are together. */
import type { Copy } from './copy.ts';
import type { ConflictChoice, Side } from './shape.ts';

export interface Meeting {
  readonly ours: Copy;
  readonly theirs: Copy;
  /** Before anything is put right or decided. */
  readonly merged: Copy;
}

/**
 * Whose each of the rivals of a conflict is. Where one copy has them all, having been merged before, what only it has is
 * its own and the rest is the other's.
 */
export function sidesOf<Rival>(
  { ours, theirs }: Meeting,
  rivals: readonly Rival[],
  has: (copy: Copy, rival: Rival) => boolean,
): Map<Rival, Side> {
  const sides = rivals.map((rival): Side => {
    const [here, there] = [has(ours, rival), has(theirs, rival)];
    return here === there ? 'both' : here ? 'ours' : 'theirs';
  });
  const rest: Side = !sides.includes('ours')
    ? sides.includes('theirs')
      ? 'ours'
      : 'both'
    : sides.includes('theirs')
      ? 'both'
      : 'theirs';
  return new Map(rivals.map((rival, i) => [rival, sides[i] === 'both' ? rest : sides[i]!]));
}

/** What is here comes first. */
export const bySide = (a: { side: Side | null }, b: { side: Side | null }): number => rank(a) - rank(b);

const rank = ({ side }: { side: Side | null }): number => (side === 'ours' ? 0 : side === null ? 2 : 1);

export const LATER: ConflictChoice = { key: 'later', side: null, words: 'Decide later' };
