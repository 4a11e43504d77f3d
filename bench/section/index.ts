/** A section of 40 holes with 20 units each, laid out: plainly tied, and with rows, a profile and ties that cross. */
import { type RandomStream, randomStream } from '@stillstand/science/base';
import {
  fillUnits,
  type SectionBoundary,
  type SectionColumn,
  type SectionTie,
} from '@stillstand/science/correlate';
import { least_ms } from '../least.ts';

export interface SectionBench {
  what: string;
  holes: number;
  ms: number;
  bodies: number;
  /** Of twice as many holes, to these: 2 where the time grows as the section does. */
  doubled: number;
}

const UNITS = 20;
const HOLES = 40;
const REPEATS = 10;
const SEDIMENTS = ['sand', 'silt', 'mud', 'peat', 'gravel'];

export function benchSection(): SectionBench[] {
  return [measure('every second contact tied', false), measure('rows, profile, ties that cross', true)];
}

function measure(what: string, isBusy: boolean): SectionBench {
  const time = (holes: number): { ms: number; bodies: number } => {
    const { columns, ties, boundaries, profile } = section(holes, isBusy, randomStream('section bench'));
    const fill = () => fillUnits(columns, ties, boundaries, profile);
    return { ms: least_ms(fill, REPEATS), bodies: fill().bodies.length };
  };
  const [once, twice] = [time(HOLES), time(2 * HOLES)];
  return { what, holes: HOLES, ms: once.ms, bodies: once.bodies, doubled: twice.ms / once.ms };
}

function section(holes: number, isBusy: boolean, random: RandomStream) {
  const columns = Array.from({ length: holes }, (_, h): SectionColumn => {
    const ground_m = 2 + 0.3 * random.normal();
    let at = ground_m;
    const units = Array.from({ length: UNITS }, (_, u) => {
      const top_m = at;
      at -= 0.2 + random.uniform();
      const sediment = SEDIMENTS[random.integer(SEDIMENTS.length)]!;
      const base = u % 7 === 3 ? 'erosional' : null;
      return { id: `${h}.${u}`, top_m, bottom_m: at, sediment, base, isBaseSeen: true };
    });
    return { hole: `H${h}`, along_m: 50 * h, ground_m, units };
  });
  const ties: SectionTie[] = [];
  const boundaries: SectionBoundary[] = [];
  for (let h = 1; h < holes; h++)
    for (let u = 1; u < UNITS; u += 2) {
      const other = isBusy ? Math.min(UNITS - 1, u + random.integer(4)) : u;
      const [hole_a, hole_b] = [`H${h - 1}`, `H${h}`];
      const row_id = `${h} ${u}`;
      const horizon = `horizon ${row_id}`;
      ties.push({
        row_id,
        hole_a,
        unit_a: `${h - 1}.${u}`,
        hole_b,
        unit_b: `${h}.${other}`,
        confidence: null,
        horizon,
      });
      if (isBusy)
        boundaries.push({
          row_id,
          horizon,
          hole_a,
          hole_b,
          ending: 'interfingered',
          at_fraction: random.uniform(),
          lift_m: random.normal(),
        });
    }
  const profile = isBusy
    ? Array.from({ length: 500 }, (_, i) => ({ along_m: i * 4, elevation_m: 2 + 0.3 * random.normal() }))
    : [];
  return { columns, ties, boundaries, profile };
}
