/**
 * Pulling the string: what hangs on the hook, what holds it in the ground, what that makes of the line through blocks
 * and sheaves, and all of it against what is marked on the gear. Forces in kN.
 */
import { power, square } from '@stillstand/science/base';
import { CAUTIONS } from '../caution.ts';
import { bore_mm, massPerMetre, type PipeKind } from '../string/pipe.ts';

const GRAVITY_M_S2 = 9.80665;
const STEEL_KG_M3 = 7850;
const SEA_KG_M3 = 1025;
/** Sediment in the plug, with its water; a high value, common practice, no source. */
const PLUG_KG_M3 = 2000;

export interface Range {
  low: number;
  high: number;
}

/**
 * Friction on the shaft, F = πD∫βσ′v dz = πDβγ′P²/2 with the water table at the ground. β = 0.15 (soft clay, organic) to
 * 0.60 (dense sand), γ′ = 4 (organic) to 11 kN/m³ (sand): from memory; published values of β vary as widely. Vibrated,
 * between a tenth and a half of it is left: our estimate, no source.
 */
export const FRICTION = {
  beta: { low: 0.15, high: 0.6 },
  buoyant_kn_m3: { low: 4, high: 11 },
  vibrated: { low: 0.1, high: 0.5 },
} as const;

/** API RP 9B, 14th ed. 2018: K per sheave. Plain bearings from memory. */
export const SHEAVE_K = { roller: 1.04, plain: 1.09 } as const;
export type Bearing = keyof typeof SHEAVE_K;

/**
 * Efficiency of N parts of line over S rolling sheaves, (K^N − 1)/(K^S·N·(K − 1)): API RP 9B. Whole parts and sheaves from 1
 * (0 sheaves for a straight pull), K ≥ 1.
 */
export function reevingEfficiency(parts: number, sheaves: number, k: number): number {
  if (!(Number.isInteger(parts) && parts >= 1 && Number.isInteger(sheaves) && sheaves >= 0 && k >= 1)) {
    throw new RangeError(
      `parts ${parts}, sheaves ${sheaves}, K ${k}: expected whole parts ≥ 1 and sheaves ≥ 0, K ≥ 1`,
    );
  }
  return k === 1 ? 1 : (power(k, parts) - 1) / (power(k, sheaves) * parts * (k - 1));
}

export interface Reeving {
  parts: number;
  /** Rolling sheaves; as many as parts where the line comes off the crown. */
  sheaves: number;
  bearing: Bearing;
}

export interface LineLoad {
  efficiency: number;
  /** To the winch. */
  fast_line_kn: number;
  /** At the anchored end, S = N. */
  dead_line_kn: number;
  /** Down on crown, tripod or derrick: hook, fast and dead line together. */
  head_kn: number;
  /**
   * On a sheave block: the hook, which the parts of line at a travelling block hold together, or, where that is more, both
   * ends of the fast line on one sheave that turns it back on itself, fast·(1 + 1/K): the largest resultant there is.
   */
  block_kn: number;
}

/** What a load on the hook makes of the line while it is raised. */
export function lineLoad(hook_kn: number, reeving: Reeving): LineLoad {
  const k = SHEAVE_K[reeving.bearing];
  const efficiency = reevingEfficiency(reeving.parts, reeving.sheaves, k);
  const fast_line_kn = hook_kn / (reeving.parts * efficiency);
  const dead_line_kn = fast_line_kn / power(k, reeving.sheaves);
  return {
    efficiency,
    fast_line_kn,
    dead_line_kn,
    head_kn: hook_kn + fast_line_kn + dead_line_kn,
    block_kn: Math.max(hook_kn, fast_line_kn * (1 + 1 / k)),
  };
}

/** A mark on the gear: what it may carry, and where the load runs through it. */
export interface RatedLoad {
  part: string;
  rated_kn: number;
  on: 'line' | 'hook' | 'block' | 'head';
}

export interface PullInput {
  pipe: PipeKind;
  collar_to_shoe_m: number;
  penetration_m: number;
  plug_m: number | null;
  /** Drive head, vibrator, block: what hangs there beside the pipe. */
  extra_kg: number;
  reeving: Reeving;
  rated: readonly RatedLoad[];
}

