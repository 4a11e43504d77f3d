/** Decay constants of the uranium series, 1/yr. An age belongs to one set: comparing ages of two sets needs them computed again. */

export interface DecayConstants {
  name: string;
  source: string;
  lambda230: number;
  lambda234: number;
}

const HALVES = Math.LN2;
/** 14.05 Gyr (from memory): turns an atomic 230Th/232Th into an activity ratio, where its error is nothing. */
export const LAMBDA232 = HALVES / 14.05e9;

/** By label; the first is the usual one. */
export const DECAY_CONSTANTS = {
  cheng2013: {
    name: 'Cheng et al. 2013',
    source:
      'Cheng et al. 2013, Earth Planet. Sci. Lett. 371–372:82–91; 238U Jaffey et al. 1971, Phys. Rev. C 4:1889–1906',
    lambda230: 9.1705e-6,
    lambda234: 2.82206e-6,
  },
  cheng2000: {
    name: 'Cheng et al. 2000',
    source: 'Cheng et al. 2000, Chem. Geol. 169:17–33 (half-lives 75,690 and 245,250 yr)',
    lambda230: HALVES / 75_690,
    lambda234: HALVES / 245_250,
  },
} as const satisfies Record<string, DecayConstants>;

export type DecayConstantSet = keyof typeof DECAY_CONSTANTS;

export const isDecayConstantSet = (label: string): label is DecayConstantSet =>
  Object.hasOwn(DECAY_CONSTANTS, label);
