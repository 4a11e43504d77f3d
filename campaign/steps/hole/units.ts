/** The described units of one hole in the ground, from the top down. */
import type { Campaign } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import type { UnitResult } from '@stillstand/campaign/results';
import { listed, type Row } from '@stillstand/campaign/tables';
import { elevationOf, layersOf } from '@stillstand/science/strata';
import { elevationSigma } from '../heights/elevation.ts';
import type { Runner } from '../runner/runner.ts';
import { coreProblem, doubtful, measuredPlace, placedIn } from './core-place.ts';
import { estimate } from './hole-result.ts';
import type { ModelledHole } from './holes.ts';
import type { Placed } from './place.ts';

/** The rows of a hole's units that have a place, as described. */
export function placedUnits(
  run: Runner,
  campaign: Campaign,
  hole: ModelledHole,
): { units: { row: Row<'units'>; placed: Placed }[]; problems: Problem[] } {
  const problems: Problem[] = [];
  const units = campaign.rows.units.flatMap((row) => {
    if (row.hole !== hole.row.hole) return [];
    const place = measuredPlace(row.depth_basis, row.run, row.top_m, row.bottom_m);
    const { placed } = placedIn(run, hole, place);
    if (!placed.value.ok) {
      problems.push(coreProblem(campaign, 'units', row, placed.value));
      return [];
    }
    const { doubt } = placed.value;
    if (doubt !== null) problems.push(doubtful(campaign, 'units', row, doubt));
    return [{ row, placed: placed.value }];
  });
  return { units, problems };
}

export function unitResults(
  hole: ModelledHole,
  units: readonly { row: Row<'units'>; placed: Placed }[],
): UnitResult[] {
  const ground = hole.ground?.value ?? null;
  const at = ground === null ? null : { value: ground.value_m, sigma: elevationSigma(ground) };
  const placed = units.map(({ row, placed: place }): UnitResult => {
    const top = estimate(place.top);
    const bottom = estimate(place.bottom);
    return {
      row_id: row.row_id,
      unit: row.unit ?? '',
      sediment: row.sediment,
      secondary_sediment: row.secondary_sediment,
      colour: row.colour,
      contact_below: row.contact_below,
      structures: listed(row.structures),
      fossils: listed(row.fossils),
      environment: row.environment,
      description: row.note,
      core_top_m: place.core_top_m,
      core_bottom_m: place.core_bottom_m,
      depth_top_m: top,
      depth_bottom_m: bottom,
      elevation_top_m: at === null ? null : elevationOf(top, at),
      elevation_bottom_m: at === null ? null : elevationOf(bottom, at),
    };
  });
  placed.sort((a, b) => a.depth_top_m.value - b.depth_top_m.value);
  return layersOf(placed, (unit) => unit).map(joined);
}

/** Pieces of one layer, from the top down, as one: what is said of any of them is said of it. */
function joined(pieces: readonly UnitResult[]): UnitResult {
  const bottom = pieces.at(-1)!;
  return {
    ...pieces[0]!,
    secondary_sediment: together(pieces, (piece) => piece.secondary_sediment),
    colour: together(pieces, (piece) => piece.colour),
    environment: together(pieces, (piece) => piece.environment),
    description: together(pieces, (piece) => piece.description),
    contact_below: pieces.findLast((piece) => piece.contact_below !== null)?.contact_below ?? null,
    structures: [...new Set(pieces.flatMap((piece) => piece.structures))],
    fossils: [...new Set(pieces.flatMap((piece) => piece.fossils))],
    core_bottom_m: bottom.core_bottom_m,
    depth_bottom_m: bottom.depth_bottom_m,
    elevation_bottom_m: bottom.elevation_bottom_m,
  };
}

function together(pieces: readonly UnitResult[], said: (piece: UnitResult) => string | null): string | null {
  const each = new Set(pieces.map(said).filter((words) => words !== null));
  return each.size === 0 ? null : [...each].join('; ');
}
