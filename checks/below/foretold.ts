/** What is foretold below a hole of a simulated section from the others, against what is there. */
import { type RandomStream, randomStream } from '@stillstand/science/base';
import {
  type BelowSettings,
  type ExpectedContact,
  expectedBelow,
  type HoleBelow,
  type TiedBases,
} from '@stillstand/science/correlate/below';
import { type SectionTruth, type SimulatedHole, simulatedSection } from '../correlation/simulated-section.ts';

export interface Foretold {
  contact: ExpectedContact;
  /** Elevation of it as described in the hole when it went on, m; null where it is not there; undefined where the hole ends above where it may be. */
  is: number | null | undefined;
  isBetween: boolean;
}

const asHole = (
  { column, at_m }: SimulatedHole,
  name: number,
  deepest = Number.POSITIVE_INFINITY,
): HoleBelow => ({
  hole: `H${name}`,
  east_m: at_m,
  north_m: 0,
  ground_m: column.units[0]!.top_m,
  units: column.units.slice(0, deepest).map(({ sediment, base_m, isBaseSeen }, i) => ({
    id: `${i}`,
    sediment,
    environment: null,
    base_m,
    isBaseSeen: isBaseSeen && i < deepest - 1,
  })),
});

/** True ties of bases that are seen, of two holes. */
const tiesOf = (a: SimulatedHole, nameA: number, b: SimulatedHole, nameB: number): TiedBases[] =>
  a.beds.flatMap((bed, i) => {
    const j = b.beds.indexOf(bed);
    if (j === -1 || !a.column.units[i]!.isBaseSeen || !b.column.units[j]!.isBaseSeen) return [];
    return [{ hole_a: `H${nameA}`, unit_a: `${i}`, hole_b: `H${nameB}`, unit_b: `${j}` }];
  });

/** Of each section one hole, which has been drilled to a random one of its units. */
export function foretold(
  truth: SectionTruth,
  sections: number,
  seed: number,
  settings: BelowSettings,
): Foretold[] {
  const stream = randomStream(seed).split('below');
  const all: Foretold[] = [];
  for (let k = 0; k < sections; k++) {
    const holes = simulatedSection(truth, stream.split(k));
    all.push(...ofOne(holes, stream.split(`hole of ${k}`), settings));
  }
  return all;
}

function ofOne(holes: readonly SimulatedHole[], stream: RandomStream, settings: BelowSettings): Foretold[] {
  const here = stream.integer(holes.length);
  const own = holes[here]!;
  const met = stream.integer(Math.max(1, own.column.units.length - 1));
  const reached_m = met === 0 ? own.column.units[0]!.top_m.value : own.column.units[met]!.top_m.value - 0.01;
  const names = holes.map((_, i) => i);
  const drilled = asHole(own, here, met + 1);
  const ties = names.flatMap((i) => names.flatMap((j) => (j > i ? tiesOf(holes[i]!, i, holes[j]!, j) : [])));
  const known = ties.filter(
    ({ hole_a, unit_a, hole_b, unit_b }) =>
      (hole_a !== drilled.hole || Number(unit_a) < met) && (hole_b !== drilled.hole || Number(unit_b) < met),
  );
  const others = names.filter((i) => i !== here).map((i) => asHole(holes[i]!, i));
  const expected = expectedBelow(drilled, reached_m, others, known, settings);
  if (expected === null) return [];
  const found = expected.contacts.map(({ units }) => {
    const { hole, unit } = units[0]!;
    const at = own.beds.indexOf(holes[Number(hole.slice(1))]!.beds[Number(unit)]!);
    return at !== -1 && own.column.units[at]!.isBaseSeen ? own.column.units[at]!.base_m.value : null;
  });
  // The land surface below all beds ends the section.
  const isToTheEnd = own.beds.includes(-1);
  return expected.contacts.flatMap((contact, k): Foretold[] => {
    if (contact.met !== null) return [];
    const isPast = isToTheEnd || found.some((lower, l) => l > k && lower !== null);
    return [
      {
        contact,
        is: found[k] ?? (isPast ? null : undefined),
        isBetween: here > 0 && here < holes.length - 1,
      },
    ];
  });
}
