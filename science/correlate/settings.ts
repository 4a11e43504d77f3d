/** What the comparison of two columns assumes. Set on simulated sections: docs/methods/correlation.md. */
import type { Likeness } from './likeness.ts';

export interface CorrelationSettings {
  /** How often one layer is described alike in two holes, against how often two units picked at random are. */
  odds: Readonly<Record<Likeness, number>>;
  /** 1 sd of the logarithm of the ratio of two thicknesses of one layer. */
  thickness_log_sd: number;
  /** 1 sd of the height of one contact between two holes, each contact for itself: `relief_m`, and `slope` times their distance. */
  relief_m: number;
  slope: number;
  /** 1 sd of what all contacts rise or fall together, m per m of distance: a dip; 0 for none. */
  dip: number;
  /** Distance where none is known, m. */
  distance_m: number;
  /** Spread of a measured property within a layer, as a share of its spread between layers. */
  property_share: number;
  /** Probability that one thing compared is plainly wrong or says nothing. */
  blunder: number;
  /** Logarithm of the odds that a layer of one hole is missing from the other, against being in both. */
  missing: number;
  /** Years by which a contact may be younger one metre higher and still be one. */
  years_per_m: number;
  /** A tie is clear where its margin is at least this. */
  clear_margin: number;
}

export const correlationDefaults: CorrelationSettings = {
  odds: { same: 10, akin: 0.75, different: 0.05 },
  thickness_log_sd: 0.6,
  relief_m: 0.6,
  slope: 0.01,
  dip: 0.02,
  distance_m: 100,
  property_share: 0.4,
  blunder: 0.05,
  missing: -1.25,
  // A sea that rises by 2 mm/yr; common practice, no source.
  years_per_m: 500,
  clear_margin: 2,
};
