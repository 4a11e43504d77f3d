/** A kind of pipe: bore, mass, area ratio. Diameters in mm, as pipe is called. */
import { square } from '@stillstand/science/base';

export interface PipeKind {
  outside_diameter_mm: number;
  wall_mm: number;
  /** As the maker states it; null: from diameter and wall. */
  mass_kg_per_m: number | null;
}

export const bore_mm = (pipe: PipeKind): number => pipe.outside_diameter_mm - 2 * pipe.wall_mm;

/** Plain-end steel at 7850 kg/m³, ASME B36.10M: 0.0246615 (D − t) t; a stated mass wins. */
export function massPerMetre(pipe: PipeKind): number {
  const { outside_diameter_mm: d, wall_mm: t, mass_kg_per_m } = pipe;
  return mass_kg_per_m ?? 0.0246615 * (d - t) * t;
}

/** Shape of a sampling tube or of the string's shoe, mm. */
export interface TubeShape {
  /** Greatest outside diameter (of the shoe). */
  outside_mm: number;
  /** Diameter of the cutting edge. */
  edge_mm: number;
  /** Inside, above the edge. */
  inside_mm: number;
  /** Outside of the tube above the shoe. */
  tube_mm: number;
}

/**
 * Ratios of Hvorslev 1949 (Subsurface Exploration and Sampling of Soils, US Army WES): area ratio (Dw² − De²)/De²,
 * inside clearance (Ds − De)/De, outside clearance (Dw − Dt)/Dt. Small disturbance: area ratio below 0.10, inside
 * clearance 0.01 to 0.03, outside not much above the inside one. Shares, not per cent.
 */
export function hvorslevRatios(tube: TubeShape): {
  area_ratio: number;
  inside_clearance: number;
  outside_clearance: number;
} {
  const { outside_mm, edge_mm, inside_mm, tube_mm } = tube;
  return {
    area_ratio: (square(outside_mm) - square(edge_mm)) / square(edge_mm),
    inside_clearance: (inside_mm - edge_mm) / edge_mm,
    outside_clearance: (outside_mm - tube_mm) / tube_mm,
  };
}
