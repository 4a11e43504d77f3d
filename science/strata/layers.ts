/**
 * Descriptions of units to layers. A unit described over several runs has a piece in each, under one label: pieces that
 * follow one another with one label and one sediment are one layer. Without a label a piece is a layer of its own.
 * @param pieces from the top down
 */
export function layersOf<Piece>(
  pieces: readonly Piece[],
  named: (piece: Piece) => { unit: string; sediment: string | null },
): Piece[][] {
  const layers: Piece[][] = [];
  let above: { unit: string; sediment: string | null } | null = null;
  for (const piece of pieces) {
    const name = named(piece);
    if (above !== null && name.unit !== '' && above.unit === name.unit && above.sediment === name.sediment)
      layers.at(-1)!.push(piece);
    else layers.push([piece]);
    above = name;
  }
  return layers;
}
