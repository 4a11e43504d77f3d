/** Dose rate of a sample from the contents of its sediment, its water, its grains and the cosmic dose. */
import { inQuadrature, square } from '@stillstand/science/base';
import type { Finding } from '@stillstand/science/dating';
import type { DoseFactors, Element, Radiation, Sourced } from './dose-factors.ts';
import { exactly, type Measured } from './measured.ts';
import type { Grains, Sediment } from './sediment.ts';
import { doubtsOf, faultsOf } from './sediment-findings.ts';

/** 1 sigma of the dose rate of one input, Gy/ka. */
interface ErrorPart {
  of: string;
  random: number;
  systematic: number;
}

export interface DoseRate {
  kind: 'rate';
  /** Gy/ka. */
  rate: Measured;
  parts_gy_ka: Record<Radiation | 'cosmic' | 'internal', number>;
  /** Where the error is from, the largest first. */
  errors: ErrorPart[];
  /** Measureds of the literature that were used. */
  used: { name: string; source: string; from_memory: boolean }[];
  /** What is doubtful in the inputs; the rate was computed all the same. */
  doubts: Finding[];
}

export interface NoDoseRate {
  kind: 'no_rate';
  findings: Finding[];
}

const RADIATIONS = ['alpha', 'beta', 'gamma'] as const satisfies readonly Radiation[];
const ELEMENTS = ['uranium', 'thorium', 'potassium'] as const satisfies readonly Element[];

/** Finer than this the whole of a grain receives the alpha and beta dose (common practice: 4 to 11 µm). */
const FINE_UM = 20;

/**
 * Σ content · factor · attenuation / (1 + h·water) over alpha, beta and gamma, + cosmic + internal, Gy/ka. Water: Zimmerman
 * 1971, Archaeometry 13:29–52; Aitken 1985, Thermoluminescence Dating. Errors to first order; those of the factors and of the
 * attenuation are systematic. Assumes equilibrium of the series, ground alike for 0.3 m all round, and contents and water that
 * were always what they are.
 */
export function doseRate(sediment: Sediment, factors: DoseFactors): DoseRate | NoDoseRate {
  const attenuation = betaAttenuation(sediment, factors);
  const findings = [
    ...faultsOf(sediment),
    ...(attenuation === null ? [noAttenuation(sediment.grains, factors)] : []),
  ];
  if (attenuation === null || findings.length > 0) return { kind: 'no_rate', findings };
  const { water, cosmic, internal = exactly(0) } = sediment;
  const isFine = sediment.grains.to_um <= FINE_UM;
  const received: Record<Radiation, Measured> = {
    alpha: (isFine ? sediment.alpha_efficiency : null) ?? exactly(0),
    beta: attenuation,
    gamma: exactly(1),
  };
  const h = factors.water.figures;
  const table = factors.conversion.figures;
  const wetness = (r: Radiation): number => 1 + h[r] * water.value;
  const dry = (r: Radiation): number =>
    ELEMENTS.reduce((sum, element) => sum + table[r][element] * sediment[element].value, 0);
  const wet = (r: Radiation): number => (received[r].value * dry(r)) / wetness(r);
  const fromGround = RADIATIONS.reduce((sum, r) => sum + wet(r), 0);
  const scaled = (of: string, { random, systematic }: Measured, slope: number): ErrorPart => ({
    of,
    random: Math.abs(slope) * random,
    systematic: Math.abs(slope) * systematic,
  });
  const errors = [
    ...ELEMENTS.map((element) =>
      scaled(
        element,
        sediment[element],
        RADIATIONS.reduce((sum, r) => sum + (received[r].value * table[r][element]) / wetness(r), 0),
      ),
    ),
    scaled(
      'water',
      water,
      RADIATIONS.reduce((sum, r) => sum + (wet(r) * h[r]) / wetness(r), 0),
    ),
    scaled('alpha efficiency', received.alpha, dry('alpha') / wetness('alpha')),
    scaled('beta attenuation', attenuation, dry('beta') / wetness('beta')),
    { of: 'dose factors', random: 0, systematic: factors.conversion_sigma.figures * fromGround },
    scaled('cosmic dose', cosmic, 1),
    scaled('internal dose', internal, 1),
  ].filter(({ random, systematic }) => random > 0 || systematic > 0);
  const size = (e: ErrorPart): number => square(e.random) + square(e.systematic);
  return {
    kind: 'rate',
    rate: {
      value: fromGround + cosmic.value + internal.value,
      random: inQuadrature(...errors.map((e) => e.random)),
      systematic: inQuadrature(...errors.map((e) => e.systematic)),
    },
    parts_gy_ka: {
      alpha: wet('alpha'),
      beta: wet('beta'),
      gamma: wet('gamma'),
      cosmic: cosmic.value,
      internal: internal.value,
    },
    errors: errors.sort((a, b) => size(b) - size(a)),
    used: figuresUsed(sediment, isFine, factors),
    doubts: doubtsOf(sediment, isFine),
  };
}

/** Null where the table does not reach the grains and no part is stated. */
function betaAttenuation(
  { grains, beta_attenuation }: Sediment,
  { beta_attenuation: { figures } }: DoseFactors,
): Measured | null {
  if (beta_attenuation) return beta_attenuation;
  if (grains.to_um <= FINE_UM) return exactly(1);
  const middle = (grains.from_um + grains.to_um) / 2;
  const { rows, sigma } = figures;
  const above = rows.findIndex(({ diameter_um }) => diameter_um >= middle);
  if (above === -1 || (above === 0 && rows[0]!.diameter_um > middle)) return null;
  const right = rows[above]!;
  const left = rows[Math.max(0, above - 1)]!;
  const span = right.diameter_um - left.diameter_um;
  const along = span === 0 ? 0 : (middle - left.diameter_um) / span;
  return { value: left.part + along * (right.part - left.part), random: 0, systematic: sigma };
}

function noAttenuation({ from_um, to_um }: Grains, { beta_attenuation: { figures } }: DoseFactors): Finding {
  const [first, last] = [figures.rows[0]!, figures.rows.at(-1)!];
  return {
    of: 'grains',
    found: `${from_um} to ${to_um} µm`,
    expected: `grains about ${first.diameter_um} to ${last.diameter_um} µm across, or finer than ${FINE_UM} µm`,
    fix: 'Correct the sieve limits (in µm), or state the beta attenuation of these grains with its error.',
  };
}

function figuresUsed(
  { beta_attenuation, water }: Sediment,
  isFine: boolean,
  factors: DoseFactors,
): DoseRate['used'] {
  const of = (name: string, { source, from_memory }: Sourced<unknown>) => ({ name, source, from_memory });
  return [
    of('dose factors', factors.conversion),
    of('error of the dose factors', factors.conversion_sigma),
    ...(water.value > 0 ? [of('water factors', factors.water)] : []),
    ...(beta_attenuation || isFine ? [] : [of('beta attenuation', factors.beta_attenuation)]),
  ];
}
