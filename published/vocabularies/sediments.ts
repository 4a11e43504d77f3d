/**
 * Main sediments a unit can have. FGDC numbers: FGDC-STD-013-2006, section 37 (seen second-hand: four stored copies of
 * the list agree); null where the standard has none that fits. Sizes: Wentworth 1922. Descriptions and which number
 * stands for which word are ours.
 */

/** Key of a tint in the look: `--tint-KEY`. */
export type SedimentTint = 'gravel' | 'sand' | 'silt' | 'clay' | 'peat' | 'soil' | 'till' | 'unknown';

export interface Sediment {
  word: string;
  about: string;
  fgdc_number: number | null;
  /** Class of the commonest grain, as in `grainSizeClasses` (science/laboratory); null where size does not describe it. */
  size_class: string | null;
  tint: SedimentTint;
}

const sediment = (
  word: string,
  fgdc_number: number | null,
  size_class: string | null,
  tint: SedimentTint,
  about: string,
): Sediment => ({ word, about, fgdc_number, size_class, tint });

export const sediments: readonly Sediment[] = [
  sediment('gravel', 601, 'pebble', 'gravel', 'most of it coarser than 2 mm'),
  sediment('sandy gravel', 602, 'granule', 'gravel', 'gravel with much sand between'),
  sediment('coarse sand', 607, 'coarse sand', 'sand', '0.5 to 1 mm'),
  sediment('medium sand', 607, 'medium sand', 'sand', '0.25 to 0.5 mm'),
  sediment('fine sand', 607, 'fine sand', 'sand', '0.125 to 0.25 mm'),
  sediment('sand', 607, 'medium sand', 'sand', 'sand of no stated size, 0.0625 to 2 mm'),
  sediment('bedded sand', 608, 'medium sand', 'sand', 'sand in visible beds'),
  sediment('shelly sand', 607, 'medium sand', 'sand', 'sand with many shells or fragments'),
  sediment('sandy silt', 616, 'coarse silt', 'silt', 'gritty between the teeth, with visible grains'),
  sediment('silt', 616, 'medium silt', 'silt', 'gritty between the teeth, no visible grains'),
  sediment('mud', 619, 'fine silt', 'silt', 'silt and clay not distinguished'),
  sediment('organic mud', 624, 'fine silt', 'silt', 'mud dark with plant matter, mineral to the touch'),
  sediment('silty clay', 619, 'clay', 'clay', 'smooth with some grit; rolls to a thread that cracks'),
  sediment('clay', 620, 'clay', 'clay', 'smooth, plastic; rolls to a thin thread'),
  sediment('rooted clay', 660, 'clay', 'soil', 'clay with roots in place, as under a peat'),
  sediment('peat', 657, null, 'peat', 'mostly plant remains formed in place'),
  sediment('soil', null, null, 'soil', 'weathered in place: structure, colour, roots'),
  sediment('shell bed', 652, 'granule', 'sand', 'mostly shells'),
  sediment('diamicton', 681, null, 'till', 'stones in mud, unsorted; no origin implied'),
  sediment('unknown', null, null, 'unknown', 'seen but not identified, or not seen'),
];