export interface PullEstimate {
  weight_air_kn: number;
  /** With the part below ground in water. */
  weight_water_kn: number;
  /** In the string: nothing where it slips out, or all sediment and water where the plug holds. */
  content_kn: Range;
  friction_kn: Range;
  friction_vibrated_kn: Range;
  still: PullCase;
  vibrated: PullCase;
  caution: string;
}

export interface PullCase {
  hook_kn: Range;
  fast_line_kn: Range;
  head_kn: Range;
  efficiency: number;
  against: {
    part: string;
    rated_kn: number;
    load_kn: Range;
    verdict: 'within' | 'could exceed' | 'exceeds';
  }[];
}

/** Null where a number is missing or impossible (pipe without bore, string shorter than what is in the ground). */
export function pullEstimate(input: PullInput): PullEstimate | null {
  const { pipe, collar_to_shoe_m, penetration_m, plug_m, extra_kg, reeving, rated } = input;
  const bore = bore_mm(pipe);
  const sound =
    bore > 0 &&
    collar_to_shoe_m > 0 &&
    penetration_m >= 0 &&
    penetration_m <= collar_to_shoe_m + 0.05 &&
    extra_kg >= 0;
  if (!sound) return null;
  const weight = (kg: number) => (kg * GRAVITY_M_S2) / 1000;
  const perMetre = massPerMetre(pipe);
  const weight_air_kn = weight(perMetre * collar_to_shoe_m + extra_kg);
  const weight_water_kn = weight_air_kn - weight((perMetre * penetration_m * SEA_KG_M3) / STEEL_KG_M3);
  const area = (Math.PI / 4) * square(bore / 1000);
  const plug = Math.max(0, Math.min(collar_to_shoe_m, plug_m ?? penetration_m));
  const full = area * (plug * PLUG_KG_M3 + (collar_to_shoe_m - plug) * SEA_KG_M3);
  const content_kn = { low: 0, high: weight(full) };
  const friction_kn = shaftFriction_kn(pipe.outside_diameter_mm, penetration_m);
  const friction_vibrated_kn = {
    low: friction_kn.low * FRICTION.vibrated.low,
    high: friction_kn.high * FRICTION.vibrated.high,
  };
  const hook = (friction: Range): Range => ({
    low: weight_water_kn + content_kn.low + friction.low,
    high: weight_air_kn + content_kn.high + friction.high,
  });
  return {
    weight_air_kn,
    weight_water_kn,
    content_kn,
    friction_kn,
    friction_vibrated_kn,
    still: pullCase(hook(friction_kn), reeving, rated),
    vibrated: pullCase(hook(friction_vibrated_kn), reeving, rated),
    caution: CAUTIONS.line_pull,
  };
}

/** Friction on a string `penetration_m` in the ground, not vibrated, least and most. */
export function shaftFriction_kn(outside_diameter_mm: number, penetration_m: number): Range {
  const shape = (Math.PI * (outside_diameter_mm / 1000) * square(penetration_m)) / 2;
  const { beta, buoyant_kn_m3: gamma } = FRICTION;
  return { low: shape * beta.low * gamma.low, high: shape * beta.high * gamma.high };
}

function pullCase(hook_kn: Range, reeving: Reeving, rated: readonly RatedLoad[]): PullCase {
  const low = lineLoad(hook_kn.low, reeving);
  const high = lineLoad(hook_kn.high, reeving);
  const of: Record<RatedLoad['on'], Range> = {
    hook: hook_kn,
    line: { low: low.fast_line_kn, high: high.fast_line_kn },
    block: { low: low.block_kn, high: high.block_kn },
    head: { low: low.head_kn, high: high.head_kn },
  };
  return {
    hook_kn,
    fast_line_kn: of.line,
    head_kn: of.head,
    efficiency: low.efficiency,
    against: rated.map(({ part, rated_kn, on }) => ({
      part,
      rated_kn,
      load_kn: of[on],
      verdict: of[on].high <= rated_kn ? 'within' : of[on].low <= rated_kn ? 'could exceed' : 'exceeds',
    })),
  };
}
