/**
 * Depth models at speed: milliseconds for growing numbers of soundings half a metre apart, a run after every second one,
 * and how well their draws serve: how many of them still differ at the top, and how far what they say of shortening at
 * the ground changes from seed to seed.
 */
import { exp, randomStream } from '@stillstand/science/base';
import {
  type DepthInput,
  depthCurve,
  depthDefaults,
  depthModel,
  inSituDepth,
} from '@stillstand/science/depth';

export interface DepthBench {
  pins: number;
  draws: number;
  /** Fastest of the repeats. */
  model_ms: number;
  curve_of_101_ms: number;
  place_ms: number;
  /** Share of the first draws that the last come from; mean. */
  ancestors: number;
  /** 1 sd between seeds, as a share: of the sigma of ρ₀. */
  sigma_spread: number;
}

const REPEATS = 60;

export function benchDepth(sizes: readonly number[] = [1, 8, 24, 96]): DepthBench[] {
  return sizes.map((pins) => {
    const input = soundedHole(pins);
    const least = { model: Infinity, curve: Infinity, place: Infinity };
    const sigmas: number[] = [];
    let ancestors = 0;
    for (let seed = 0; seed < REPEATS; seed++) {
      const [model, model_ms] = timed(() => depthModel(input, randomStream(seed)));
      const [, curve_ms] = timed(() => depthCurve(model, 101));
      const [, place_ms] = timed(() => inSituDepth(model, 0.3 * pins));
      least.model = Math.min(least.model, model_ms);
      least.curve = Math.min(least.curve, curve_ms);
      least.place = Math.min(least.place, place_ms);
      sigmas.push(model.shortening!.recovery_at_ground.sigma);
      ancestors += model.diagnostics!.ancestors / model.draws / REPEATS;
    }
    const mean = sigmas.reduce((a, b) => a + b, 0) / REPEATS;
    const variance = sigmas.reduce((a, b) => a + (b - mean) ** 2, 0) / (REPEATS - 1);
    return {
      pins,
      draws: depthDefaults.draws,
      model_ms: least.model,
      curve_of_101_ms: least.curve,
      place_ms: least.place,
      ancestors,
      sigma_spread: Math.sqrt(variance) / mean,
    };
  });
}

/** Decaying shortening read with errors of 1 cm. */
function soundedHole(pins: number): DepthInput {
  const noise = randomStream(1);
  const registration: DepthInput['registration'][number][] = [];
  for (let j = 1; j <= pins; j++) {
    const penetration_m = j / 2;
    const entered_m = penetration_m - 1.35 * (1 - exp(-penetration_m / 3)) + 0.01 * noise.normal();
    registration.push({
      kind: 'pin',
      row_id: `p${j}`,
      penetration_m,
      entered_m,
      sigma_m: 0.01,
      place_sigma_m: 0.005,
    });
    if (j % 2 === 0 && j < pins) {
      registration.push({
        kind: 'run',
        row_id: `r${j}`,
        entered_bottom_m: entered_m - 0.3,
        sigma_m: 0.01,
        from: 'soundings',
      });
    }
  }
  return { from_m: 0, penetration_m: pins / 2, registration };
}

function timed<T>(work: () => T): [T, number] {
  const started = performance.now();
  const result = work();
  return [result, performance.now() - started];
}
