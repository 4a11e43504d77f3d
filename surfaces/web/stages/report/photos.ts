/** Files of the photographs that have marks, for the worker that cuts their strips out. */
import type { Store } from '../../store/index.ts';

/** By path; a file that this device does not have is not in it. */
export async function markedPhotos(store: Store): Promise<[path: string, photo: Blob][]> {
  const paths = store
    .rows('photos')
    .filter(({ cells }) => (cells['mark_1']?.trim() ?? '') !== '')
    .map(({ cells }) => cells['file']?.trim() ?? '');
  const read = [...new Set(paths)].map(async (path): Promise<[string, Blob][]> => {
    const photo = await store.file(path).catch(() => null);
    return photo === null ? [] : [[path, photo]];
  });
  return (await Promise.all(read)).flat();
}
