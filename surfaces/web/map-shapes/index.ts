/** What the maps of a campaign show besides its holes: its own coasts and grounds, and the land of the Earth. */
import { joinedShapes, type MapShapes, NO_SHAPES, readShapes } from '@stillstand/output/shapes';
import { worldLand } from '@stillstand/published/coast';
import type { Store } from '../store/index.ts';

/** From every file of the campaign that ends in .geojson; what cannot be read was said when it was added. */
export async function mapShapes(store: Pick<Store, 'filePaths' | 'file'>): Promise<MapShapes> {
  const own: MapShapes[] = [];
  for (const path of await store.filePaths()) {
    if (!/\.geojson$/i.test(path)) continue;
    const text = await (await store.file(path))?.text();
    const read = text === undefined ? null : readShapes(path, text);
    if (read !== null && read.shapes !== null) own.push(read.shapes);
  }
  return joinedShapes([...own, { ...NO_SHAPES, land: await worldLand() }]);
}
