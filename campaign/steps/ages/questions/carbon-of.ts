/**
 * Where the carbon of a material comes from, as far as its words say: those of the vocabulary, and what people write instead. What grows in
 * both (estuarine shell, bone, mud) and what is not known is null: nothing is asked of it.
 */
const SEA = /\b(marine shells?|oysters?|mussels?|corals?|foraminifera|forams?|barnacles?|sea shells?)\b/i;
const LAND =
  /\b(lea(f|ves)|seeds?|nuts?|twigs?|wood|roots?|rhizomes?|charcoal|peat|macrofossils?|humic|humin|plants?)\b/i;
const NEITHER = /\b(estuarine|freshwater|lake|river|land snails?|mud|bulk sediment|bone)\b/i;

export function carbonOf(material: string | null): 'sea' | 'land' | null {
  if (material === null || NEITHER.test(material)) return null;
  if (SEA.test(material)) return 'sea';
  return LAND.test(material) ? 'land' : null;
}
