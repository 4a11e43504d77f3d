/**
 * One push of a one-piece tube, a chamber or a hand corer, brought to the same door as a string: what entered is what
 * was pushed less the shortening, and that is the sediment inside below the top of the tube less the ground outside
 * below it, read before pulling.
 */
import type { EnteredPlace, Registration } from '@stillstand/science/rig';
import type { DepthInput } from './model.ts';

export interface Push {
  row_id: string;
  /** Below ground; bottom > top. */
  from_m: number;
  to_m: number;
  recovered_m: number | null;
  inside_top_m: number | null;
  outside_top_m: number | null;
  /** A chamber is turned shut in place: nothing is shortened. */
  chamber: boolean;
}

export interface ReducedPush {
  input: DepthInput;
  entered_m: number;
  sigma_m: number;
  /** m; negative where the core swelled, which is squeezed back. Null where nothing tells. */
  shortening_m: number | null;
  entered_from: 'chamber' | 'readings' | 'recovered' | 'nothing';
  recovery: number;
}

/** 1 sigma of one tape reading; of what entered where only the recovered length tells. Common practice, no source. */
const TAPE_SIGMA_M = 0.01;
const RECOVERED_SIGMA_M = 0.05;

/** What entered in a push. Nothing throws; a push that ends above its start has no length. */
export function reducePush(push: Push): ReducedPush {
  const length = Math.max(0, push.to_m - push.from_m);
  let entered_m = length;
  let sigma_m = 0;
  let shortening_m: number | null = null;
  let entered_from: ReducedPush['entered_from'] = 'nothing';
  if (push.chamber) {
    entered_from = 'chamber';
    shortening_m = 0;
    sigma_m = 1e-3;
  } else if (push.inside_top_m !== null && push.outside_top_m !== null) {
    entered_from = 'readings';
    shortening_m = push.inside_top_m - push.outside_top_m;
    sigma_m = TAPE_SIGMA_M * Math.SQRT2;
  } else if (push.recovered_m !== null) {
    entered_from = 'recovered';
    shortening_m = length - push.recovered_m;
    sigma_m = RECOVERED_SIGMA_M;
  }
  if (shortening_m !== null) entered_m = Math.max(0, Math.min(length, length - shortening_m));
  const registration: Registration[] =
    entered_from === 'nothing'
      ? []
      : [
          {
            kind: 'pin',
            row_id: push.row_id,
            penetration_m: push.from_m + length,
            entered_m,
            sigma_m,
            place_sigma_m: 0,
          },
        ];
  return {
    input: { from_m: push.from_m, penetration_m: push.from_m + length, registration },
    entered_m,
    sigma_m,
    shortening_m,
    entered_from,
    recovery: length > 0 ? entered_m / length : 0,
  };
}

/**
 * Place of a length down the recovered core of a push. What entered but did not come up was lost at the base (the usual
 * place, common practice); a core longer than what entered is squeezed evenly.
 */
export function placeInPush(push: Push, reckoning: ReducedPush, core_m: number): EnteredPlace {
  const { entered_m } = reckoning;
  const recovered = push.recovered_m ?? entered_m;
  const scale = recovered > entered_m && recovered > 0 ? entered_m / recovered : 1;
  const at = Math.max(0, Math.min(entered_m, core_m * scale));
  return { low_m: at, high_m: at, shared: push.row_id, error_low: 0, error_high: 0 };
}
