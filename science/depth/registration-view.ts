/**
 * What a figure of depth registration shows: entered length against penetration as sounded, each model's line through
 * it, and what each would make of one layer. Plain data; depths in metres below the ground at the start of the hole.
 */
import type { EnteredPlace } from '@stillstand/science/rig';
import { readingErrors } from './errors.ts';
import { type DepthInput, type DepthModel, summaryOf } from './model.ts';

export interface RegistrationView {
  from_m: number;
  penetration_m: number;
  pins: {
    row_id: string;
    penetration_m: number;
    entered_m: number;
    /** 1 sigma of the entered length, errors of all runs before it included. */
    sigma_m: number;
  }[];
  models: {
    kind: DepthModel['kind'];
    /** The model's line, from the top down: depth against entered length, 95 % about it. */
    entered_m: number[];
    depth_m: number[];
    lower95_m: number[];
    upper95_m: number[];
    not_represented: { top_m: number; bottom_m: number }[];
    /** Above 2 the soundings reject the model; null for ours, which runs through them. */
    rejected_sd: number | null;
    worst_m: number | null;
    layer: { top_m: Bounds; bottom_m: Bounds; thickness_m: Bounds } | null;
  }[];
}

interface Bounds {
  value: number;
  lower95: number;
  upper95: number;
}

/**
 * @param models of the same input: ours and its rivals
 * @param layer along everything that entered, or places of a run; bottom below top; null where none is chosen
 * @param points of each line
 */
export function registrationView(
  input: DepthInput,
  models: readonly DepthModel[],
  layer: { top: number | EnteredPlace; bottom: number | EnteredPlace } | null,
  points = 61,
): RegistrationView {
  const { factor, pins, runs } = readingErrors(input.registration);
  const sigmaOf = (pin: number): number => {
    let sum = 0;
    for (let k = 0; k <= pin; k++) sum += factor[pin * (pins + runs) + k]! ** 2;
    return Math.sqrt(sum);
  };
  return {
    from_m: input.from_m,
    penetration_m: input.penetration_m,
    pins: input.registration
      .filter((r) => r.kind === 'pin')
      .map(({ row_id, penetration_m, entered_m }, i) => ({
        row_id,
        penetration_m,
        entered_m,
        sigma_m: sigmaOf(i),
      })),
    models: models.map((model) => {
      const line = model.curve(points);
      return {
        kind: model.kind,
        entered_m: [...line.entered_m],
        depth_m: [...line.median_m],
        lower95_m: [...line.lower95_m],
        upper95_m: [...line.upper95_m],
        not_represented: model.not_represented,
        rejected_sd: model.misfit === null ? null : model.misfit.rejected_sd,
        worst_m: model.misfit === null ? null : model.misfit.worst_m,
        layer: layer === null ? null : layerOf(model, layer),
      };
    }),
  };
}

function layerOf(
  model: DepthModel,
  layer: { top: number | EnteredPlace; bottom: number | EnteredPlace },
): RegistrationView['models'][number]['layer'] {
  const top = model.inSituDepth(layer.top);
  const bottom = model.inSituDepth(layer.bottom);
  // draw by draw: what both share does not widen the thickness
  const thickness = summaryOf(bottom.draws.map((d, i) => d - top.draws[i]!));
  const bounds = ({ value, lower95, upper95 }: Bounds): Bounds => ({ value, lower95, upper95 });
  return { top_m: bounds(top), bottom_m: bounds(bottom), thickness_m: bounds(thickness) };
}
