/**
 * How fast a sediment usually gathers, mm/yr, over centuries and millennia and as it lies now: a first guess by its name
 * that a few dates overrule, since a hole may differ from it by a factor of ten either way (`accumulation_log_sd`).
 *
 * Peat 0.3 to 4.9 in three tidal marshes over 6,000 years (Drexler, de Fontaine & Brown 2009, Estuaries Coasts
 * 32:871–892, its abstract read), the middle of which is about 1; the others from memory: common practice, no source.
 * What gathers in place without a usual rate (soil, shell beds, diamicton) is left out, and counts as the hole does.
 */
const BY_SEDIMENT: Readonly<Record<string, number>> = {
  peat: 1,
  'organic mud': 1.5,
  mud: 1.5,
  clay: 1.5,
  'silty clay': 1.5,
  silt: 2,
  'sandy silt': 2,
  'fine sand': 3,
  'medium sand': 3,
  'coarse sand': 3,
  sand: 3,
  'bedded sand': 3,
  'shelly sand': 3,
  'sandy gravel': 3,
  gravel: 3,
};

/** Sediments that form where they lie, over years and more: none of them is laid down at once. */
const IN_PLACE: ReadonlySet<string> = new Set(['peat', 'rooted clay', 'soil']);

const named = (sediment: string): string => sediment.trim().toLowerCase();

/** Null where the name is none of these. */
export const usualAccumulation = (sediment: string): number | null =>
  Object.hasOwn(BY_SEDIMENT, named(sediment)) ? BY_SEDIMENT[named(sediment)]! : null;

export const formsInPlace = (sediment: string): boolean => IN_PLACE.has(named(sediment));

export const SEDIMENTS_WITH_A_RATE = Object.keys(BY_SEDIMENT);
