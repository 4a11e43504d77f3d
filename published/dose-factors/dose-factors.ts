/**
 * Figures that dose rates are computed with, to be replaced as a whole. None of them has been compared with the print yet
 * (`from_memory`): whoever shows a number made with them says so. Both sets of factors agree with published dose rates to a
 * few per cent, which tells neither from the other (checks/luminescence).
 */
import type { DoseFactors } from '@stillstand/science/luminescence';

const SHARED: Omit<DoseFactors, 'conversion'> = {
  conversion_sigma: {
    // The two sets differ by up to 2.5 % (gamma of potassium), the whole rate of common sediment by 1 to 2 %.
    figures: 0.02,
    source: 'difference between the two published sets (common practice, no source)',
    from_memory: false,
  },
  water: {
    figures: { alpha: 1.5, beta: 1.25, gamma: 1.14 },
    source: 'Zimmerman 1971, Archaeometry 13:29–52; Aitken 1985 (beta and gamma as others quote them)',
    from_memory: true,
  },
  beta_attenuation: {
    // 0.90 to 0.92 for 100 to 200 µm, 0.86 to 0.88 for 200 to 300 µm, taken at the middles and drawn on to the ends.
    figures: {
      rows: [
        { diameter_um: 100, part: 0.93 },
        { diameter_um: 300, part: 0.85 },
      ],
      sigma: 0.02,
    },
    source: 'quartz, after Mejdahl 1979, Brennan 2003 and Guérin et al. 2012',
    from_memory: true,
  },
  specific_activity: {
    figures: { uranium: 12.44, thorium: 4.057, potassium: 317 },
    source:
      'computed: half-lives 4.468, 14.05 and 1.248 Gyr, 0.0117 % of potassium is 40K; 12.35, 4.06 and 313 are in use as well',
    from_memory: false,
  },
};

/** By label; the first is the usual one. */
export const DOSE_FACTORS = {
  guerin2011: {
    ...SHARED,
    conversion: {
      figures: {
        alpha: { uranium: 2.795, thorium: 0.7375, potassium: 0 },
        beta: { uranium: 0.1457, thorium: 0.0277, potassium: 0.7982 },
        gamma: { uranium: 0.1116, thorium: 0.0479, potassium: 0.2491 },
      },
      source: 'Guérin, Mercier & Adamiec 2011, Ancient TL 29:5–8',
      from_memory: true,
    },
  },
  adamiec1998: {
    ...SHARED,
    conversion: {
      figures: {
        alpha: { uranium: 2.78, thorium: 0.732, potassium: 0 },
        beta: { uranium: 0.146, thorium: 0.0273, potassium: 0.782 },
        gamma: { uranium: 0.113, thorium: 0.0476, potassium: 0.243 },
      },
      source: 'Adamiec & Aitken 1998, Ancient TL 16:37–50',
      from_memory: true,
    },
  },
} as const satisfies Record<string, DoseFactors>;

export type DoseFactorSet = keyof typeof DOSE_FACTORS;

export const DOSE_FACTOR_SETS = Object.keys(DOSE_FACTORS) as DoseFactorSet[];

export const isDoseFactorSet = (label: string): label is DoseFactorSet => Object.hasOwn(DOSE_FACTORS, label);
