/**
 * What samples are made of, and what that means for a radiocarbon date. Common practice, no source, except where named.
 */

export interface SampleMaterial {
  word: string;
  /** Where its carbon comes from: the air, the sea, or both in shares that must be known. Null: not dated by 14C. */
  carbon: 'atmosphere' | 'sea' | 'mixed' | null;
  caution: string;
}

const material = (word: string, carbon: SampleMaterial['carbon'], caution = ''): SampleMaterial => ({
  word,
  carbon,
  caution,
});

export const sampleMaterials: readonly SampleMaterial[] = [
  material('leaves', 'atmosphere'),
  material('seeds', 'atmosphere'),
  material('twigs', 'atmosphere', 'some years older than the layer'),
  material('wood', 'atmosphere', 'inner rings and drifted wood are older than the layer'),
  material('roots', 'atmosphere', 'younger than the layer they grew into'),
  material('rhizomes', 'atmosphere', 'grew below the surface of their time'),
  material('charcoal', 'atmosphere', 'old wood, and carried in'),
  material('peat, macrofossils', 'atmosphere'),
  material('peat, bulk', 'atmosphere', 'mixes older and younger carbon'),
  material('organic mud, bulk', 'mixed', 'carbon carried in is older; algae may carry a reservoir age'),
  material('humic fraction', 'atmosphere', 'moves in the ground'),
  material(
    'marine shell',
    'sea',
    'needs a reservoir offset for the curve it is calibrated on; deposit feeders can be too old',
  ),
  material('estuarine shell', 'mixed', 'share of marine carbon and hard water must be known'),
  material('coral', 'sea', 'recrystallised coral is too young'),
  material('foraminifera', 'sea', 'many small tests: an average age'),
  material('bone', 'mixed', 'depends on the diet'),
  material('quartz', null, 'luminescence: bleached before it was covered?'),
  material('feldspar', null, 'luminescence: fading'),
  material('sediment, bulk', null),
];
