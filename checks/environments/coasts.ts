/** Environments through time on many simulated coasts, and what was found of them in words. */
import { randomStream } from '@stillstand/science/base';
import { type AgeSettings, agedCoast } from './aged-coast.ts';
import { type Coverage, cover, noCoverage } from './coverage.ts';
import { inWords, tenthsInWords } from './shares.ts';
import { type CoastSettings, simulatedCoast } from './simulated-coast.ts';

export const COASTS = 200;
export const SEED = 1751;
const AGES: AgeSettings = { draws: 200, sigma_yr: [30, 120] };

export function covered(coast: CoastSettings, ages: Partial<AgeSettings>, seed = SEED): Coverage {
  const all = noCoverage();
  for (let i = 0; i < COASTS; i++) {
    const random = randomStream(seed).split('coasts').split(i);
    const truth = simulatedCoast(coast, random.split('coast'));
    const columns = agedCoast(truth, { ...AGES, ...ages }, random.split('ages'));
    cover(all, truth, columns, random.split('edge'));
  }
  return all;
}

export const print = (all: Coverage): string[] => [
  `edge ${inWords(all.edge)}; where it went on to the next hole ${inWords(all.through)}, where it came back ${inWords(all.back)}; band ${(all.width_m / all.edge.of).toFixed(0)} m wide, holes ${(all.apart_m / all.edge.of).toFixed(0)} m apart`,
  `holes whose layers have as many changes of side as there were ${inWords(all.told)}; edge of coasts of such holes alone ${inWords(all.toldEdge)}`,
  `passages ${inWords(all.passages)}; surface ${inWords(all.surface)}`,
  `stood at least so long ${inWords(all.atLeast)}; first age ${inWords(all.began)}, last ${inWords(all.ended)}, longest time of the hole that had it longest ${inWords(all.longest)}`,
  `of spells said, true: ${tenthsInWords(all.spells)}`,
];
