/** A section as the results have it. */
type Point = readonly [along_m: number, elevation_m: number];
export interface SectionBody {
  units: readonly { hole: string; unit: string }[];
  sediment: string;
  outline: readonly Point[];
}
export interface SectionContact {
  hole_a: string;
  unit_a: string;
  hole_b: string | null;
  unit_b: string | null;
  horizon: string | null;
  confidence: 'certain' | 'probable' | 'possible' | null;
  ending: 'continuous' | 'pinch_out' | 'truncated' | 'interfingered' | 'unknown';
  isErosional: boolean;
  line: readonly Point[];
  tie: string | null;
  boundary: string | null;
}
export interface SectionResult {
  line: string;
  holes: readonly { hole: string; along_m: number; offset_m: number }[];
  distances: 'measured' | 'unknown';
  ground: readonly Point[];
  bodies: readonly SectionBody[];
  contacts: readonly SectionContact[];
  queries: readonly Point[];
  time_lines: readonly { age_cal_bp: number; line: readonly Point[] }[];
}
