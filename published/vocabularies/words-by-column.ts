/** Words to choose from by table and column, for tables that are read from elsewhere. */
import { sampleMaterials } from './sample-materials.ts';
import { sediments } from './sediments.ts';

export const wordsByColumn: Readonly<Record<string, readonly string[]>> = {
  'units.sediment': sediments.map(({ word }) => word),
  'samples.material': sampleMaterials.map(({ word }) => word),
};
