/** The data package: a campaign, its results and how they were made, as files for an archive. */
export { dataPackage } from './data-package.ts';
