/**
 * Plain-end steel pipe, ASME B36.10M-2018 (schedule 40 = STD and 80 = XS to NPS 8): diameters and walls from memory of
 * the standard; masses computed, 0.0246615 (D − t) t kg/m at 7850 kg/m³. Threads and couplings change length, mass and
 * strength: the maker's figures decide, above all before anything is lifted or pulled.
 */

export interface PipeSize {
  /** Nominal pipe size, inches, as it is called. */
  nps: string;
  schedule: 40 | 80;
  outside_diameter_mm: number;
  wall_mm: number;
  mass_kg_per_m: number;
}

const size = (
  nps: string,
  schedule: 40 | 80,
  outside_diameter_mm: number,
  wall_mm: number,
  mass_kg_per_m: number,
): PipeSize => ({ nps, schedule, outside_diameter_mm, wall_mm, mass_kg_per_m });

export const pipeSizes: readonly PipeSize[] = [
  size('1', 40, 33.4, 3.38, 2.5),
  size('1', 80, 33.4, 4.55, 3.24),
  size('1 1/4', 40, 42.2, 3.56, 3.39),
  size('1 1/4', 80, 42.2, 4.85, 4.47),
  size('1 1/2', 40, 48.3, 3.68, 4.05),
  size('1 1/2', 80, 48.3, 5.08, 5.41),
  size('2', 40, 60.3, 3.91, 5.44),
  size('2', 80, 60.3, 5.54, 7.48),
  size('2 1/2', 40, 73, 5.16, 8.63),
  size('2 1/2', 80, 73, 7.01, 11.41),
  size('3', 40, 88.9, 5.49, 11.29),
  size('3', 80, 88.9, 7.62, 15.27),
  size('3 1/2', 40, 101.6, 5.74, 13.57),
  size('3 1/2', 80, 101.6, 8.08, 18.64),
  size('4', 40, 114.3, 6.02, 16.08),
  size('4', 80, 114.3, 8.56, 22.32),
  size('5', 40, 141.3, 6.55, 21.77),
  size('5', 80, 141.3, 9.53, 30.97),
  size('6', 40, 168.3, 7.11, 28.26),
  size('6', 80, 168.3, 10.97, 42.56),
  size('8', 40, 219.1, 8.18, 42.55),
  size('8', 80, 219.1, 12.7, 64.64),
];
