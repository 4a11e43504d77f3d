/** What the maps of a campaign's figures show besides its holes: its coasts and grounds, and the land of the Earth. */
import { joinedShapes, type MapShapes, NO_SHAPES, readShapes } from '@stillstand/output/shapes';
import { worldLand } from '@stillstand/published/coast';
import type { OpenCampaign } from './campaign-folder.ts';
import { printError, sayProblems } from './say.ts';
import { unlessRefused } from './unless-refused.ts';

const MIB = 1_048_576;
/** A coast has some megabytes at most. */
const MOST_BYTES = 50 * MIB;

const WITHOUT = 'The maps are drawn without it.';

/** What cannot be read is said and left out. */
export async function shapesOf({ coasts, file }: Pick<OpenCampaign, 'coasts' | 'file'>): Promise<MapShapes> {
  const own: MapShapes[] = [];
  for (const path of await unlessRefused(coasts, [], 'No coast is drawn.')) {
    const bytes = await unlessRefused(() => file(path, MOST_BYTES), 'refused' as const, WITHOUT);
    if (bytes === 'refused') continue;
    if (bytes === null)
      printError(`warning: ${path}: found no file, or a link, which is not followed. ${WITHOUT}`);
    else if (bytes === 'too-large')
      printError(
        `warning: ${path}: found more than ${MOST_BYTES / MIB} MiB, too large for a coast. ${WITHOUT}`,
      );
    else {
      const { shapes, problem } = readShapes(path, new TextDecoder().decode(bytes));
      if (shapes === null) sayProblems([problem]);
      else own.push(shapes);
    }
  }
  return joinedShapes([...own, { ...NO_SHAPES, land: await worldLand() }]);
}
