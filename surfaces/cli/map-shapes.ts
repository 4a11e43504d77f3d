/** What the maps of a campaign's figures show besides its holes: its coasts and grounds, and the land of the Earth. */
import { joinedShapes, type MapShapes, NO_SHAPES, readShapes } from '@stillstand/output/shapes';
import { worldLand } from '@stillstand/published/coast';
import type { OpenCampaign } from './campaign-folder.ts';
import { printError } from './say.ts';

/** A coast has some megabytes at most. */
const MOST_BYTES = 50 * 1_048_576;

/** What cannot be read is said and left out: the maps are drawn without it. */
export async function shapesOf({ coasts, file }: Pick<OpenCampaign, 'coasts' | 'file'>): Promise<MapShapes> {
  const own: MapShapes[] = [];
  for (const path of await coasts()) {
    const bytes = await file(path, MOST_BYTES);
    const read = bytes instanceof Uint8Array ? readShapes(path, new TextDecoder().decode(bytes)) : null;
    if (read !== null && read.shapes !== null) own.push(read.shapes);
    else
      printError(
        `warning: ${path}: found ${read === null ? `a file that cannot be read, or more than ${MOST_BYTES / 1_048_576} MB` : `“${read.problem.found}”`}; no coast is drawn from it`,
      );
  }
  return joinedShapes([...own, { ...NO_SHAPES, land: await worldLand() }]);
}
