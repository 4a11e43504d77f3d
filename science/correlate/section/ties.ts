/** The ties of two neighbouring holes that can be drawn together. */
import type { SectionFinding, SectionTie } from './shape.ts';
import type { PanelTie } from './slots.ts';
import type { Stack } from './stack.ts';

/** From the top down. Of two that cross, the one given first stays. */
export function panelTies(
  left: Stack,
  right: Stack,
  ties: readonly SectionTie[],
): { ties: PanelTie[]; problems: SectionFinding[] } {
  const problems: SectionFinding[] = [];
  const kept: PanelTie[] = [];
  for (const tie of ties) {
    const isTurned = tie.hole_a !== left.hole;
    if (isTurned ? tie.hole_b !== left.hole || tie.hole_a !== right.hole : tie.hole_b !== right.hole)
      continue;
    const [unit_a, unit_b] = isTurned ? [tie.unit_b, tie.unit_a] : [tie.unit_a, tie.unit_b];
    const a = left.layers.findIndex(({ id }) => id === unit_a);
    const b = right.layers.findIndex(({ id }) => id === unit_b);
    if (a === -1 || b === -1 || kept.some((other) => other.a === a && other.b === b)) continue;
    const crossed = kept.find((other) => (other.a - a) * (other.b - b) < 0);
    if (crossed !== undefined)
      problems.push({ kind: 'tie_crosses', row_id: tie.row_id, other: crossed.row_id });
    else
      kept.push({
        row_id: tie.row_id,
        a,
        b,
        confidence: confidenceOf(tie.confidence),
        horizon: tie.horizon,
      });
  }
  return { ties: kept.sort((p, q) => p.a - q.a || p.b - q.b), problems };
}

const confidenceOf = (word: string | null): PanelTie['confidence'] =>
  word === 'certain' || word === 'probable' || word === 'possible' ? word : null;
