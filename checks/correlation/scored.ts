/** How what is proposed between neighbouring holes of simulated sections compares with what is truly one. */
import { randomStream } from '@stillstand/science/base';
import { type CorrelationSettings, correlate } from '@stillstand/science/correlate';
import { type SectionTruth, type SimulatedHole, simulatedSection } from './simulated-section.ts';

export interface Scored {
  /** Ties truly there, with both bases seen. */
  truly: number;
  /** Of ties with both bases seen: the margin, and whether they are truly there. */
  proposed: { margin: number; isTrue: boolean }[];
}

export function scored(
  truth: SectionTruth,
  sections: number,
  seed: number,
  settings: CorrelationSettings,
): Scored {
  const stream = randomStream(seed).split('sections');
  const made: Scored = { truly: 0, proposed: [] };
  for (let k = 0; k < sections; k++) {
    const holes = simulatedSection(truth, stream.split(k));
    for (let i = 1; i < holes.length; i++) {
      const [a, b] = [holes[i - 1]!, holes[i]!];
      const { ties } = correlate({ a: a.column, b: b.column, distance_m: b.at_m - a.at_m }, settings);
      made.truly += trueTies(a, b);
      for (const tie of ties)
        if (tie.areBasesSeen)
          made.proposed.push({ margin: tie.margin, isTrue: a.beds[tie.a] === b.beds[tie.b] });
    }
  }
  return made;
}

const trueTies = (a: SimulatedHole, b: SimulatedHole): number =>
  a.beds.filter((bed, i) => {
    const j = b.beds.indexOf(bed);
    return j !== -1 && a.column.units[i]!.isBaseSeen && b.column.units[j]!.isBaseSeen;
  }).length;

/** Above a margin: which share of what is proposed is true, and which share of what is true is proposed. */
export function above(
  { truly, proposed }: Scored,
  margin: number,
): { precision: number; recall: number; of: number } {
  const clear = proposed.filter((tie) => tie.margin >= margin);
  const right = clear.filter(({ isTrue }) => isTrue).length;
  return { precision: right / clear.length, recall: right / truly, of: clear.length };
}
