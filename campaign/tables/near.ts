/** The word somebody probably meant. */

/**
 * The candidate fewest edits away from `word` (insert, delete, replace; case does not count), or null where none is
 * near: more than a third of the letters would have to change. The first of equals.
 */
export function nearest<Word extends string>(word: string, candidates: Iterable<Word>): Word | null {
  const sought = word.trim().toLowerCase().slice(0, 60);
  let best: Word | null = null;
  let bestEdits = Math.floor(sought.length / 3) + 1;
  for (const candidate of candidates) {
    if (Math.abs(candidate.length - sought.length) >= bestEdits) continue;
    const edits = editDistance(sought, candidate.toLowerCase(), bestEdits);
    if (edits < bestEdits) {
      best = candidate;
      bestEdits = edits;
    }
    if (bestEdits === 0) break;
  }
  return best;
}

/** Levenshtein (1966) distance by rows; gives up, returning `limit`, once it cannot stay below it. */
function editDistance(a: string, b: string, limit: number): number {
  let above = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    let least = i;
    for (let j = 1; j <= b.length; j++) {
      const replaced = above[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1);
      const edits = Math.min(replaced, above[j]! + 1, row[j - 1]! + 1);
      row.push(edits);
      if (edits < least) least = edits;
    }
    if (least >= limit) return limit;
    above = row;
  }
  return above[b.length]!;
}
