/** Files of the photographs that have marks, for the worker that cuts their strips out. */
import type { Store } from '../../store/index.ts';
import { photographs } from './photographs.tsx';
import type { PackedFile } from './protocol.ts';

/** By path; a file that this device does not have is not among them. */
export async function markedPhotos(store: Store): Promise<PackedFile[]> {
  const paths = store
    .rows('photos')
    .filter(({ cells }) => (cells['mark_1']?.trim() ?? '') !== '')
    .map(({ cells }) => cells['file']?.trim() ?? '');
  return await photographs([...new Set(paths)], store);
}
