/** Words and figures of the trade to choose from, each beside its source. */
export { type IndicatorType, indicatorTypes } from './indicator-types.ts';
export { type PipeSize, pipeSizes } from './pipe-sizes.ts';
export { type SampleMaterial, sampleMaterials } from './sample-materials.ts';
export { type Sediment, type SedimentTint, sediments } from './sediments.ts';
export { contacts, environments, fossils, structures, type Word } from './words.ts';
export { wordsByColumn } from './words-by-column.ts';
