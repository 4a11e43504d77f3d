/** Profiles whose truth is known: 44 slices of 1 cm, counted with errors of 4 % and 2 Bq/kg. */
import { cos, exp, type RandomStream } from '@stillstand/science/base';
import type { LeadProfile, LeadSlice } from '@stillstand/science/lead';

export interface Truth {
  /** Supply, Bq/m²/yr, and sedimentation, kg/m²/yr, so many years before collection. */
  supply: (age_yr: number, stream: RandomStream) => number;
  sedimentation: (age_yr: number) => number;
  /** The top so deep is one mixture, m. */
  mixed_m?: number;
  /** How supported lead-210 is known. */
  supported: 'each_slice' | 'tail';
  /** Slices counted, of 44. */
  counted?: number;
}

const SLICES = 44;
const SLICE_M = 0.01;
/** Steps of the truth, yr. */
const STEP_YR = 0.05;

export interface Simulated {
  profile: LeadProfile;
  /** True age of each base, yr before collection. */
  bases_yr: Float64Array;
}

export function simulated(truth: Truth, stream: RandomStream): Simulated {
  // Of the half-life too: the evaluated 22.20 ± 0.22 yr.
  const lambda = Math.LN2 / (22.2 + 0.22 * stream.normal());
  const density = Array.from({ length: SLICES }, () => 0.4 + 0.2 * stream.uniform());
  const bases_yr = new Float64Array(SLICES);
  const activity: number[] = [];
  const yearly = stream.split('supply');
  let age = 0;
  for (const [i, each] of density.entries()) {
    const mass = each * 1000 * SLICE_M;
    let [laid, lead] = [0, 0];
    while (laid < mass) {
      const added = Math.min(STEP_YR, (mass - laid) / truth.sedimentation(age));
      laid += added * truth.sedimentation(age);
      lead += added * truth.supply(age, yearly) * exp(-lambda * (age + added / 2));
      age += added;
    }
    bases_yr[i] = age;
    activity.push(lead / mass);
  }
  const mixed = Math.round((truth.mixed_m ?? 0) / SLICE_M);
  const masses = density.slice(0, mixed);
  const whole = masses.reduce((sum, mass) => sum + mass, 0);
  const mixture = masses.reduce((sum, mass, i) => sum + mass * activity[i]!, 0) / whole;
  const counted = (bq_kg: number) => {
    const sigma_bq_kg = 0.04 * bq_kg + 2;
    return { bq_kg: bq_kg + sigma_bq_kg * stream.normal(), sigma_bq_kg };
  };
  const SUPPORTED = 25;
  const slices = activity.map(
    (excess, i): LeadSlice => ({
      id: `${i}`,
      top_m: i * SLICE_M,
      bottom_m: (i + 1) * SLICE_M,
      total: counted(SUPPORTED + (i < mixed ? mixture : excess)),
      supported: truth.supported === 'tail' ? null : counted(SUPPORTED),
      density_g_cm3: density[i]!,
      caesium: null,
    }),
  );
  return {
    profile: { slices: slices.slice(0, truth.counted ?? SLICES), supported: null, collected_ce: 2020 },
    bases_yr,
  };
}

const even = () => 1.5;
const constant = () => 150;

/** `holds`: the models it is the truth of are held to their bounds; of the others coverage is printed. */
export const TRUTHS: Record<string, { truth: Truth; holds: readonly string[] }> = {
  'even supply and sedimentation': {
    truth: { supply: constant, sedimentation: even, supported: 'each_slice' },
    holds: ['constant_supply', 'constant_concentration', 'constant_flux'],
  },
  'even supply, sedimentation doubled in the last 50 yr': {
    truth: { supply: constant, sedimentation: (age) => (age < 50 ? 2 : 1), supported: 'each_slice' },
    holds: ['constant_supply'],
  },
  'even supply, sedimentation that swings by half in 30 yr': {
    truth: {
      supply: constant,
      sedimentation: (age) => 1.5 * (1 + 0.5 * cos((2 * Math.PI * age) / 30)),
      supported: 'each_slice',
    },
    holds: ['constant_supply'],
  },
  'even, supported from the deepest slices': {
    truth: { supply: constant, sedimentation: () => 1, supported: 'tail' },
    holds: ['constant_supply'],
  },
  'even, cut off at 22 cm': {
    truth: { supply: constant, sedimentation: even, supported: 'each_slice', counted: 22 },
    holds: ['constant_supply'],
  },
  'supply that scatters by 30 % from year to year': {
    truth: {
      supply: (_, stream) => 150 * (1 + 0.3 * Math.sqrt(1 / STEP_YR) * stream.normal()),
      sedimentation: even,
      supported: 'each_slice',
    },
    holds: [],
  },
  'supply that swings by 30 % in 40 yr': {
    truth: {
      supply: (age) => 150 * (1 + 0.3 * cos((2 * Math.PI * age) / 40)),
      sedimentation: even,
      supported: 'each_slice',
    },
    holds: [],
  },
  'supply and sedimentation doubled in the last 50 yr': {
    truth: {
      supply: (age) => (age < 50 ? 200 : 100),
      sedimentation: (age) => (age < 50 ? 2 : 1),
      supported: 'each_slice',
    },
    holds: ['constant_concentration'],
  },
  'top 5 cm mixed': {
    truth: { supply: constant, sedimentation: even, supported: 'each_slice', mixed_m: 0.05 },
    holds: [],
  },
};
