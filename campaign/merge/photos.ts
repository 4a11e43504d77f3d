/** Photos and other files of the two copies: a path is the hash of its content, so one path is one file. */
import type { Copy } from './copy.ts';
import type { MergePlan, MergeSide } from './shape.ts';

export function filesBetween(ours: MergeSide, theirs: MergeSide, merged: Copy): MergePlan['files'] {
  const come = [...theirs.files.keys()].filter((path) => !ours.files.has(path)).sort();
  const named = new Set(merged.rows('photos').flatMap(({ cells }) => cells['file']?.trim() || []));
  return {
    come,
    bytes: come.reduce((sum, path) => sum + theirs.files.get(path)!, 0),
    only_here: [...ours.files.keys()].filter((path) => !theirs.files.has(path)).length,
    missing: [...named].filter((path) => !ours.files.has(path) && !theirs.files.has(path)).sort(),
  };
}
