/** Photos and other files of the two copies: a path is the hash of its content, so one path is one file. */
import { PHOTOS_LEFT_OUT } from '@stillstand/campaign/document';
import type { Copy } from './copy.ts';
import type { MergePlan, MergeSide } from './shape.ts';

export function filesBetween(ours: MergeSide, theirs: MergeSide, merged: Copy): MergePlan['files'] {
  // What a copy without photos says of them is about that copy alone.
  const notIn = (side: MergeSide) => (path: string) => path !== PHOTOS_LEFT_OUT && !side.files.has(path);
  const come = [...theirs.files.keys()].filter(notIn(ours)).sort();
  const named = new Set(merged.rows('photos').flatMap(({ cells }) => cells['file']?.trim() || []));
  return {
    come,
    bytes: come.reduce((sum, path) => sum + theirs.files.get(path)!, 0),
    only_here: [...ours.files.keys()].filter(notIn(theirs)).length,
    missing: [...named].filter((path) => !ours.files.has(path) && !theirs.files.has(path)).sort(),
  };
}
