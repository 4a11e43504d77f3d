/** The unit a correlation names, among those that were computed. */
import type { HoleResult, UnitResult } from '@stillstand/campaign/results';

/**
 * A correlation names a row of the unit, which outlives every new label, or, typed by hand, its label. `pieces` are the
 * rows of units as described; `unit` is null where there is none (any more), `label` then what the correlation says.
 */
export function correlatedUnit(
  named: string,
  hole: string,
  pieces: readonly { row_id: string; hole: string; unit: string }[],
  holes: readonly Pick<HoleResult, 'hole' | 'units'>[],
): { label: string; unit: UnitResult | null } {
  const piece = pieces.find((row) => row.row_id === named && row.hole === hole);
  const label = piece?.unit ?? named;
  const units = holes.find((h) => h.hole === hole)?.units ?? [];
  const unit =
    units.find((u) => u.row_id === piece?.row_id) ?? units.find((u) => label !== '' && u.unit === label);
  return { label, unit: unit ?? null };
}
