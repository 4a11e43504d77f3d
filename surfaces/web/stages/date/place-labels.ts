/** Where labels in one line go, those that say most first; one that would touch another is left out. */
export interface Label {
  middle: number;
  half: number;
  /** What says most is placed first. */
  weight: number;
}

/** Their middles within 0 to `width`, in the order given; null for what found no room. */
export function placeLabels(labels: readonly Label[], width: number, gap: number): (number | null)[] {
  const places: (number | null)[] = labels.map(() => null);
  const order = [...labels.keys()].sort((a, b) => labels[b]!.weight - labels[a]!.weight);
  for (const i of order) {
    const { middle, half } = labels[i]!;
    const at = Math.min(width - half, Math.max(half, middle));
    const isFree = places.every(
      (other, j) => other === null || Math.abs(other - at) >= half + labels[j]!.half + gap,
    );
    if (isFree) places[i] = at;
  }
  return places;
}
