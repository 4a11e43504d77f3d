/** Names of sediments by their parts: Folk 1954, J. Geology 62:344–359 (limits from memory). */
import type { Parts } from './grain-statistics.ts';

/** Per cent of gravel, from which it has a part in the name; a trace is less than a tenth of a per cent. */
const GRAVEL = { gravel: 80, first: 30, gravelly: 5, slightly: 0.1 };
/** Per cent of sand in what is not gravel. */
const SAND = { sand: 90, sandy: 50, mud: 10 };

/**
 * "muddy sand", "gravelly sand": without gravel by sand against mud and silt against clay, with gravel by gravel and
 * sand against mud. "Mud" where silt and clay were not parted. Null where a part that decides is not known.
 */
export function textureName({ gravel, sand, silt, clay, mud }: Parts): string | null {
  if (gravel === null || sand === null || mud === null) return null;
  if (gravel >= GRAVEL.gravel) return 'gravel';
  const fine = sand + mud;
  if (gravel >= GRAVEL.slightly) {
    const ratio = mud > 0 ? sand / mud : Infinity;
    if (gravel >= GRAVEL.first)
      return ratio >= 9 ? 'sandy gravel' : ratio >= 1 ? 'muddy sandy gravel' : 'muddy gravel';
    if (gravel >= GRAVEL.gravelly)
      return ratio >= 9 ? 'gravelly sand' : ratio >= 1 ? 'gravelly muddy sand' : 'gravelly mud';
  }
  if (!(fine > 0)) return null;
  const sandy = (100 * sand) / fine;
  const name = withoutGravel(sandy, kindOfMud(silt, clay));
  return gravel >= GRAVEL.slightly ? `slightly gravelly ${name}` : name;
}

/** A third and two thirds of silt and clay part silt, mud and clay. */
function kindOfMud(silt: number | null, clay: number | null): 'silt' | 'mud' | 'clay' {
  if (silt === null || clay === null || !(silt + clay > 0)) return 'mud';
  const part = silt / (silt + clay);
  return part > 2 / 3 ? 'silt' : part < 1 / 3 ? 'clay' : 'mud';
}

const OF_MUD = { silt: 'silty', mud: 'muddy', clay: 'clayey' } as const;

function withoutGravel(sandy: number, mud: 'silt' | 'mud' | 'clay'): string {
  if (sandy >= SAND.sand) return 'sand';
  if (sandy >= SAND.sandy) return `${OF_MUD[mud]} sand`;
  return sandy >= SAND.mud ? `sandy ${mud}` : mud;
}
