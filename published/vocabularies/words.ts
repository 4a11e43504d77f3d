/**
 * Words to choose from when a unit is described: contacts, structures, fossils, environments. Common practice, no
 * source.
 */

export interface Word {
  word: string;
  about: string;
}

const words = (list: Record<string, string>): readonly Word[] =>
  Object.entries(list).map(([word, about]) => ({ word, about }));

/** As in the column `contact_below`. */
export const contacts: readonly Word[] = words({
  sharp: 'change within 1 mm',
  gradational: 'change over more than 1 mm; write how much',
  erosional: 'sharp, cutting what lies below',
  uncertain: 'lost, smeared or between two runs',
});

export const structures: readonly Word[] = words({
  massive: 'no structure seen',
  laminated: 'layers thinner than 1 cm',
  bedded: 'layers of 1 cm and more',
  'cross-bedded': 'layers at an angle to the bed',
  rippled: 'ripples seen in section',
  'flaser-bedded': 'mud drapes in rippled sand',
  'lenticular-bedded': 'sand lenses in mud',
  'graded upward': 'finer towards the top',
  'graded downward': 'coarser towards the top',
  bioturbated: 'mixed by animals; individual burrows not distinguishable',
  burrowed: 'distinct burrows',
  rooted: 'roots in place',
  mottled: 'patches of colour',
  deformed: 'bent by loading, slumping or the coring',
  desiccated: 'cracks of drying',
  concretions: 'hard lumps grown in place',
  'rip-up clasts': 'pieces of a layer below carried in',
});

export const fossils: readonly Word[] = words({
  'articulated shells': 'both valves together: lived near or lay still',
  shells: 'whole shells, single valves',
  'shell fragments': 'broken shells',
  'shells in life position': 'died where they lived',
  oysters: 'cemented or loose',
  barnacles: 'plates or whole',
  coral: 'any coral; write whether in place',
  foraminifera: 'seen with the lens',
  ostracods: 'seen with the lens',
  diatoms: 'known from a sample',
  'sea urchin spines': 'fully marine water near',
  'fish remains': 'bones, scales, teeth',
  'roots in place': 'cross the layers they grew in',
  rootlets: 'fine roots, in place or not unknown',
  wood: 'loose wood; may be older than the layer',
  'wood in place': 'stump or root grown there',
  leaves: 'delicate: not carried far',
  seeds: 'or fruits',
  charcoal: 'may be older than the layer',
  mangrove: 'roots, leaves or wood of mangrove',
  reeds: 'stems or rhizomes',
});

export const environments: readonly Word[] = words({
  'open shelf': 'below wave base',
  shoreface: 'below low water, moved by waves',
  beach: 'swash of waves',
  'beach ridge': 'built by waves above the beach',
  dune: 'sand blown by wind',
  washover: 'carried over a barrier by storm waves',
  'tidal channel': 'scoured and filled by tidal currents',
  'sand flat': 'bare between the tides, sand',
  mudflat: 'bare between the tides, mud',
  'low marsh': 'vegetated, flooded at most high waters',
  'high marsh': 'vegetated, flooded at springs only',
  mangrove: 'wooded between the tides',
  lagoon: 'quiet water behind a barrier',
  estuary: 'where river and sea mix',
  prodelta: 'mud off a river mouth',
  'reef flat': 'coral rock near low water',
  swamp: 'wooded, fresh water at the surface',
  fen: 'fed by ground water',
  lake: 'standing fresh water',
  floodplain: 'flooded by a river',
  'river channel': 'moved by a river',
  'land surface': 'soil or weathered ground',
  glacial: 'laid by ice or its meltwater',
  'made ground': 'laid by people',
  'not known': 'unknown',
});
