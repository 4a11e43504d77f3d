/**
 * How each sediment is drawn: pattern, tint, and width by grain size. One table for all figures.
 *
 * Pattern numbers are those of FGDC-STD-013-2006, section 37; `null` where it has none and the drawing is ours.
 * The glyphs are drawn from the patterns' names, not traced from the plates.
 */
export type Tint = 'gravel' | 'sand' | 'silt' | 'clay' | 'peat' | 'soil' | 'till' | 'unknown';

/** What a pattern is made of; `pattern.tsx` draws each. */
export type Glyphs =
  | 'fine_dots'
  | 'dots'
  | 'coarse_dots'
  | 'bedded_dots'
  | 'crossbeds'
  | 'stones'
  | 'silt_lines'
  | 'sandy_silt_lines'
  | 'clay_lines'
  | 'silty_clay_lines'
  | 'tufts'
  | 'roots'
  | 'angular_stones'
  | 'shells'
  | 'sparse_dots'
  | 'sparse_stones'
  | 'sparse_tufts'
  | 'bricks'
  | 'strokes'
  | 'queries';

export interface Sediment {
  /** As a figure calls it. */
  name: string;
  /** As a second sediment qualifies the first: "clay, silty". */
  adjective: string;
  fgdc: number | null;
  glyphs: readonly Glyphs[];
  tint: Tint;
  /** 0 clay, 1 silt, 2 fine, 3 medium, 4 coarse sand, 5 gravel. */
  grain: number;
  /** What it adds to a pattern when it is the second sediment. */
  accent: Glyphs | null;
}

const sediment = (
  name: string,
  adjective: string,
  fgdc: number | null,
  glyphs: readonly Glyphs[],
  tint: Tint,
  grain: number,
  accent: Glyphs | null,
): Sediment => ({ name, adjective, fgdc, glyphs, tint, grain, accent });

/** By noun, or by noun and the quality that gives it a pattern of its own: `sand fine`. */
export const SEDIMENTS = {
  gravel: sediment('Gravel', 'gravelly', 601, ['stones', 'sparse_dots'], 'gravel', 5, 'sparse_stones'),
  'gravel sandy': sediment(
    'Gravel, sandy',
    'gravelly',
    602,
    ['stones', 'dots'],
    'gravel',
    5,
    'sparse_stones',
  ),
  sand: sediment('Sand', 'sandy', 607, ['dots'], 'sand', 3, 'sparse_dots'),
  'sand fine': sediment('Sand, fine', 'sandy', 607, ['fine_dots'], 'sand', 2, 'sparse_dots'),
  'sand medium': sediment('Sand, medium', 'sandy', 607, ['dots'], 'sand', 3, 'sparse_dots'),
  'sand coarse': sediment('Sand, coarse', 'sandy', 607, ['coarse_dots'], 'sand', 4, 'sparse_dots'),
  'sand bedded': sediment('Sand, bedded', 'sandy', 608, ['bedded_dots'], 'sand', 3, 'sparse_dots'),
  'sand crossbedded': sediment('Sand, cross-bedded', 'sandy', 609, ['crossbeds'], 'sand', 3, 'sparse_dots'),
  'sand shelly': sediment('Sand, shelly', 'sandy', 607, ['fine_dots', 'shells'], 'sand', 3, 'sparse_dots'),
  silt: sediment('Silt', 'silty', 616, ['silt_lines'], 'silt', 1, null),
  'silt sandy': sediment('Silt, sandy', 'silty', 616, ['sandy_silt_lines'], 'silt', 1.4, null),
  mud: sediment('Mud', 'muddy', 619, ['silty_clay_lines'], 'silt', 0.4, null),
  clay: sediment('Clay', 'clayey', 620, ['clay_lines'], 'clay', 0, null),
  'clay silty': sediment('Clay, silty', 'clayey', 619, ['silty_clay_lines'], 'clay', 0.4, null),
  'clay rooted': sediment('Clay, rooted', 'clayey', 660, ['clay_lines', 'roots'], 'soil', 0, null),
  peat: sediment('Peat', 'peaty', 657, ['tufts'], 'peat', 0, 'sparse_tufts'),
  'mud organic': sediment(
    'Organic mud',
    'organic',
    624,
    ['clay_lines', 'sparse_tufts'],
    'silt',
    0,
    'sparse_tufts',
  ),
  diamicton: sediment(
    'Diamicton',
    'stony',
    681,
    ['angular_stones', 'sparse_dots'],
    'till',
    5,
    'sparse_stones',
  ),
  soil: sediment('Soil', 'rooted', null, ['sparse_dots', 'roots'], 'soil', 1, 'roots'),
  'shell bed': sediment('Shell bed', 'shelly', 652, ['shells', 'shells'], 'sand', 5, 'shells'),
  limestone: sediment('Limestone', 'calcareous', 627, ['bricks'], 'silt', 5, null),
  bedrock: sediment('Bedrock', 'rocky', null, ['strokes'], 'till', 5, null),
  'made ground': sediment('Made ground', 'filled', null, ['angular_stones'], 'unknown', 4, null),
  unknown: sediment('Unknown', 'unknown', null, ['queries'], 'unknown', 0, null),
} as const satisfies Record<string, Sediment>;

export type SedimentKey = keyof typeof SEDIMENTS;
