/** 230Th/U age of a closed system, with or without thorium from detritus. */
import { exp, inQuadrature, square } from '@stillstand/science/base';
import type { Finding } from '@stillstand/science/dating';
import { type DecayConstants, LAMBDA232 } from './decay-constants.ts';
import { growthOf, growthOfExcess, lastOf, ratioAt, slopeAt, solved } from './growth.ts';
import { type ActivityRatios, detritusDoubt, faultsOf, type InitialThorium } from './ratios.ts';

export interface UraniumAge {
  kind: 'age';
  /** Years before the sample was measured; 1 sigma of the ratios, and of the initial thorium apart. */
  age_yr: number;
  error_yr: number;
  ratios_yr: number;
  initial_thorium_yr: number;
  /** Ends of the central 95 %; the older is null where it lies beyond the reach of the method. */
  younger95_yr: number;
  older95_yr: number | null;
  /** δ234U when the sample formed, ‰, 1 sigma. */
  initial_delta234u_permil: number;
  initial_delta234u_sd_permil: number;
  /** What is doubtful; the age was computed all the same. */
  doubts: Finding[];
}

export interface NotDated {
  kind: 'not_dated';
  findings: Finding[];
}

const Z95 = 1.959964;

/**
 * [230Th/238U] = 1 − e^(−λ230·T) + (δ/1000)·λ230/(λ230 − λ234)·(1 − e^(−(λ230 − λ234)·T)) + [232Th/238U]·A₀·e^(−λ230·T) solved for T,
 * δ = 1000·([234U/238U] − 1), A₀ the initial 230Th/232Th activity ratio (0 without a correction). Kaufman & Broecker 1965,
 * J. Geophys. Res. 70:4039–4054; Edwards, Chen & Wasserburg 1987, Earth Planet. Sci. Lett. 81:175–192 (both from memory).
 * The correction leaves uranium of the detritus out. Errors to first order; decay constants are taken as exact.
 */
export function uraniumAge(
  ratios: ActivityRatios,
  decay: DecayConstants,
  initial: InitialThorium | null,
): UraniumAge | NotDated {
  const findings = faultsOf(ratios, initial);
  if (findings.length > 0) return { kind: 'not_dated', findings };
  const { th230_u238: thorium, u234_u238: uranium, correlation, th230_th232 } = ratios;
  const excess = uranium.value - 1;
  const th232_u238 = initial === null ? 0 : thorium.value / th230_th232!;
  const activity = (ppm: number): number => (1e-6 * ppm * decay.lambda230) / LAMBDA232;
  const model = growthOf(ratios, decay, initial);
  const { detrital } = model;
  if (thorium.value <= detrital) return notDated(allDetrital(thorium.value, detrital));
  const age = solved(model, thorium.value);
  if (age === null) return notDated(beyond(thorium.value, uranium.value, ratioAt(model, lastOf(model))));
  const slope = slopeAt(model, age);
  const grown = growthOfExcess(decay, age);
  const fading = exp(-decay.lambda230 * age);
  // The content of 232Th is found from the same 230Th, so that the detrital part goes with its error.
  const byThorium = (1 - (detrital / thorium.value) * fading) / slope;
  const byUranium = -grown / slope;
  const ratios_yr = Math.sqrt(
    square(byThorium * thorium.sd) +
      square(byUranium * uranium.sd) +
      2 * correlation * byThorium * byUranium * thorium.sd * uranium.sd,
  );
  const initial_thorium_yr = (th232_u238 * activity(initial?.sd_ppm ?? 0) * fading) / slope;
  const error_yr = inQuadrature(ratios_yr, initial_thorium_yr);
  const back = exp(decay.lambda234 * age);
  // δ₀ = δ·e^(λ234·T): by way of the age, and of 234U itself.
  const permil = 1000 * back;
  const bySelf = 1 + excess * decay.lambda234 * byUranium;
  const byOther = excess * decay.lambda234 * byThorium;
  return {
    kind: 'age',
    age_yr: age,
    error_yr,
    ratios_yr,
    initial_thorium_yr,
    // The equation bends: the error is taken to the ratio, and the ends of the ratio back to ages.
    younger95_yr: solved(model, thorium.value - Z95 * slope * error_yr) ?? 0,
    older95_yr: solved(model, thorium.value + Z95 * slope * error_yr),
    initial_delta234u_permil: permil * excess,
    initial_delta234u_sd_permil:
      permil *
      Math.sqrt(
        square(bySelf * uranium.sd) +
          square(byOther * thorium.sd) +
          2 * correlation * bySelf * byOther * uranium.sd * thorium.sd +
          square(excess * decay.lambda234 * initial_thorium_yr),
      ),
    doubts: [detritusDoubt(ratios, initial)].filter((doubt) => doubt !== null),
  };
}

const notDated = (finding: Finding): NotDated => ({ kind: 'not_dated', findings: [finding] });

const allDetrital = (found: number, detrital: number): Finding => ({
  of: 'th230_th232',
  found: `${found} 230Th/238U; ${detrital.toPrecision(3)} of it from detritus when the sample formed`,
  expected: 'more 230Th than the detritus had',
  fix: 'Check the ratios and the initial 230Th/232Th; so much detritus leaves no age.',
});

const beyond = (thorium: number, uranium: number, most: number): Finding => ({
  of: 'th230_u238',
  found: `${thorium} with 234U/238U ${uranium}`,
  expected: `below ${most.toPrecision(5)}, the most a closed system reaches`,
  fix: 'No age fits: check the ratios. The sample is beyond the reach of the method, or lost uranium.',
});
