/** The data package: a campaign, its results and how they were made, as files for an archive, and read again. */
export { dataPackage } from './data-package.ts';
export { type Frozen, holdsFrozen, packedCampaign, readFrozen } from './frozen.ts';
export { megabytes, type Photographs, photographsNamed, tooManyPhotographs } from './photographs.ts';
