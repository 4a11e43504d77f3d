/** What cannot be computed with in the inputs of a dose rate, and what is computed with but doubtful. */
import type { Finding } from '@stillstand/science/dating';
import { errorOf, type Measured } from './measured.ts';
import type { Grains, Sediment } from './sediment.ts';

/** Gamma rays come from so far, m (common practice, from memory of Aitken 1985). */
const GAMMA_REACH_M = 0.3;
/** ppm of thorium for one of uranium in ordinary sediment (common practice, no source): outside it a slip is likely. */
const THORIUM_PER_URANIUM = [0.8, 12] as const;
/** Cosmic dose rate at the ground and sea level is about 0.2 Gy/ka, at 4 km about 0.5 (from memory). */
const MOST_COSMIC = 0.6;
/** More potassium than any rock but salts has, %. */
const MOST_POTASSIUM = 15;

/** What no rate can be computed with. */
export function faultsOf(sediment: Sediment): Finding[] {
  const { uranium, thorium, potassium, water, cosmic, internal, alpha_efficiency, beta_attenuation, grains } =
    sediment;
  return [
    ...outside('uranium', 'ppm', uranium, 0, 10_000),
    ...outside('thorium', 'ppm', thorium, 0, 10_000),
    ...outside('potassium', '%', potassium, 0, 100),
    ...outside('water', 'of dry mass', water, 0, 20),
    ...outside('cosmic', 'Gy/ka', cosmic, 0, 10),
    ...outside('internal', 'Gy/ka', internal, 0, 10),
    ...outside('alpha_efficiency', '', alpha_efficiency, 0, 1),
    ...outside('beta_attenuation', '', beta_attenuation, 0, 1),
    ...grainFaults(grains),
  ];
}

function outside(
  of: string,
  unit: string,
  given: Measured | null | undefined,
  least: number,
  most: number,
): Finding[] {
  if (!given) return [];
  const error = errorOf(given);
  if (given.value >= least && given.value <= most && error >= 0 && error < Infinity) return [];
  return [
    {
      of,
      found: `${given.value} ± ${error} ${unit}`.trim(),
      expected: `${least} to ${most}${unit === '' ? '' : ` ${unit}`}, and an error of 0 or more`,
      fix: 'Correct the number or its unit; no rate is computed until then.',
    },
  ];
}

function grainFaults({ from_um, to_um }: Grains): Finding[] {
  if (from_um >= 0 && to_um > from_um && to_um < Infinity) {
    if (to_um >= 2) return [];
    return [
      {
        of: 'grains',
        found: `${from_um} to ${to_um} µm`,
        expected: 'sieve limits in µm, such as 180 to 250',
        fix: 'The limits look like millimetres: write them in µm.',
      },
    ];
  }
  return [
    {
      of: 'grains',
      found: `${from_um} to ${to_um} µm`,
      expected: 'the finer limit of the sieve, then the coarser, in µm',
      fix: 'Correct the sieve limits.',
    },
  ];
}

/** What is used as it is, and looks like a slip or leaves something out. */
export function doubtsOf(sediment: Sediment, isFine: boolean): Finding[] {
  const { uranium, thorium, potassium, water, cosmic, depth_m, grains, alpha_efficiency } = sediment;
  const ratio = thorium.value / uranium.value;
  const [least, most] = THORIUM_PER_URANIUM;
  const doubts: (Finding | null)[] = [
    ratio < least || ratio > most
      ? {
          of: 'thorium',
          found: `${thorium.value} ppm with ${uranium.value} ppm of uranium`,
          expected: `${least} to ${most} ppm of thorium for each of uranium, as in most sediments`,
          fix: 'Check the decimal points of both.',
        }
      : null,
    potassium.value > MOST_POTASSIUM
      ? {
          of: 'potassium',
          found: `${potassium.value} %`,
          expected: `at most ${MOST_POTASSIUM} %, as % of K (not K2O)`,
          fix: 'Check the unit; 1 % of K2O is 0.83 % of K.',
        }
      : null,
    water.value > 0 && water.value < 0.01
      ? {
          of: 'water',
          found: `${(100 * water.value).toPrecision(2)} % of dry mass`,
          expected: 'percent of dry mass, 5 to 60 in most sediments below the water table',
          fix: 'If it was typed as a fraction (0.3 for 30 %), write it in percent.',
        }
      : null,
    errorOf(water) === 0
      ? {
          of: 'water',
          found: `${Math.round(1000 * water.value) / 10} % of dry mass, with no error`,
          expected: 'the error of the mean water content since burial',
          fix: 'State one, such as a quarter of the value: today’s water is not that of all the time since burial.',
        }
      : null,
    cosmic.value > MOST_COSMIC || cosmic.value === 0
      ? {
          of: 'cosmic',
          found: `${cosmic.value} Gy/ka`,
          expected: `above 0 and at most ${MOST_COSMIC} Gy/ka`,
          fix: 'State the cosmic dose rate at the depth of the sample; check that it is not the total rate.',
        }
      : null,
    depth_m != null && depth_m < GAMMA_REACH_M
      ? {
          of: 'depth',
          found: `${depth_m.toFixed(2)} m`,
          expected: `at least ${GAMMA_REACH_M} m of like ground all round`,
          fix: 'So near to the ground part of the gamma dose is missing: take a measured gamma dose rate.',
        }
      : null,
    isFine && !alpha_efficiency
      ? {
          of: 'alpha_efficiency',
          found: 'none',
          expected: 'the alpha efficiency (a-value) of fine grains with its error',
          fix: 'State it; the alpha dose is left out, so that the rate is too low and the age too old.',
        }
      : null,
    !isFine && !grains.etched
      ? {
          of: 'grains',
          found: `${grains.from_um} to ${grains.to_um} µm, not etched`,
          expected: 'coarse grains whose outer layer was etched off',
          fix: 'The alpha dose of the outer layer is left out: the rate is too low.',
        }
      : null,
  ];
  return doubts.filter((doubt) => doubt !== null);
}
